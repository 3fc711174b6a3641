"""A height with its middle broken out: the courses there are not drawn, so that they cannot be counted."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from courseware.drawings.dimension import Marks
from courseware.drawings.frame import View
from courseware.drawings.lines import REFERENCE
from courseware.drawings.picture import Point

GAP = 8.0  # mm of paper between the lower part and the upper
_PAST, _ZIG = 2.0, 1.2  # mm of paper that a break line runs past the brickwork; half the height of its zigzag


@dataclass(frozen=True, slots=True, kw_only=True)
class BrokenHeight(View):
    """A view that leaves out what lies between `low` and `high` mm up the wall."""

    low: Fraction
    high: Fraction

    def at(self, x: Fraction | float, y: Fraction | float) -> Point:
        """The point on paper of a place on the wall: what is above the break has moved down to it."""
        across, up = View.at(self, x, y)
        return (across, up + float(self.high - self.low) / self.one_to - GAP) if y > self.low else (across, up)

    def break_lines(self, left: Fraction | float, right: Fraction | float) -> Marks:
        """The two thin level lines with a zigzag that say that the middle is left out."""
        start, end = self.at(left, 0)[0] - _PAST, self.at(right, 0)[0] + _PAST
        middle, foot = (start + end) / 2, self.at(0, self.low)[1]
        lines = []
        for y in (foot - GAP / 3, foot - GAP * 2 / 3):
            zigzag = (
                (middle - _ZIG, y),
                (middle - _ZIG / 2, y - _ZIG),
                (middle + _ZIG / 2, y + _ZIG),
                (middle + _ZIG, y),
            )
            lines.append(((start, y), *zigzag, (end, y)))
        return (REFERENCE.stroke(*tuple(lines)),)


def reach(low: Fraction, high: Fraction, head: Fraction) -> Fraction:
    """Mm of wall that stay in a view up to `head` when what lies between `low` and `high` is left out."""
    return low + head - high
