"""A long run shown at both its ends, its middle broken out: pieces that a learner works out are not there to count."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from courseware.drawings.bond import PlacedBrick
from courseware.drawings.dimension import Marks, across
from courseware.drawings.frame import View
from courseware.drawings.lines import BREAK
from courseware.drawings.picture import Point
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, Run

_NOTHING = Fraction(0)
_SHORT = 60.0  # mm of paper: over a shorter run the width of a piece stands at its left, clear of other sizes
GAP = 9.0  # mm of paper between the two ends
_PAST, _ZIG = 2.5, 1.3  # mm of paper that a break line runs past the brickwork; half the width of its zigzag


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken(View):
    """A view of a run `length` mm long that shows so much of either end as is `kept`, a gap between the two."""

    length: Fraction
    kept: Fraction

    def at(self, x: Fraction | float, y: Fraction | float) -> Point:
        """The point on paper of a place on the wall: what lies in the middle falls into the gap."""
        if x > self.length / 2:
            right = self.origin[0] + float(2 * self.kept) / self.one_to + GAP
            return right - float(self.length - x) / self.one_to, self.origin[1] - float(y) / self.one_to
        return View.at(self, x, y)

    def raised(self, level: Fraction) -> Broken:
        """The same view with the level for its datum, so that a size below it clears what stands there."""
        return replace(self, origin=(self.origin[0], self.at(0, level)[1]))

    def shown(self, laid: Iterable[PlacedBrick]) -> tuple[PlacedBrick, ...]:
        """Of these bricks, those that stand whole at an end."""
        left, right = float(self.kept) + 1e-6, float(self.length - self.kept) - 1e-6
        return tuple(brick for brick in laid if brick.right <= left or brick.left >= right)


def broken(
    run: Run, wide: Fraction, high: Fraction, room: tuple[float, float], *, most: int = 6, over: Fraction = _NOTHING
) -> Broken:
    """The view of a run of pieces `wide` mm wide: `most` at each end, fewer where else none would be in the gap.

    `over` is how far a piece reaches beyond its own width, behind the next one.
    """
    ends = max(1, min(most, (run.pieces - 1) // 2))
    kept = ends * run.pitch - run.joint + over
    length = (run.pieces - 1) * run.pitch + wide
    return Broken(one_to=one_to(2 * kept, high, (room[0] - GAP, room[1])), length=length, kept=kept)


def pieces_of(run: Run, wide: Fraction, bottom: Fraction, high: Fraction) -> tuple[PlacedBrick, ...]:
    """Every piece of a run, standing on `bottom`, the first from 0."""
    low, top = float(bottom), float(bottom + high)
    lefts = [n * run.pitch for n in range(run.pieces)]
    return tuple(PlacedBrick(left=float(left), bottom=low, right=float(left + wide), top=top) for left in lefts)


def stretchers(view: Broken, bottom: Fraction, brick: Format) -> tuple[PlacedBrick, ...]:
    """A course of stretchers along the run, laid from either end, as far as each is shown."""
    count = int((view.kept + brick.perpend) / brick.module)
    low, top, long = float(bottom), float(bottom + brick.height), float(view.length)
    left = [(float(n * brick.module), float(n * brick.module + brick.length)) for n in range(count)]
    places = (*left, *((long - b, long - a) for a, b in left))
    return tuple(PlacedBrick(left=a, bottom=low, right=b, top=top) for a, b in places)


def break_lines(view: Broken, foot: Fraction, head: Fraction) -> Marks:
    """The two thin lines with a zigzag that say that the middle is left out."""
    below, above = view.at(0, foot)[1] + _PAST, view.at(0, head)[1] - _PAST
    places = (view.at(view.kept, 0)[0] + GAP / 3, view.at(view.length - view.kept, 0)[0] - GAP / 3)
    return (BREAK.stroke(*(break_line((x, below), (x, above)) for x in places)),)


def break_line(start: Point, end: Point) -> tuple[Point, ...]:
    """A line with a zigzag in its middle: plumb from below, or level from the left."""
    (x1, y1), (x2, y2) = start, end
    x, y = (x1 + x2) / 2, (y1 + y2) / 2
    if x1 == x2:
        bends = ((x, y + _ZIG), (x - _ZIG, y + _ZIG / 2), (x + _ZIG, y - _ZIG / 2), (x, y - _ZIG))
    else:
        bends = ((x - _ZIG, y), (x - _ZIG / 2, y - _ZIG), (x + _ZIG / 2, y + _ZIG), (x + _ZIG, y))
    return start, *bends, end


def one_piece(call: DrawingCall, view: Broken, wide: Fraction, head: Fraction) -> Marks:
    """The width of a piece, over the first of them, if the call asks for `each`."""
    if "each" not in call.labels:
        return ()
    short = "height" in call.labels and view.at(view.length, 0)[0] - view.at(0, 0)[0] < _SHORT
    return across(view.at(0, head), view.at(wide, head), view.at(0, head)[1] - 5, call.labels["each"], before=short)
