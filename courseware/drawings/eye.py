"""The eye that an eye line runs from, as setting-out drawings show it."""

from __future__ import annotations

import math

from courseware.drawings.dimension import Marks
from courseware.drawings.lines import SYMBOL
from courseware.drawings.picture import Point


def eye(at: Point) -> Marks:
    """An eye about this point, looking to the right."""
    x, y = at
    lid = tuple((x + 2.4 * math.cos(a), y - 1.5 * math.sin(a)) for a in (math.pi * n / 10 for n in range(20)))
    pupil = tuple((x + 0.8 + 0.6 * math.cos(a), y - 0.6 * math.sin(a)) for a in (math.pi * n / 5 for n in range(10)))
    return (
        SYMBOL.stroke(lid, closed=True, fill=1.0),
        SYMBOL.stroke(pupil, closed=True, fill=0.0),
    )
