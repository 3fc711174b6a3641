"""Choices, orders and ticks: letters and signs as typed, and the marks they earn."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from courseware.banks.exercise import ChoicePart
from courseware.marking.judge import Verdict
from courseware.marking.marks import NamedSlip
from courseware.papers.deal import LETTERS

_BETWEEN = re.compile(r"\band\b|\bthen\b|[\s,;.:/&>()+→-]+", re.IGNORECASE)
_SEEN, _NOT_SEEN = ("y", "yes", "1", "✓", "✔"), ("n", "no", "0", "✗", "✘", "x")
_SIGN = re.compile("|".join(sorted(_SEEN + _NOT_SEEN, key=len, reverse=True)))
LONGEST = 80


class NotRead(ValueError):
    """A cell that a person must settle, and why."""


def read_letters(typed: str, count: int) -> tuple[str, ...]:
    """The letters as typed, in order. Raises `NotRead` for one that is not on the paper or stands twice."""
    text = _BETWEEN.sub("", typed[:LONGEST]).upper()
    if not text or len(typed) > LONGEST:
        raise NotRead("no letter stands here")
    known = LETTERS[:count]
    if strange := [character for character in text if character not in known]:
        raise NotRead(f"`{strange[0]}` is not one of the letters {known[0]} to {known[-1]}")
    if len(set(text)) < len(text):
        raise NotRead("a letter stands twice")
    return tuple(text)


def read_ticks(typed: str, count: int) -> tuple[bool, ...]:
    """A truth for each point, as y or n. Raises `NotRead` where there is not one for each."""
    text = re.sub(r"[\s,;/.|-]+", "", typed[:LONGEST]).casefold()
    if text in {"all", "none"}:
        return (text == "all",) * count
    characters = _SIGN.findall(text)
    if "".join(characters) != text or len(characters) != count:
        raise NotRead(f"write y or n for each of the {count} points, as {'y' * (count - 1)}n; or all, or none")
    return tuple(character in _SEEN for character in characters)


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


def mark_order(written: Sequence[str], before: Sequence[tuple[str, str]], count: int, of: int) -> Verdict:
    """A sequence: the share of the pairs that it keeps."""
    place = {letter: index for index, letter in enumerate(written)}
    kept = [(a, b) for a, b in before if a in place and b in place and place[a] < place[b]]
    if len(kept) == len(before) and len(written) == count:
        return Verdict(how="right", marks=of, why="Right.")
    broken = [f"{a} before {b}" for a, b in before if (a, b) not in kept]
    missing = f"{count - len(written)} left out; " if len(written) < count else ""
    told = f"not kept: {', '.join(broken)}" if broken else "every pair written is kept"
    marks = min(of * len(kept) // len(before), of - 1 if len(written) < count else of)
    why = f"{missing}{len(kept)} of {len(before)} pairs kept; {told}."
    return Verdict(how="partly" if marks else "wrong", marks=marks, why=why[:1].upper() + why[1:])


def mark_ticks(ticks: Sequence[bool], of: int) -> Verdict:
    """A drawing, by the points that the assessor saw in it."""
    met = sum(ticks)
    if met == len(ticks):
        return Verdict(how="right", marks=of, why="Every point is there.")
    marks = met * (of // len(ticks))
    missing = ", ".join(str(number) for number, tick in enumerate(ticks, 1) if not tick)
    why = f"{met} of {len(ticks)} points; missing: point {missing}."
    return Verdict(how="partly" if marks else "wrong", marks=marks, why=why)


def choice_slip(part: ChoicePart, exercise: str, index: int, says: str) -> NamedSlip:
    """The slip behind a wrong choice, by its place in the bank."""
    return NamedSlip(key=f"{exercise}/{part.name}/choice-{index + 1}", says=says)
