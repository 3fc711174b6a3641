"""The proof of an exercise: every variant walked, two routes compared, slips told apart, drawings fitted."""

from __future__ import annotations

from array import array
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from courseware.banks.drawing_kinds import drawn_figures, kind_of
from courseware.banks.exercise import DrawingAsked, Exercise
from courseware.banks.figures import DoesNotWriteOut, Figure, exact_text, write_out
from courseware.banks.formulas import Formula, FormulaImpossible, Value
from courseware.banks.guards import Guards
from courseware.banks.leaks import AnswerTold
from courseware.banks.part import Signature, Solved, SolvedNumber, WritesOut, rounded, shown_lines
from courseware.banks.solve import Given, scope_of, solve
from courseware.banks.space import Space, raw_size, walk
from courseware.banks.wording import Wording, say_value
from courseware.trade import TradeError

OTHER_DIFFICULTY = "of another difficulty (digits, halves or rounding)"
NOT_WHERE = "by `where`"
_TELL_EVERY = 500
_MM_IN = {"m": Fraction(1000), "in": Fraction("25.4")}  # of the units other than mm that a size may be asked in


@dataclass(frozen=True, slots=True, kw_only=True)
class Failure:
    """The first variant that fails: its raw index, its givens written out, and why."""

    raw: int
    given: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What walking an exercise showed. `left_out` counts variants by reason; `ranges` are answers by part."""

    space: Space
    walked: int
    left_out: Mapping[str, int]
    ranges: Mapping[str, tuple[Figure, Figure]]
    failure: Failure | None


class _Fails(Exception):
    """This variant fails, and why."""


class _LeftOut(Exception):
    """This variant is not in the space, and why."""


def prove(exercise: Exercise, tell: Callable[[int], None] = lambda _: None) -> Proof:
    """Walk every variant of `exercise`, stopping at the first that fails. `tell` hears how many more are done."""
    kept: dict[Signature, _Band] = {}
    left_out: Counter[str] = Counter()
    writes_out = _once(set())
    wordings = _wordings(exercise)
    guards = Guards(exercise)
    done = 0
    for raw, given in enumerate(walk(exercise)):
        if raw - done == _TELL_EVERY:
            tell(_TELL_EVERY)
            done = raw
        try:
            solved, scope = _prove_variant(exercise, given, wordings, writes_out)
            if why := guards.misleads(solved, scope):
                raise _Fails(why)
            leaks = guards.leaks(solved, scope)
        except _LeftOut as reason:
            left_out[str(reason)] += 1
        except (_Fails, FormulaImpossible, TradeError) as why:
            failure = Failure(raw=raw, given=_written_givens(given), why=str(why))
            return _proof(exercise, {}, left_out, raw + 1, failure)
        else:
            kept.setdefault(_difficulty(solved), _Band()).take(raw, solved, leaks)
    tell(raw_size(exercise) - done)
    return _proof(
        exercise,
        kept,
        left_out,
        raw_size(exercise),
        _nothing_left(kept, left_out) or _guarded(guards, _commonest(kept)),
    )


def _guarded(guards: Guards, band: _Band) -> Failure | None:
    why = guards.fault(band.indices, band.ranges, band.leaks)
    return Failure(raw=0, given="all variants", why=why) if why else None


class _Band:
    """The variants of one difficulty as they are found, with the range of each answer."""

    def __init__(self) -> None:
        self.indices = array("L")
        self.ranges: dict[str, tuple[Figure, Figure]] = {}
        self.leaks: Counter[AnswerTold] = Counter()

    def take(self, raw: int, solved: tuple[Solved, ...], leaks: Sequence[AnswerTold]) -> None:
        self.indices.append(raw)
        self.leaks.update(set(leaks))
        for part in solved:
            for number in part.numbers:
                low, high = self.ranges.get(number.part.name, (number.answer, number.answer))
                self.ranges[number.part.name] = (min(low, number.answer), max(high, number.answer))


def _proof(
    exercise: Exercise,
    kept: Mapping[Signature, _Band],
    left_out: Counter[str],
    walked: int,
    failure: Failure | None,
) -> Proof:
    band = _commonest(kept)
    if other := sum(len(found.indices) for found in kept.values()) - len(band.indices):
        left_out[OTHER_DIFFICULTY] = other
    space = Space(exercise=exercise, indices=band.indices)
    return Proof(space=space, walked=walked, left_out=dict(left_out), ranges=band.ranges, failure=failure)


def _commonest(kept: Mapping[Signature, _Band]) -> _Band:
    """The space is the commonest difficulty; on a tie, the one met first."""
    return max(kept.values(), key=lambda found: len(found.indices), default=_Band())


def _nothing_left(kept: Mapping[Signature, _Band], left_out: Counter[str]) -> Failure | None:
    if kept:
        return None
    reasons = "; ".join(f"{count} left out {reason}" for reason, count in left_out.items())
    merge = " Two that always give one figure are one slip: name them together." if "slip" in reasons else ""
    return Failure(raw=0, given="all variants", why=f"no variant is left to issue: {reasons}.{merge}")


def _prove_variant(
    exercise: Exercise, given: Given, wordings: tuple[Formula, ...], writes_out: WritesOut
) -> tuple[tuple[Solved, ...], dict[str, Value]]:
    if exercise.where is not None and not _holds(exercise.where, given):
        raise _LeftOut(NOT_WHERE)
    solved = solve(exercise, given)
    for part in solved:
        if why := part.wrong(writes_out):
            raise _Fails(why)
        for number in part.numbers:
            _prove_number(number, writes_out)
    scope = scope_of(given, solved)
    for formula in wordings:
        writes_out(formula.value(scope), formula.text)
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
        raise _Fails(f"{part.name}: the answer is {write_out(number.answer)}, below 0")
    writes_out(number.answer, part.answer.text)
    working_writes_out(part.name, shown_lines(number), writes_out)
    last = number.working[-1]
    if isinstance(last, bool | str) or last is None or rounded(part, last) != number.answer:
        raise _Fails(f"{part.name}: `answer` gives {shown(number.exact)}, the last line of the working {shown(last)}")
    if number.within < 0:
        raise _Fails(f"{part.name}: the band is {shown(number.within)}, below 0")


def working_writes_out(name: str, working: tuple[Value | None, ...], writes_out: WritesOut) -> None:
    """Raises `FormulaImpossible` where a line of a part's working has no short exact form."""
    for count, value in enumerate(working, 1):
        if value is not None and not isinstance(value, bool):
            writes_out(value, f"{name}, line {count} of the working")


