"""One part marked: a figure, letters, an order or ticks, each figure from the learner's own earlier answers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache

from courseware.banks.exercise import ChoicePart, DrawnPart, Exercise, NumberPart, OrderPart, Part, TablePart
from courseware.banks.figures import exact_text, whole_as_int
from courseware.banks.formulas import FormulaImpossible, Value
from courseware.banks.shown_working import before_rounding
from courseware.banks.solve import SolvedNumber, solve_number
from courseware.banks.wording import Wording
from courseware.marking.judge import AskedFigure, Verdict, judge, within_band
from courseware.marking.lettered import (
    NotRead,
    choice_slip,
    mark_one,
    mark_order,
    mark_several,
    mark_ticks,
    read_letters,
    read_ticks,
)
from courseware.marking.read_answer import UNREACHED, WrittenFigure, read_figure, settled
from courseware.papers.compose import given_of
from courseware.papers.deal import LETTERS
from courseware.papers.sitting import IssuedExercise, IssuedPart
from courseware.papers.sitting_file import SittingFaulty
from courseware.trade import TradeError

# By label, the answers on a sitting's papers as texts, each with the codes of the papers that have it.
Others = Mapping[str, Mapping[str, Sequence[str]]]
_BLANK = Verdict(how="blank", marks=0, why="Nothing was written.")
_NOT_REACHED = Verdict(how="unreached", marks=0, why="Not reached.")


@dataclass(slots=True)
class Work:
    """An exercise of one paper while it is marked: what is right, and the learner's own answers so far."""

    issued: IssuedExercise
    exercise: Exercise
    _right: dict[str, Value] | None = None
    learner: dict[str, Value] = field(default_factory=dict)  # answers that differ from the right ones

    def right(self) -> dict[str, Value]:
        """The givens and the right answers, as the sitting has them; put together when first asked for."""
        if self._right is None:
            scope: dict[str, Value] = dict(given_of(self.exercise, self.issued))
            for part, entries in pair_parts(self.exercise, self.issued):
                for row, entry in zip(rows_of(part), entries, strict=True):
                    if isinstance(row, NumberPart):
                        scope[row.name] = whole_as_int(_figure(entry.answer))
                    elif isinstance(row, ChoicePart) and row.answer is not None:
                        scope[row.name] = row.answer.value(scope)
            self._right = scope
        return self._right

    def solved(self, part: NumberPart, entry: IssuedPart) -> SolvedNumber:
        """A part with its right figures. Raises `SittingFaulty` where the sitting's answer is another."""
        own = solve_number(part, self.right())
        if own.answer != _figure(entry.answer):
            raise SittingFaulty(f"part {entry.label}: its answer in the sitting is not the one this program finds")
        return own

    def says(self, words: Wording) -> str:
        """A bank's words on this paper, without the stop at their end."""
        return words.render(self.right(), self.issued.site).rstrip(".")


def pair_parts(exercise: Exercise, issued: IssuedExercise) -> Iterator[tuple[Part, tuple[IssuedPart, ...]]]:
    """Each part with its entries in the sitting: one, or one for each row of a table."""
    left = 0
    for part in exercise.parts:
        count = len(part.rows) if isinstance(part, TablePart) else 1
        entries = issued.parts[left : left + count]
        if len(entries) < count or any(
            not _is_of(row, entry) for row, entry in zip(rows_of(part), entries, strict=True)
        ):
            raise SittingFaulty(f"{exercise.name} does not have the parts it was issued with")
        yield part, entries
        left += count


def _is_of(part: Part, entry: IssuedPart) -> bool:
    """Whether an entry of the sitting is this part as its bank has it."""
    if isinstance(part, NumberPart):
        return (entry.name, entry.marks, entry.unit, entry.kind in {"number", "table"}) == (
            part.name,
            part.marks,
            part.unit,
            True,
        )
    options = part.choices if isinstance(part, ChoicePart) else part.steps if isinstance(part, OrderPart) else ()
    return (entry.name, entry.marks, sorted(entry.shown)) == (part.name, part.marks, list(range(len(options))))


def mark_part(part: Part, entry: IssuedPart, work: Work, typed: str, others: Others) -> Verdict:
    """One part, or one row of a table. Raises `NotRead` for a cell that a person must settle."""
    if isinstance(part, NumberPart):
        return _mark_number(part, entry, work, typed, others.get(entry.label, {}))
    return _mark_lettered(part, entry, work, typed)


