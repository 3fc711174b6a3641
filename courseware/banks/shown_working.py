"""Whether the working leads to the answer from the figures that stand on the key, not from longer ones behind them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from courseware.banks.exercise import Exercise
from courseware.banks.figures import DoesNotWriteOut, Figure, write_out
from courseware.banks.formulas import Formula, FormulaImpossible, Value
from courseware.banks.number_part import NumberPart, SolvedNumber, rounded
from courseware.banks.terms import Term, evaluated, holds, replaced, term, unrounded, worked_out
from courseware.trade import TradeError


@dataclass(frozen=True, slots=True, kw_only=True)
class Reworked:
    """The last line of a part's working, and the earlier lines whose figure it is worked out from."""

    part: NumberPart
    last: Formula
    lines: tuple[int, ...]  # by their places from 0
    again: Term  # the last line with the names of those in place of what they are before they are rounded


def reworked(exercise: Exercise) -> tuple[Reworked, ...]:
    """The parts whose last line goes by a figure that an earlier line of theirs shows rounded."""
    found: list[Reworked] = []
    for part in exercise.numbers:
        *earlier, last = [line.value for line in part.working]
        if last is None or last.kind != "number":
            continue
        lines = tuple(
            (place, exact)
            for place, value in enumerate(earlier)
            if value is not None and value.kind == "number" and (exact := _rounded_away(value)) is not None
            if holds(term(last.text), exact)
        )
        if lines:
            again = term(last.text)
            for place, exact in lines:
                again = replaced(again, exact, ("name", _line(place)))
            found.append(Reworked(part=part, last=last, lines=tuple(place for place, _ in lines), again=again))
    return tuple(found)


def _line(place: int) -> str:
    """What a line goes by among the names: no given or part has a blank in its name."""
    return f"line {place}"


def _rounded_away(value: Formula) -> Term | None:
    """What a line is before it is rounded; None where it is not rounded, or nothing is worked out in it."""
    whole = term(value.text)
    exact = unrounded(whole)
    return exact if exact != whole and worked_out(exact) else None


def lands_elsewhere(rework: Reworked, solved: SolvedNumber, scope: Mapping[str, Value]) -> str | None:
    """What is wrong where the last line, worked from the figures shown, is not accepted; None where it is."""
    names = dict(scope)
    for place in rework.lines:
        if (figure := solved.working[place]) is not None:
            names[_line(place)] = figure
    try:
        value: Value | None = evaluated(rework.again, names, rework.last.fixed)
    except (FormulaImpossible, TradeError):
        value = None
    part = rework.part
    if value is not None and not isinstance(value, bool | str):
        landed = rounded(part, value)
        if -solved.within <= landed - solved.answer <= solved.within or landed in solved.accept:
            return None
    place = rework.lines[-1]
    shown, right = _written(solved.working[place]), _written(solved.answer)
    gives = "gives no figure" if value is None else f"gives {_written(value)}"
    return (
        f"{part.name}: line {place + 1} of the working shows {shown}, and worked from that the last line {gives}, "
        f"which is not accepted beside {right}: show line {place + 1} with more places, or give the part a band with "
        "`within`"
    )


def before_rounding(part: NumberPart, scope: Mapping[str, Value]) -> Figure | None:
    """What the last line comes to before it is rounded to a whole number; None where it is not, or is whole already.

    Raises `FormulaImpossible`, or `TradeError` from the trade core.
    """
    last = part.working[-1].value
    if last is None or last.kind != "number":
        return None
    whole = term(last.text)
    exact = unrounded(whole)
    if exact == whole:
        return None
    value, rounded_to = evaluated(exact, scope, last.fixed), last.value(scope)
    if isinstance(value, bool | str) or isinstance(rounded_to, bool | str):
        return None
    return value if Fraction(rounded_to).denominator == 1 and Fraction(value).denominator > 1 else None


def _written(value: Value | None) -> str:
    if isinstance(value, bool | str) or value is None:
        return str(value)
    figure: Figure = value
    try:
        return write_out(figure)
    except DoesNotWriteOut:
        return write_out(figure, 6)
