"""A surround in its opening, piece by piece at the corners alone: how many stand between is for the learner to say."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, across, name, plumb
from courseware.drawings.frame import View, framed, sizes
from courseware.drawings.lines import CUT, SEEN
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.drawings.surround import kinds_of, pieces
from courseware.papers.sheets import DrawingCall
from courseware.trade import Surround, piece_joint, surround

_ROOM = (64.0, 38.0)  # mm of paper for the opening
_KEPT = 3  # pieces of a run at either corner, one fewer where that would be all of them


def draw_surround_corners(call: DrawingCall) -> Picture:
    """The picture of an opening of `bricks` by `courses`, the corners of its surround drawn, its runs as lines."""
    figures, brick = call.figures, call.format
    bricks, courses = Fraction(figures["bricks"]), Fraction(figures["courses"])
    found = surround(bricks, courses, brick, str(figures["corner"]))
    view = View(one_to=one_to(found.width, found.height, _ROOM, least=10))
    kept = _KEPT if min(3 * bricks, courses - 3) > 2 * _KEPT else _KEPT - 1
    shown = at_corners(found, kept, brick.module / 3)
    joint = piece_joint(brick)
    outer, inner = joint, joint + found.depth
    edges = tuple(view.box(x, x, found.width - x, found.height - x) for x in (outer, inner))
    marks: Marks = (
        CUT.stroke(view.box(0, 0, found.width, found.height), closed=True),
        SEEN.stroke(*edges, closed=True),
        *pieces(view, shown),
        *_named(view, found),
        *sizes(call, view, found.width, found.height),
    )
    if "bricks" in call.labels:
        left, right = view.at(0, found.height), view.at(found.width, found.height)
        marks += across(left, right, left[1] - 5, call.labels["bricks"])
    if "courses" in call.labels:
        foot, head = view.at(0, 0), view.at(0, found.height)
        marks += plumb(foot, head, foot[0] - 5, call.labels["courses"])
    return framed(marks, call.alt, view.one_to, kinds_of(shown))


def _named(view: View, found: Surround) -> Marks:
    """The name of what goes inside, where there is room for it."""
    says = name(view.at(found.width / 2, found.height / 2), "panel", anchor="middle")
    inside = min(found.width, found.height) - 2 * (found.depth + Fraction(20))
    return (says,) if inside > says.width * view.one_to else ()


def at_corners(found: Surround, kept: int, pitch: Fraction) -> Surround:
    """The surround with so many pieces of each run at either end of it."""
    reach = kept * pitch + found.depth / 4

    def near(place: Fraction, end: Fraction) -> bool:
        return min(place, end - place) < reach

    def keeps(outline: tuple[tuple[Fraction, Fraction], ...]) -> bool:
        middle = tuple((min(side) + max(side)) / 2 for side in zip(*outline, strict=True))
        return near(middle[0], found.width) and near(middle[1], found.height)

    shown = tuple(piece for piece in found.pieces if keeps(piece.outline))
    return Surround(**{**{key: getattr(found, key) for key in found.__slots__}, "pieces": shown})
