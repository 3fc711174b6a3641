"""The proof of an exercise: every variant walked, two routes compared, slips told apart, drawings fitted."""

from __future__ import annotations

from array import array
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from courseware.banks.drawing_kinds import drawn_figures, kind_of
from courseware.banks.exercise import ChoicePart, DrawingAsked, Exercise, NumberPart, OrderPart, TablePart
from courseware.banks.figures import DoesNotWriteOut, Figure, exact_text, write_out
from courseware.banks.formulas import Formula, FormulaImpossible, Value
from courseware.banks.guards import Guards
from courseware.banks.leaks import Leak
from courseware.banks.solve import (
    Given,
    Solved,
    SolvedChoice,
    SolvedNumber,
    numbers_in,
    rounded,
    scope_of,
    shown_lines,
    solve,
)
from courseware.banks.space import Space, raw_size, walk
from courseware.banks.wording import Wording, say_value
from courseware.trade import TradeError

Difficulty = tuple[tuple[int, int, bool] | int, ...]
OTHER_DIFFICULTY = "of another difficulty (digits, halves or rounding)"
NOT_WHERE = "by `where`"
_TELL_EVERY = 500


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
    kept: dict[Difficulty, _Band] = {}
    left_out: Counter[str] = Counter()
    written: set[Value] = set()
    wordings = _wordings(exercise)
    guards = Guards(exercise)
    done = 0
    for raw, given in enumerate(walk(exercise)):
        if raw - done == _TELL_EVERY:
            tell(_TELL_EVERY)
            done = raw
        try:
            solved, scope = _prove_variant(exercise, given, wordings, written)
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
        self.leaks: Counter[Leak] = Counter()

    def take(self, raw: int, solved: tuple[Solved, ...], leaks: Sequence[Leak]) -> None:
        self.indices.append(raw)
        self.leaks.update(set(leaks))
        for part in solved:
            for number in numbers_in(part):
                low, high = self.ranges.get(number.part.name, (number.answer, number.answer))
                self.ranges[number.part.name] = (min(low, number.answer), max(high, number.answer))


def _proof(
    exercise: Exercise,
    kept: Mapping[Difficulty, _Band],
    left_out: Counter[str],
    walked: int,
    failure: Failure | None,
) -> Proof:
    band = _commonest(kept)
    if other := sum(len(found.indices) for found in kept.values()) - len(band.indices):
        left_out[OTHER_DIFFICULTY] = other
    space = Space(exercise=exercise, indices=band.indices)
    return Proof(space=space, walked=walked, left_out=dict(left_out), ranges=band.ranges, failure=failure)


def _commonest(kept: Mapping[Difficulty, _Band]) -> _Band:
    """The space is the commonest difficulty; on a tie, the one met first."""
    return max(kept.values(), key=lambda found: len(found.indices), default=_Band())


def _nothing_left(kept: Mapping[Difficulty, _Band], left_out: Counter[str]) -> Failure | None:
    if kept:
        return None
    reasons = "; ".join(f"{count} left out {reason}" for reason, count in left_out.items())
    merge = " Two that always give one figure are one slip: name them together." if "slip" in reasons else ""
    return Failure(raw=0, given="all variants", why=f"no variant is left to issue: {reasons}.{merge}")


def _prove_variant(
    exercise: Exercise, given: Given, wordings: tuple[Formula, ...], written: set[Value]
) -> tuple[tuple[Solved, ...], dict[str, Value]]:
    if exercise.where is not None and not _holds(exercise.where, given):
        raise _LeftOut(NOT_WHERE)
    solved = solve(exercise, given)
    for part in solved:
        if isinstance(part, SolvedChoice):
            _prove_choice(part, written)
        for number in numbers_in(part):
            _prove_number(number, written)
    scope = scope_of(given, solved)
    for formula in wordings:
        _writes_out(formula.value(scope), formula.text, written)
    if exercise.drawing is not None:
        _prove_drawing(exercise, exercise.drawing, scope)
    for part in solved:
        for number in numbers_in(part):
            _tell_slips_apart(number)
    return solved, scope


def _holds(where: Formula, given: Given) -> bool:
    """An impossible size in `where` is a variant that does not meet it."""
    try:
        return bool(where.value(given))
    except (FormulaImpossible, TradeError):
        return False


def _prove_number(number: SolvedNumber, written: set[Value]) -> None:
    part = number.part
    if number.answer < 0:
        raise _Fails(f"{part.name}: the answer is {write_out(number.answer)}, below nothing")
    _writes_out(number.answer, part.answer.text, written)
    _prove_working(part.name, shown_lines(number), written)
    last = number.working[-1]
    if isinstance(last, bool | str) or last is None or rounded(part, last) != number.answer:
        raise _Fails(f"{part.name}: `answer` gives {_shown(number.exact)}, the last line of the working {_shown(last)}")
    if number.within < 0:
        raise _Fails(f"{part.name}: the band is {_shown(number.within)}, below nothing")


