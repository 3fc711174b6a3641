"""What a `given` may take: `3 to 9`, `6 to 18 by 3`, `[4, 6, 9]`, words in quotes, or one fixed figure."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from courseware.banks.figures import Figure, whole_as_int
from courseware.banks.formulas import FormulaFault, Kind, kind_of

MOST_VALUES = 2000
_NUMBER = r"-?[0-9]{1,15}(?:\.[0-9]{1,15})?"
_ONE = re.compile(_NUMBER, re.ASCII)
_RANGE = re.compile(rf"({_NUMBER})\s+to\s+({_NUMBER})(?:\s+by\s+({_NUMBER}))?", re.ASCII)
_EXPECTED = "expected `3 to 9`, `6 to 18 by 3`, a list such as [4, 6, 9] or words in quotes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A name and every value it takes, in order."""

    name: str
    values: tuple[Figure | str, ...]

    @property
    def kind(self) -> Kind:
        return kind_of(self.values[0])


def read_given(name: str, written: str | list[tuple[str, bool]], *, quoted: bool = False) -> Given:
    """The values of one given. A list comes as (text, quoted) pairs. Raises `FormulaFault`."""
    if isinstance(written, str):
        return Given(name=name, values=_span(written, quoted=quoted))
    values = tuple(_one(text, quoted=in_quotes) for text, in_quotes in written)
    if not values:
        raise FormulaFault("the list is empty", _EXPECTED)
    if len({kind_of(value) for value in values}) > 1:
        raise FormulaFault("the list mixes figures and words", "expected all figures, or all words in quotes")
    if len(set(values)) < len(values):
        raise FormulaFault("the list names a value twice", "expected each value once")
    if len(values) > MOST_VALUES:
        raise FormulaFault(f"the list has {len(values)} values", f"at most {MOST_VALUES} are allowed")
    return Given(name=name, values=values)


def is_value(text: str, quoted: bool) -> bool:
    """Whether an entry of a list is one value."""
    try:
        _one(text, quoted=quoted)
    except FormulaFault:
        return False
    return True


def _span(written: str, *, quoted: bool) -> tuple[Figure | str, ...]:
    written = written.strip()
    found = _RANGE.fullmatch(written)
    if not found:
        return (_one(written, quoted=quoted),)
    first, last, step = (Fraction(text) for text in (found[1], found[2], found[3] or "1"))
    if step <= 0 or last < first:
        raise FormulaFault(f"`{written}` holds no value", "expected the smaller figure first and a step above 0")
    count = int((last - first) / step) + 1
    if count > MOST_VALUES:
        raise FormulaFault(f"`{written}` holds {count} values", f"at most {MOST_VALUES} are allowed")
    if first + (count - 1) * step != last:
        raise FormulaFault(f"`{written}` does not end on a step", "expected the last figure to be reached exactly")
    return tuple(whole_as_int(first + step * n) for n in range(count))


def _one(text: str, *, quoted: bool) -> Figure | str:
    if not quoted and _ONE.fullmatch(text):
        return whole_as_int(Fraction(text))
    if quoted and text.strip() and len(text) <= 60:
        return text
    if re.fullmatch(r"[0-9]+,[0-9]+", text, re.ASCII):
        raise FormulaFault(f"`{text}` has a decimal comma", f"expected a point: {text.replace(',', '.')}")
    raise FormulaFault(f"`{text[:60]}` is not a value", _EXPECTED)
