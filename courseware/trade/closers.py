"""Closers: what fills the bond out beside the quoin header."""

from __future__ import annotations

from fractions import Fraction

from courseware.trade.errors import TradeError, size
from courseware.trade.formats import UK_METRIC, Format


def queen_closer(format: Format = UK_METRIC) -> Fraction:
    """Width in mm of a queen closer: half of what a header leaves when a joint is taken out.

    Source: a livery company's glossary, 46.25 mm for UK metric. Raises `TradeError` when the joint takes the header.

    >>> queen_closer()
    Fraction(185, 4)
    """
    if format.width <= format.perpend:
        raise TradeError(
            f"no queen closer can be cut: the header, {size(format.width)} mm, is no wider than the joint, "
            f"{size(format.perpend)} mm"
        )
    return (format.width - format.perpend) / 2
