"""Arches: the radius of a segmental arch."""

from __future__ import annotations

from fractions import Fraction

from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number


def segmental_radius(span: Exact, rise: Exact) -> Fraction:
    """Radius in mm of a segmental arch of this span and rise: (s²/4 + r²) / 2r, by intersecting chords.

    Raises `TradeError` unless both are above 0 and the rise at most half the span (a half circle).

    >>> segmental_radius(1200, 200)
    Fraction(1000, 1)
    """
    across, up = number(span), number(rise)
    if across <= 0 or up <= 0:
        raise TradeError(
            f"a span of {size(across)} mm with a rise of {size(up)} mm is not an arch: both must be above 0"
        )
    if 2 * up > across:
        raise TradeError(
            f"a rise of {size(up)} mm is more than a half circle over a span of {size(across)} mm: "
            f"the most is {size(across / 2)} mm"
        )
    return (across * across / 4 + up * up) / (2 * up)
