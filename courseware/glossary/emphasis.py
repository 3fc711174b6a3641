"""How the pictures of words are drawn: all else light, what is named dark, so that a photocopy still shows it."""

from __future__ import annotations

from collections.abc import Iterable

from courseware.drawings.bond import PlacedBrick
from courseware.drawings.dimension import Marks
from courseware.drawings.frame import View
from courseware.drawings.hatching import hatching
from courseware.drawings.lines import EDGE, GROUND, SEEN
from courseware.drawings.picture import Point, Stroke

BRICK = 0.93  # grey
_DARK, _SOFT = 0.3, 0.45  # greys: what is named, and the pen of all else

Outline = tuple[Point, ...]


def light(*outlines: Outline, fill: float | None = BRICK) -> Marks:
    """Things that are there but not named."""
    return (Stroke(outlines=outlines, closed=True, weight=SEEN.weight, grey=_SOFT, fill=fill),) if outlines else ()


def dark(*outlines: Outline) -> Marks:
    """What is named."""
    return (EDGE.stroke(*outlines, closed=True, fill=_DARK),)


def hollow(*outlines: Outline) -> Marks:
    """What is named, where there is nothing: a gap or an opening, hatched."""
    frame = EDGE.stroke(*outlines, closed=True, fill=1.0)
    return frame, hatching(*outlines, apart=1.2)


def line(*runs: Outline, dash: tuple[float, ...] = ()) -> Marks:
    """A line or an edge that is named."""
    return (Stroke(outlines=runs, weight=GROUND.weight, dash=dash),)


def thin(*runs: Outline, dash: tuple[float, ...] = ()) -> Marks:
    """A line that helps."""
    return (Stroke(outlines=runs, weight=SEEN.weight, grey=_SOFT, dash=dash),)


def laid(view: View, bricks: Iterable[PlacedBrick]) -> Marks:
    """Bricks in a wall that are not named."""
    return light(*(placed(view, brick) for brick in bricks))


def placed(view: View, brick: PlacedBrick) -> Outline:
    """The outline on paper of a brick in its place."""
    return view.box(brick.left, brick.bottom, brick.right, brick.top)


def span(a: Point, b: Point, tick: float = 1.2) -> Marks:
    """A length that is named: a heavy line between two points, plumb or level, with a stroke across each end."""
    along = a[0] == b[0]
    ends = tuple(((x - tick, y), (x + tick, y)) if along else ((x, y - tick), (x, y + tick)) for x, y in (a, b))
    return line((a, b), *ends)
