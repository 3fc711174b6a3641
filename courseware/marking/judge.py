"""What a figure earns: right, by another route, carried from an earlier slip, a slip by name, or none of these."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor

from courseware.banks.figures import Figure, exact_text, half_up
from courseware.banks.number_part import NumberPart, Route, SolvedNumber, rounded
from courseware.marking.marks import How, NamedSlip
from courseware.marking.read_answer import LONGEST, WrittenFigure
from courseware.words import count

_LEAST_PLACES = 2  # a figure without end may be written to so many decimals
_TOO_FAR = Fraction(1, 20)  # rounded further than asked, but still the same figure
_TENS = [Fraction(10) ** power for power in (1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6)]
_SEE = "See the working."


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedFigure:
    """A number part of one paper: solved with its own figures; solved with the learner's own, or why it cannot be.

    `carried` is None where nothing was carried; `says` gives a route's words; `elsewhere` another paper's answer.
    """

    own: SolvedNumber
    carried: SolvedNumber | None
    withheld: str
    says: Callable[[Route], str]
    key: str  # "exercise/part"
    elsewhere: Callable[[Figure], bool]
    before: tuple[Figure | None, ...]  # of each of `both`: what its working comes to before it is rounded to a whole

    @property
    def both(self) -> tuple[SolvedNumber, ...]:
        """Its own figures first, then the carried ones."""
        return (self.own, self.carried) if self.carried else (self.own,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """How a figure was judged, the marks it earns, and why."""

    how: How
    marks: int
    why: str
    slips: tuple[NamedSlip, ...] = ()
    carried: str = ""  # the answer that the learner's own earlier answers give, where it is another


def within_band(value: Figure, answer: Figure, band: Figure) -> bool:
    """Whether a figure is the answer, give or take the band."""
    return value == answer if not band else answer - band <= value <= answer + band


def judge(value: Fraction, written: WrittenFigure, asked: AskedFigure) -> Verdict:
    """The first of the marking rules that fits. `value` is the figure meant, in the part's unit."""
    of, unit = asked.own.part.marks, asked.own.part.unit
    written = replace(written, places=_places(value, written))
    for verdict in _earning(value, written, asked):
        return verdict
    other_unit = written.reading == "wrong unit" or value not in written.bare
    if other_unit and any(within_band(bare, asked.own.answer, asked.own.within) for bare in written.bare):
        return Verdict(how="unit", marks=of - 1, why=f"The right figure with another unit: {unit or 'none'} was asked.")
    if written.reading == "wrong unit":
        other = f"Another unit than {unit}" if unit else "A unit where none is asked"
        return Verdict(how="unknown", marks=0, why=f"{other}, and another figure. {_SEE}")
    for verdict in _nearly(value, written.places, asked):
        return verdict
    if asked.withheld:
        return Verdict(how="withheld", marks=0, why=f"{asked.withheld} {_SEE}")
    return Verdict(how="unknown", marks=0, why=f"Not recognised. {_SEE}")


def _earning(value: Fraction, written: WrittenFigure, asked: AskedFigure) -> Iterator[Verdict]:
    """What is right, and what is a slip of the bank's own."""
    if written.reading == "wrong unit":
        return
    own, of = asked.own, asked.own.part.marks
    if _is_answer(value, written.places, own):
        yield Verdict(how="right", marks=of, why="Right.")
    for solved in asked.both:
        if solved is not own and (
            _is_answer(value, written.places, solved)
            or _ends_working(value, written.places, solved)
            or _as_short(value, written.places, own, solved)
        ):
            yield Verdict(how="carried", marks=of, why="Right from the learner's own earlier answer.")
        for route, figure in zip(solved.part.accept, solved.accept, strict=True):
            if value == figure or (solved is not own and _comes_to(value, written.places, solved, figure)):
                yield Verdict(how="route", marks=route.earns, why=f"Accepted: {asked.says(route)}.")
    if slips := _slips(value, written.places, asked):
        yield _named(slips, asked)


def _is_answer(value: Fraction, places: int, solved: SolvedNumber) -> bool:
    return _comes_to(value, places, solved, solved.exact)


def _ends_working(value: Fraction, places: int, solved: SolvedNumber) -> bool:
    """Whether a figure is what the working comes to, which may go by an earlier part where the answer does not."""
    last = _last(solved)
    return last is not None and _comes_to(value, places, solved, last)


def _last(solved: SolvedNumber) -> Figure | None:
    """The figure of the working's last line, where it is one."""
    last = solved.working[-1]
    return None if last is None or isinstance(last, str | bool) else last


def _comes_to(value: Fraction, places: int, solved: SolvedNumber, exact: Figure) -> bool:
    """Whether a figure is an exact one as the part asks for it, within its band, or written with more decimals."""
    if within_band(value, rounded(solved.part, exact), solved.within):
        return True
    if solved.part.places is None:
        return places >= _LEAST_PLACES and not _ends(exact) and _written_to(value, places, exact)
    return places > solved.part.places and _written_to(value, places, exact)


def _as_short(value: Fraction, places: int, own: SolvedNumber, carried: SolvedNumber) -> bool:
    """Whether a carried figure without end is written to as many decimals as the right answer has: 11.4 for 8.5."""
    asked = len(exact_text(own.answer).partition(".")[2])
    exact = [figure for figure in (carried.exact, _last(carried)) if figure is not None and not _ends(figure)]
    return asked <= places and any(_written_to(value, places, figure) for figure in exact)


