"""Figures taken in as they were written and kept exact: a tenth is one tenth, never the float beside it."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import TypeAlias

from courseware.trade.errors import TradeError

Exact: TypeAlias = int | Fraction | Decimal | str | float
"""What may be given for a figure. A float is read by its decimal text: 0.1 is one tenth."""

_WRITTEN = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?(?:/[0-9]+)?")
_LONGEST = 60  # characters of text, or powers of ten of a Decimal: no size of brickwork comes near


def number(value: Exact) -> Fraction:
    """The exact value. Text is a whole number, a decimal or a fraction: "3", "3.5", "7/2".

    Raises `TradeError` for anything else, and for infinity, not-a-number and True or False.

    >>> number("1/2") == number(0.5) == number(Decimal("0.50"))
    True
    """
    kind = type(value)
    if kind is Fraction:
        return value  # type: ignore[return-value]  # mypy does not narrow on type(), which is the fast way
    if kind is int:
        return Fraction(value)
    if isinstance(value, str):
        return _from_text(value)
    if isinstance(value, Decimal):
        return _from_decimal(value)
    if isinstance(value, float):
        return _from_decimal(Decimal(repr(float(value))))
    if isinstance(value, (int, Fraction)) and not isinstance(value, bool):
        return Fraction(value)
    raise _no_number(value)


def whole(value: Exact, *, what: str) -> int:
    """The value as an int, for things that are only ever whole. `what` names them: "packs are whole"."""
    exact = number(value)
    if exact.denominator != 1:
        raise TradeError(f"{value} will not do: {what}")
    return exact.numerator


def _from_text(text: str) -> Fraction:
    written = text.strip()
    if len(written) > _LONGEST or not _WRITTEN.fullmatch(written) or ("." in written and "/" in written):
        raise _no_number(text)
    try:
        return Fraction(written)
    except ZeroDivisionError:
        raise _no_number(text) from None


def _from_decimal(value: Decimal) -> Fraction:
    if not value.is_finite() or (value and abs(value.adjusted()) > _LONGEST):
        raise _no_number(value)
    return Fraction(value)


def _no_number(value: object) -> TradeError:
    shown = repr(value) if isinstance(value, str) else str(value)
    if len(shown) > _LONGEST:
        shown = f"{shown[:_LONGEST]}…"
    return TradeError(f"{shown} is not a figure: write a whole number, a decimal or a fraction, such as 3, 3.5 or 7/2")