def _tell_slips_apart(number: SolvedNumber) -> None:
    seen: dict[Figure, str] = dict.fromkeys(number.accept, "an accepted route")
    low, high = number.answer - number.within, number.answer + number.within
    for count, slip in enumerate(number.slips, 1):
        if low <= slip <= high:
            raise _LeftOut(f"where slip {count} of {number.part.name} gives the answer")
        if slip in seen:
            raise _LeftOut(f"where slip {count} of {number.part.name} gives the figure of {seen[slip]}")
        seen[slip] = f"slip {count}"


def _prove_drawing(exercise: Exercise, drawing: DrawingAsked, scope: Mapping[str, Value]) -> None:
    kind = kind_of(drawing)
    figures = drawn_figures(drawing, scope)
    for name, limits in kind.arguments.items():
        figure = figures[name]
        if isinstance(limits, frozenset):
            if figure not in limits:
                raise _Fails(f"the drawing's {name} is {figure}; it can be {', '.join(sorted(limits))}")
        elif isinstance(figure, str) or not limits[0] <= figure <= limits[1]:
            span = f"{write_out(limits[0])} to {write_out(limits[1])}"
            raise _Fails(f"the drawing does not fit its box: {name} is {shown(figure)}, and it takes {span}")
    try:
        sizes = {name: Fraction(measure(figures, exercise.format)) for name, measure in kind.dimensions.items()}
        if kind.builds is not None:
            kind.builds(figures, exercise.format)
    except TradeError as why:
        raise _Fails(f"the drawing cannot be made: {why}") from None
    for dimension, name in drawing.asks.items():
        part = next(number for number in exercise.numbers if number.name == name)
        size = sizes[dimension]
        in_mm = dimension not in kind.units
        if rounded(part, size / _MM_IN.get(part.unit, 1) if in_mm else size) != scope[name]:
            drawn = f"{shown(size)} mm" if in_mm else kind.labelled(dimension, shown(size))
            raise _Fails(f"the drawing's {dimension} is {drawn}, the answer to {name} {shown(scope[name])} {part.unit}")


def _difficulty(solved: tuple[Solved, ...]) -> Signature:
    """What must be alike for two variants to be equally hard: how many choices fit, and of each figure its digits."""
    return tuple([one for part in solved for one in part.signature])


def _wordings(exercise: Exercise) -> tuple[Formula, ...]:
    """Every formula that stands in wording, once."""
    found: list[Wording] = [exercise.pose, *exercise.settings]
    for part in exercise.parts:
        found += part.wordings
    formulas = [formula for wording in found for formula in wording.formulas]
    return tuple({formula.text: formula for formula in formulas}.values())


def _once(written: set[Value]) -> WritesOut:
    """Whether a value writes out, asked once of each."""

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


def _written_givens(given: Given) -> str:
    return ", ".join(f"{name} = {value if isinstance(value, str) else shown(value)}" for name, value in given.items())