def _slips(value: Fraction, places: int, asked: AskedFigure) -> tuple[int, ...]:
    """The places, from 0, of the slips that give this figure on this paper or from carried figures."""
    found: list[int] = []
    for solved in asked.both:
        for place, figure in enumerate(solved.slips):
            longer = (
                half_up(value, solved.part.places) == figure and places > solved.part.places
                if solved.part.places is not None
                else places >= _LEAST_PLACES and not _ends(figure) and _written_to(value, places, figure)
            )
            if place not in found and (value == figure or longer):
                found.append(place)
    return tuple(sorted(found))


def _named(places: Sequence[int], asked: AskedFigure) -> Verdict:
    routes = [asked.own.part.slips[place] for place in places]
    slips = tuple(
        NamedSlip(key=f"{asked.key}/{place + 1}", says=asked.says(route))
        for place, route in zip(places, routes, strict=True)
    )
    if len(slips) == 1:
        return Verdict(how="slip", marks=routes[0].earns, why=f"{slips[0].says}.", slips=slips)
    told = "; or: ".join(slip.says for slip in slips)
    return Verdict(how="family", marks=min(route.earns for route in routes), why=f"One of: {told}.", slips=slips)


def _nearly(value: Fraction, places: int, asked: AskedFigure) -> Iterator[Verdict]:
    """What has a fault of writing: rounding, a power of ten, two digits, another paper's answer. It is not right."""
    part, method = asked.own.part, _method_marks(asked.own.part)
    for solved, before in zip(asked.both, asked.before, strict=True):
        if why := _rounding(value, places, solved) or _rounded_otherwise(value, places, solved, before):
            yield Verdict(how="rounding", marks=part.marks - 1, why=why)
    for solved in asked.both:
        if solved.answer and value / solved.answer in _TENS:
            yield Verdict(how="tens", marks=method, why=f"The digits are right, the power of ten is not. {_SEE}")
        if solved.answer > 0 and within_band(-value, solved.answer, solved.within):
            yield Verdict(
                how="unknown", marks=0, why=f"The right figure with a minus sign, where the size alone is asked. {_SEE}"
            )
        if _swapped(value, solved.answer):
            yield Verdict(how="swapped", marks=method, why=f"Two digits have changed places. {_SEE}")
    if asked.elsewhere(value):
        yield Verdict(
            how="elsewhere",
            marks=0,
            why=f"Not recognised; it is the answer on another paper. {_SEE} Check the paper code.",
        )


def _rounding(value: Fraction, places: int, solved: SolvedNumber) -> str:
    wanted = solved.part.places
    near = abs(value - solved.exact) < _TOO_FAR * abs(Fraction(solved.exact))
    if wanted is None:
        shortened = _ends(solved.exact) and near and _written_to(value, places, solved.exact)
        return "Rounded, where the exact figure was asked." if shortened else ""
    if value == _cut(solved.exact, wanted):
        return f"Cut off, not rounded, at {_decimals(wanted)}."
    if places < wanted and near and value == half_up(solved.exact, places):
        return f"Rounded further than asked: {_decimals(wanted)} wanted."
    return ""


def _rounded_otherwise(value: Fraction, places: int, solved: SolvedNumber, before: Figure | None) -> str:
    """What is wrong with a figure that was not rounded to a whole one as its working is; '' where it is another."""
    if before is None:
        return ""
    if value in {floor(before), ceil(before)}:
        return "Rounded the other way."
    return "Not rounded to a whole number." if places and _written_to(value, places, before) else ""


def _decimals(places: int) -> str:
    return count(places, "decimal place") if places else "the whole number"


def _method_marks(part: NumberPart) -> int:
    """Marks of the working's method lines; never all of a part's, whose answer is not right."""
    return min(sum(line.earns == "method" for line in part.working), part.marks - 1)


def _swapped(value: Figure, answer: Figure) -> bool:
    """Two neighbouring digits changed places: 901 for 910. The two figures are known to differ."""
    one, other = exact_text(value), exact_text(answer)
    if len(one) != len(other) or one.find(".") != other.find("."):
        return False
    one, other = one.replace(".", ""), other.replace(".", "")
    first = next(place for place, (a, b) in enumerate(zip(one, other, strict=True)) if a != b)
    return one[:first] + one[first : first + 2][::-1] + one[first + 2 :] == other


def _written_to(value: Fraction, places: int, exact: Figure) -> bool:
    """Whether a figure is the exact one, or that rounded or cut off to the decimals typed."""
    return value in {Fraction(exact), half_up(exact, places), _cut(exact, places)}


def _places(value: Fraction, written: WrittenFigure) -> int:
    """The decimals typed; of a fraction those that say the same, or more than anybody types where they have no end."""
    if not _ends(value):
        return LONGEST
    return next(places for places in itertools.count(written.places) if (value * 10**places).denominator == 1)


def _cut(value: Figure, places: int) -> Fraction:
    """Cut off to so many decimals, towards nothing."""
    return Fraction(int(Fraction(value) * 10**places), 10**places)


def _ends(value: Figure) -> bool:
    """Whether a figure has a decimal that ends."""
    left = Fraction(value).denominator
    for prime in (2, 5):
        while left % prime == 0:
            left //= prime
    return left == 1
