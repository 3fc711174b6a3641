"""The eye that an eye line runs from, as setting-out drawings show it."""

from __future__ import annotations

import math

from courseware.drawings.dimension import Marks
from courseware.drawings.picture import Point, Stroke

DASH = (2.5, 1.2)  # of the eye line, mm of paper


def eye(at: Point) -> Marks:
    """An eye about this point, looking to the right."""
    x, y = at
    lid = tuple((x + 2.4 * math.cos(a), y - 1.5 * math.sin(a)) for a in (math.pi * n / 10 for n in range(20)))
    pupil = tuple((x + 0.8 + 0.6 * math.cos(a), y - 0.6 * math.sin(a)) for a in (math.pi * n / 5 for n in range(10)))
    return (
        Stroke(outlines=(lid,), closed=True, weight=0.25, fill=1.0),
        Stroke(outlines=(pupil,), closed=True, weight=0, fill=0.0),
    )
