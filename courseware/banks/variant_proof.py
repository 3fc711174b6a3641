"""The proof of one variant: two routes compared, slips told apart, its drawing fitted, all its figures written out."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from courseware.banks.drawing_kinds import drawn_figures, kind_of
from courseware.banks.exercise import DrawingAsked, Exercise
from courseware.banks.figures import DoesNotWriteOut, Figure, exact_text, write_out
from courseware.banks.formulas import Formula, FormulaImpossible, Value
from courseware.banks.number_part import SolvedNumber, rounded, shown_lines
from courseware.banks.part import Part, Solved, WritesOut
from courseware.banks.solve import Given, scope_of, solve
from courseware.banks.wording import SITE_WORDS, Wording, say_value
from courseware.trade import TradeError

_NOT_WHERE = "by `where`"
_ANY_SITE = {word: word for word in SITE_WORDS}
_MM_IN = {"m": Fraction(1000), "in": Fraction("25.4")}  # of the units other than mm that a size may be asked in


class Fails(Exception):
    """This variant fails, and why."""


class LeftOut(Exception):
    """This variant is not in the space, and why."""


def prove_variant(
    exercise: Exercise, given: Given, wordings: tuple[Formula, ...], writes_out: WritesOut
) -> tuple[tuple[Solved, ...], dict[str, Value]]:
    """The variant worked out, and its names; `wordings` are the formulas that its words show.

    Raises `Fails`, `FormulaImpossible` or `TradeError` where it may not be issued, `LeftOut` where it need not be.
    """
    if exercise.where is not None and not _holds(exercise.where, given):
        raise LeftOut(_NOT_WHERE)
    solved = solve(exercise, given)
    for part in solved:
        if why := part.wrong(writes_out):
            raise Fails(why)
        for number in part.numbers:
            _prove_number(number, writes_out)
    scope = scope_of(given, solved)
    for formula in wordings:
        writes_out(formula.value(scope), formula.text)
    for part in solved:
        _tell_offers_apart(part.part, scope)
    if exercise.drawing is not None:
        _prove_drawing(exercise, exercise.drawing, scope)
    for part in solved:
        for number in part.numbers:
            _tell_slips_apart(number)
    return solved, scope


def _holds(where: Formula, given: Given) -> bool:
    """An impossible size in `where` is a variant that does not meet it."""
    try:
        return bool(where.value(given))
    except (FormulaImpossible, TradeError):
        return False


def _prove_number(number: SolvedNumber, writes_out: WritesOut) -> None:
    part = number.part
    if number.answer < 0:
        raise Fails(f"{part.name}: the answer is {write_out(number.answer)}, below 0")
    writes_out(number.answer, part.answer.text)
    working_writes_out(part.name, shown_lines(number), writes_out)
    last = number.working[-1]
    if isinstance(last, bool | str) or last is None or rounded(part, last) != number.answer:
        raise Fails(f"{part.name}: `answer` gives {shown(number.exact)}, the last line of the working {shown(last)}")
    if number.within < 0:
        raise Fails(f"{part.name}: the band is {shown(number.within)}, below 0")


def working_writes_out(name: str, working: tuple[Value | None, ...], writes_out: WritesOut) -> None:
    """Raises `FormulaImpossible` where a line of a part's working has no short exact form."""
    for count, value in enumerate(working, 1):
        if value is not None and not isinstance(value, bool):
            writes_out(value, f"{name}, line {count} of the working")


def _tell_offers_apart(part: Part, scope: Mapping[str, Value]) -> None:
    what, offered = part.offers
    read = {" ".join(wording.render(scope, _ANY_SITE).casefold().split()) for wording in offered}
    if len(read) < len(offered):
        raise LeftOut(f"where two {what} of {part.name} read alike")


def _tell_slips_apart(number: SolvedNumber) -> None:
    seen: dict[Figure, str] = dict.fromkeys(number.accept, "an accepted route")
    low, high = number.answer - number.within, number.answer + number.within
    for count, slip in enumerate(number.slips, 1):
        if low <= slip <= high:
            raise LeftOut(f"where slip {count} of {number.part.name} gives the answer")
        if slip in seen:
            raise LeftOut(f"where slip {count} of {number.part.name} gives the figure of {seen[slip]}")
        seen[slip] = f"slip {count}"


def _prove_drawing(exercise: Exercise, drawing: DrawingAsked, scope: Mapping[str, Value]) -> None:
    kind = kind_of(drawing)
    figures = drawn_figures(drawing, scope)
    for name, limits in kind.arguments.items():
        figure = figures[name]
        if isinstance(limits, frozenset):
            if figure not in limits:
                raise Fails(f"the drawing's {name} is {figure}; it can be {', '.join(sorted(limits))}")
        elif isinstance(figure, str) or not limits[0] <= figure <= limits[1]:
            span = f"{write_out(limits[0])} to {write_out(limits[1])}"
            raise Fails(f"the drawing does not fit its box: {name} is {shown(figure)}, and it takes {span}")
    try:
        sizes = {name: Fraction(measure(figures, exercise.format)) for name, measure in kind.dimensions.items()}
        if kind.builds is not None:
            kind.builds(figures, exercise.format)
    except TradeError as why:
        raise Fails(f"the drawing cannot be made: {why}") from None
    for dimension, name in drawing.asks.items():
        part = next(number for number in exercise.numbers if number.name == name)
        size = sizes[dimension]
        in_mm = dimension not in kind.units
        if rounded(part, size / _MM_IN.get(part.unit, 1) if in_mm else size) != scope[name]:
            drawn = f"{shown(size)} mm" if in_mm else kind.labelled(dimension, shown(size))
            raise Fails(f"the drawing's {dimension} is {drawn}, the answer to {name} {shown(scope[name])} {part.unit}")


def formulas_in_words(exercise: Exercise) -> tuple[Formula, ...]:
    """Every formula that stands in wording, once."""
    found: list[Wording] = [exercise.pose, *exercise.settings]
    for part in exercise.parts:
        found += part.wordings
    formulas = [formula for wording in found for formula in wording.formulas]
    return tuple({formula.text: formula for formula in formulas}.values())


def asked_once() -> WritesOut:
    """Whether a value writes out, asked once of each."""
    written: set[Value] = set()

    def writes_out(value: Value, why: str) -> None:
        if value not in written:
            say_value(value, why)
            if len(written) < 100_000:
                written.add(value)

    return writes_out


def shown(value: Value | None) -> str:
    """A value as a message says it."""
    if value is None or isinstance(value, str):
        return value or "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    try:
        return write_out(value)
    except DoesNotWriteOut:
        return exact_text(value)