def _prove_working(name: str, working: tuple[Value | None, ...], written: set[Value]) -> None:
    for count, value in enumerate(working, 1):
        if value is not None and not isinstance(value, bool):
            _writes_out(value, f"{name}, line {count} of the working", written)


def _prove_choice(choice: SolvedChoice, written: set[Value]) -> None:
    name = choice.part.name
    _prove_working(name, choice.working, written)
    if choice.part.several:
        if choice.right != choice.checked:
            raise _Fails(f"{name}: `right` and `check` disagree about a choice")
        if all(choice.right) or not any(choice.right):
            raise _Fails(f"{name}: {sum(choice.right)} of {len(choice.right)} choices are right; some must be, not all")
        return
    if choice.working[-1] != choice.answer:
        raise _Fails(
            f"{name}: `answer` gives {_shown(choice.answer)}, the last line of the working {_shown(choice.working[-1])}"
        )
    if sum(choice.right) != 1:
        raise _Fails(f"{name}: {sum(choice.right)} choices equal the answer {_shown(choice.answer)}; exactly one must")
    if len(set(choice.values)) < len(choice.values):
        raise _Fails(f"{name}: two choices have the same value")


def _tell_slips_apart(number: SolvedNumber) -> None:
    seen: dict[Figure, str] = dict.fromkeys(number.accept, "an accepted route")
    for count, slip in enumerate(number.slips, 1):
        if number.answer - number.within <= slip <= number.answer + number.within:
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
            raise _Fails(f"the drawing does not fit its box: {name} is {_shown(figure)}, and it takes {span}")
    try:
        sizes = {name: Fraction(measure(figures, exercise.format)) for name, measure in kind.dimensions.items()}
        if kind.builds is not None:
            kind.builds(figures, exercise.format)
    except TradeError as why:
        raise _Fails(f"the drawing cannot be made: {why}") from None
    for dimension, name in drawing.asks.items():
        part = next(number for number in exercise.numbers if number.name == name)
        size = sizes[dimension]
        if rounded(part, size / 1000 if part.unit == "m" else size) != scope[name]:
            raise _Fails(
                f"the drawing's {dimension} is {_shown(size)} mm, "
                f"the answer to {name} {_shown(scope[name])} {part.unit}"
            )


def _difficulty(solved: tuple[Solved, ...]) -> Difficulty:
    """What must be alike for two variants to be equally hard (design, section 2.3)."""
    found: list[tuple[int, int, bool] | int] = []
    for part in solved:
        if isinstance(part, SolvedChoice):
            found.append(sum(part.right))
        found += [_digits(number) for number in numbers_in(part)]
    return tuple(found)


def _digits(number: SolvedNumber) -> tuple[int, int, bool]:
    """Digits before the point; 0, 1 or 2 for whole, half or other parts; whether it was rounded."""
    answer = number.answer
    whole = len(str(int(answer)))
    if number.part.places:
        return whole, 2, number.exact != answer
    parts = 0 if type(answer) is int else 1 if answer.denominator == 2 else 2
    return whole, parts, number.exact != answer


def _wordings(exercise: Exercise) -> tuple[Formula, ...]:
    """Every formula that stands in wording, once."""
    found: list[Wording] = [exercise.pose, *exercise.settings]
    for part in exercise.parts:
        found.append(part.ask)
        match part:
            case NumberPart():
                found += _number_wordings(part)
            case TablePart(rows=rows):
                found += [wording for row in rows for wording in (row.ask, *_number_wordings(row))]
            case ChoicePart(choices=choices, working=working):
                found += [choice.say for choice in choices]
                found += [choice.says for choice in choices if choice.says] + [line.say for line in working]
            case OrderPart(steps=steps):
                found += [say for _, say in steps]
            case _:
                found += part.points
    formulas = [formula for wording in found for formula in wording.formulas]
    return tuple({formula.text: formula for formula in formulas}.values())


def _number_wordings(part: NumberPart) -> list[Wording]:
    return [route.says for route in (*part.accept, *part.slips)] + [line.say for line in part.working]


def _writes_out(value: Value, why: str, written: set[Value]) -> None:
    if value not in written:
        say_value(value, why)
        if len(written) < 100_000:
            written.add(value)


def _shown(value: Value | None) -> str:
    if value is None or isinstance(value, str):
        return value or "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    try:
        return write_out(value)
    except DoesNotWriteOut:
        return exact_text(value)


def _written_givens(given: Given) -> str:
    return ", ".join(f"{name} = {value if isinstance(value, str) else _shown(value)}" for name, value in given.items())
