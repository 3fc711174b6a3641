"""A figure marked: from the learner's own earlier answers as well, so that a slip is charged once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from typing import cast

from courseware.banks.figures import DoesNotWriteOut, exact_text, half_up, whole_as_int, write_out
from courseware.banks.formulas import FormulaImpossible, Value
from courseware.banks.number_part import NumberPart, SolvedNumber, solve_number
from courseware.banks.part import Part
from courseware.banks.shown_working import before_rounding
from courseware.marking.invented_scripts import plain_figure
from courseware.marking.judge import AskedFigure, Verdict, judge, within_band
from courseware.marking.part_kind import BLANK, NOT_REACHED, KindInMarking, NotRead, Others, Work
from courseware.marking.read_answer import WrittenFigure, read_figure, settled
from courseware.papers.compose_parts import shown_figure, with_unit
from courseware.papers.sitting import IssuedPart
from courseware.papers.sitting_file import SittingFaulty
from courseware.trade import TradeError


def _mark(row: Part, entry: IssuedPart, work: Work, typed: str, others: Others) -> Verdict:
    return _mark_number(cast("NumberPart", row), entry, work, typed, others.get(entry.label, {}))


def _mark_number(
    part: NumberPart, entry: IssuedPart, work: Work, typed: str, others: Mapping[str, Sequence[str]]
) -> Verdict:
    written = read_figure(typed, entry.unit, work.says(part.ask))
    answer = _figure(entry.answer)
    value = _meant(written, part, entry, work) if written.figures else None
    if value is None:
        _pass_on(part, entry, work)
    if written.reading == "blank":
        return BLANK
    if written.reading == "not reached":
        return NOT_REACHED
    if written.reading == "person":
        raise NotRead(written.why)
    if value is None:
        both = " or ".join(str(whole_as_int(figure)) for figure in written.figures[:1])
        raise NotRead(f"the comma may mean thousands or a decimal: {both}, or a thousandth of it")
    if written.reading == "figure" and (
        value == answer or (part.within and within_band(value, answer, _solved(part, entry, work).within))
    ):
        if value != answer:
            work.learner[part.name] = whole_as_int(value)
        return Verdict(how="right", marks=part.marks, why="Right.")
    own = _solved(part, entry, work)
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
    return replace(verdict, carried=_told(part, own, carried))


def _carried(row: Part, entry: IssuedPart, work: Work) -> str:
    part = cast("NumberPart", row)
    own = _solved(part, entry, work)
    return _told(part, own, _carry(part, own, work)[0])


def _told(part: NumberPart, own: SolvedNumber, carried: SolvedNumber | None) -> str:
    """A carried answer with its unit; '' where it is the right one."""
    if carried is None or carried.answer == own.answer:
        return ""
    return with_unit(_in_figures(part, carried.answer), part.unit)


def _read(row: Part, entry: IssuedPart, work: Work, typed: str) -> str:
    """`0.91 m = 910 mm`; `910 mm` for 910 alone, and whichever a comma means."""
    written = read_figure(typed, entry.unit, work.says(cast("NumberPart", row).ask))
    if written.reading in {"blank", "not reached"}:
        return "" if written.reading == "blank" else "not reached"
    if written.reading == "person":
        raise NotRead(written.why)
    value = _meant(written, cast("NumberPart", row), entry, work)
    if value is None:
        small, large = sorted(written.figures)
        raise NotRead(f"a comma: {exact_text(small)} or {exact_text(large)}?")
    if written.reading == "wrong unit":
        return f"{typed.strip()}: another unit than {entry.unit}"
    read, text = with_unit(exact_text(value), entry.unit), " ".join(typed.split())
    return read if text in {exact_text(value), read} else f"{text} = {read}"


def _in_figures(part: NumberPart, answer: Value) -> str:
    """A carried answer as the part asks for it, about to two places where it has no end."""
    try:
        return shown_figure(part, answer)
    except DoesNotWriteOut:
        return f"about {write_out(half_up(Fraction(cast('int', answer)), 2))}"


def _meant(written: WrittenFigure, part: NumberPart, entry: IssuedPart, work: Work) -> Fraction | None:
    """The one figure meant, in the light of the part's slips and routes where a comma leaves two; else None."""
    answer = _figure(entry.answer)
    if len(written.figures) == 1:
        return written.figures[0]
    own = _solved(part, entry, work)
    carried, _ = _carry(part, own, work)
    known = [figure for solved in (own, carried) if solved for figure in (*solved.slips, *solved.accept)]
    return settled(written, answer, known)


def _pass_on(part: NumberPart, entry: IssuedPart, work: Work) -> None:
    """A part without a figure stands, for those after it, as the learner's own earlier answers make it."""
    if work.learner:
        own = _solved(part, entry, work)
        carried, _ = _carry(part, own, work)
        if carried is not None and carried.answer != own.answer:
            work.learner[part.name] = carried.answer


def _solved(part: NumberPart, entry: IssuedPart, work: Work) -> SolvedNumber:
    """A part with its right figures. Raises `SittingFaulty` where the sitting's answer is another."""
    own = solve_number(part, work.right())
    if own.answer != _figure(entry.answer):
        raise SittingFaulty(f"part {entry.label}: its answer in the sitting is not the one this program finds")
    return own


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


def _right(_: Part, entry: IssuedPart, __: Mapping[str, Value]) -> Value:
    return whole_as_int(_figure(entry.answer))


def invented_figure(part: IssuedPart, draw: int) -> str:
    """What an invented learner writes: the answer, one of the slips, anything, or nothing."""
    if draw < 62:
        return plain_figure(part.answer) + (f" {part.unit}" if part.unit and draw % 3 == 0 else "")
    if draw < 88 and part.slips:
        return plain_figure(part.slips[draw % len(part.slips)][0])
    return "nr" if draw > 95 else "" if draw > 92 else str(draw)


KIND = KindInMarking(
    cell="as written: 910, 910 mm, 0.91 m, 2½; nr where not reached",
    mark=_mark,
    invented=invented_figure,
    right=_right,
    read=_read,
    carried=_carried,
)