def rows_of(part: Part) -> tuple[Part, ...]:
    """The rows of a table, else the part itself."""
    return part.rows if isinstance(part, TablePart) else (part,)


def _mark_number(
    part: NumberPart, entry: IssuedPart, work: Work, typed: str, others: Mapping[str, Sequence[str]]
) -> Verdict:
    written = read_figure(typed, entry.unit)
    answer = _figure(entry.answer)
    value = _meant(written, part, entry, work) if written.figures else None
    if value is None:
        _pass_on(part, entry, work)
    if written.reading == "blank":
        return _BLANK
    if written.reading == "not reached":
        return _NOT_REACHED
    if written.reading == "person":
        raise NotRead(written.why)
    if value is None:
        both = " or ".join(str(whole_as_int(figure)) for figure in written.figures[:1])
        raise NotRead(f"the comma may mean thousands or a decimal: {both}, or a thousandth of it")
    if written.reading == "figure" and (
        value == answer or (part.within and within_band(value, answer, work.solved(part, entry).within))
    ):
        if value != answer:
            work.learner[part.name] = whole_as_int(value)
        return Verdict(how="right", marks=part.marks, why="Right.")
    own = work.solved(part, entry)
    carried, withheld = _carry(part, own, work)
    verdict = judge(
        value,
        written,
        AskedFigure(
            own=own,
            carried=carried,
            withheld=withheld,
            says=lambda route: work.says(route.says),
            key=f"{work.exercise.name}/{part.name}",
            elsewhere=lambda figure: exact_text(figure) in others,
            before=(before_rounding(part, work.right()),)
            + ((before_rounding(part, {**work.right(), **work.learner}),) if carried else ()),
        ),
    )
    work.learner[part.name] = whole_as_int(value)
    return verdict


def _meant(written: WrittenFigure, part: NumberPart, entry: IssuedPart, work: Work) -> Fraction | None:
    """The one figure meant, in the light of the part's slips and routes where a comma leaves two; else None."""
    answer = _figure(entry.answer)
    if len(written.figures) == 1:
        return written.figures[0]
    own = work.solved(part, entry)
    carried, _ = _carry(part, own, work)
    known = [figure for solved in (own, carried) if solved for figure in (*solved.slips, *solved.accept)]
    return settled(written, answer, known)


def _pass_on(part: NumberPart, entry: IssuedPart, work: Work) -> None:
    """A part without a figure stands, for those after it, as the learner's own earlier answers make it."""
    if work.learner:
        own = work.solved(part, entry)
        carried, _ = _carry(part, own, work)
        if carried is not None and carried.answer != own.answer:
            work.learner[part.name] = carried.answer


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


@lru_cache(maxsize=50_000)
def _figure(text: str) -> Fraction:
    return Fraction(text)


def _carry(part: NumberPart, own: SolvedNumber, work: Work) -> tuple[SolvedNumber | None, str]:
    """The part from the learner's own earlier answers, where any stands in it; else None. And why it cannot be so."""
    formulas = (*(route.value for route in (*part.accept, *part.slips)), part.working[-1].value)
    used = part.answer.names.union(*(formula.names for formula in formulas if formula))
    if not any(name in used for name in work.learner):
        return None, ""
    try:
        carried = solve_number(part, {**work.right(), **work.learner})
    except (TradeError, FormulaImpossible) as why:
        return None, f"The earlier answer cannot be carried on: {str(why).rstrip('.')}."
    if _below_nothing(carried, own):
        return None, "The earlier answer cannot be carried on: it gives nothing, or less."
    return carried, ""


def _below_nothing(carried: SolvedNumber, own: SolvedNumber) -> bool:
    if own.answer and not carried.answer:
        return True
    figures = zip((carried.answer, *carried.working), (own.answer, *own.working), strict=True)
    return any(_negative(figure) and not _negative(right) for figure, right in figures)


def _negative(value: Value | None) -> bool:
    return value is not None and not isinstance(value, str | bool) and value < 0


def _mark_lettered(part: Part, entry: IssuedPart, work: Work, typed: str) -> Verdict:
    text = typed.strip()
    if not text:
        return _BLANK
    if text.casefold() in UNREACHED:
        return _NOT_REACHED
    if isinstance(part, DrawnPart):
        return mark_ticks(read_ticks(text, len(part.points)), part.marks)
    letters = read_letters(text, len(entry.shown))
    if isinstance(part, ChoicePart):
        return _mark_choice(part, entry, work, letters)
    return mark_order(letters, entry.before, len(entry.shown), entry.marks)


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
