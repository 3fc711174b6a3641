"""Ticks marked: one right choice, by the learner's own earlier answers too, or several."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import cast

from courseware.banks.formulas import FormulaImpossible, Value
from courseware.banks.part import Part
from courseware.marking.judge import Verdict
from courseware.marking.lettered import left_out, read_letters, read_out
from courseware.marking.marks import NamedSlip
from courseware.marking.part_kind import KindInMarking, Others, Work
from courseware.papers.part_kind import LETTERS
from courseware.papers.sitting import IssuedPart
from courseware.part_kinds.choice.bank import ChoicePart, choice_step
from courseware.trade import TradeError


def _mark(row: Part, entry: IssuedPart, work: Work, typed: str, _: Others) -> Verdict:
    part = cast("ChoicePart", row)
    return left_out(typed) or _mark_choice(part, entry, work, read_letters(typed.strip(), len(entry.shown)))


def _mark_choice(part: ChoicePart, entry: IssuedPart, work: Work, letters: tuple[str, ...]) -> Verdict:
    right = entry.answer.split(",")
    places = {letter: entry.shown[LETTERS.index(letter)] for letter in letters}
    wrong = [places[letter] for letter in letters if letter not in right]
    slips = tuple(
        choice_slip(part, work.exercise.name, index, work.says(says))
        for index in wrong
        if (says := part.choices[index].says)
    )
    if part.several:
        return mark_several(letters, right, LETTERS[: len(entry.shown)], part.marks, slips)
    if wrong and len(letters) == 1:
        if (answer := _followed(part, wrong[0], work)) is not None:
            work.learner[part.name] = answer
            return Verdict(how="carried", marks=part.marks, why="Right from the learner's own earlier answer.")
        if ticked := part.choices[wrong[0]].value:
            work.learner[part.name] = ticked.value(work.right())
    return mark_one(letters, right[0], part.marks, slips[0] if slips else None)


def _followed(part: ChoicePart, ticked: int, work: Work) -> Value | None:
    """The answer that the learner's own earlier answers make right, where the choice ticked is that one; else None."""
    if part.answer is None or not any(name in part.answer.names for name in work.learner):
        return None
    own = {**work.right(), **work.learner}
    try:
        answer = part.answer.value(own)
        fits = [choice.value and choice.value.value(own) == answer for choice in part.choices]
    except (TradeError, FormulaImpossible):
        return None
    return answer if fits.count(True) == 1 and fits[ticked] else None


def mark_one(ticked: Sequence[str], right: str, of: int, slip: NamedSlip | None) -> Verdict:
    """A choice of which one is right."""
    if len(ticked) > 1:
        return Verdict(how="wrong", marks=0, why=f"{len(ticked)} ticked where one is right.")
    if ticked[0] == right:
        return Verdict(how="right", marks=of, why="Right.")
    if slip:
        return Verdict(how="slip", marks=0, why=f"{slip.says}.", slips=(slip,))
    return Verdict(how="wrong", marks=0, why=f"{ticked[0]} was ticked; {right} is right.")


def mark_several(
    ticked: Sequence[str], right: Sequence[str], letters: Sequence[str], of: int, slips: tuple[NamedSlip, ...]
) -> Verdict:
    """A choice of which several are right: the share of the right ones ticked less that of the wrong ones.

    So ticking everything earns nothing, and neither does ticking at random, on average.
    """
    wrong = [letter for letter in letters if letter not in right]
    hit, missed = sum(letter in right for letter in ticked), sum(letter in wrong for letter in ticked)
    share = Fraction(hit, len(right)) - (Fraction(missed, len(wrong)) if wrong else 0)
    marks = int(of * max(share, Fraction(0)))
    why = f"{hit} of {len(right)} right ones ticked, {missed} wrong."
    if hit == len(right) and not missed:
        return Verdict(how="right", marks=of, why="Right.")
    return Verdict(how="partly" if marks else "wrong", marks=marks, why=why, slips=slips)


def choice_slip(part: ChoicePart, exercise: str, index: int, says: str) -> NamedSlip:
    """The slip behind a wrong choice, by its place in the bank."""
    return NamedSlip(key=f"{exercise}/{part.name}/{choice_step(index)}", says=says)


def _right(row: Part, _: IssuedPart, scope: Mapping[str, Value]) -> Value | None:
    return row.answer.value(scope) if row.answer else None


def _read(row: Part, entry: IssuedPart, work: Work, typed: str) -> str:
    """`B: Two and a half bricks` for one letter, `A, C` for several."""
    letters = read_out(typed, entry, ", ")
    if len(letters) != 1:
        return letters
    return f"{letters}: {work.says(cast('ChoicePart', row).choices[entry.shown[LETTERS.index(letters)]].say)}"


def _invented(entry: IssuedPart, draw: int) -> str:
    return entry.answer if draw < 70 else LETTERS[draw % len(entry.shown)]


KIND = KindInMarking(cell="the letters ticked: B, or A C", mark=_mark, invented=_invented, right=_right, read=_read)
