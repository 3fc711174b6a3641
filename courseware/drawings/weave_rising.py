"""Basket weave while it rises: beside the upright of its surround, or alone in a gap; the middle is broken out.

The left reveal is at 0, the top of the brick below at 0; two bays are drawn of the width, and as many courses at the
foot and at the head of the work as say how it stands.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from courseware.drawings.bond import PlacedBrick
from courseware.drawings.broken import break_line
from courseware.drawings.dimension import LANE, THIN, Marks, beside, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.picture import Picture, Point, Stroke
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, piece_joint

_ONE_TO = 20
_BAY = 3  # courses
_GAP = 6.0  # mm of paper that stand for the middle
_WIDE = 2  # bays
_PAST = 2.5  # mm of paper that a break line runs past the work


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tall(View):
    """A view whose places above `low` are moved down to just over it; nothing between is drawn."""

    low: Fraction
    moved: Fraction

    def at(self, x: Fraction | float, y: Fraction | float) -> Point:
        return View.at(self, x, y if y <= self.low else float(y) - float(self.moved))

    def shown(self, laid: Iterable[PlacedBrick]) -> tuple[PlacedBrick, ...]:
        """Of these bricks, those that stand below the break or above it."""
        low, high = float(self.low), float(self.low + self.moved) + _GAP * self.one_to * 0.9
        return tuple(brick for brick in laid if not self.moved or brick.top <= low or brick.bottom >= high)


def draw_uprights(call: DrawingCall) -> Picture:
    """The picture of a panel `infill` courses high and the upright beside it, `ahead` courses higher."""
    brick, infill, ahead = call.format, int(Fraction(call.figures["infill"])), int(Fraction(call.figures["ahead"]))
    joint, base, side = piece_joint(brick), 2 * piece_joint(brick) + brick.width, 2 * piece_joint(brick) + brick.width
    view = _tall(base, infill, brick)
    upright_pieces = [_box(joint, base + n * brick.course, brick.width, brick.height) for n in range(infill + ahead)]
    bottom = [_box(joint + n * brick.module / 3, joint, brick.height, brick.width) for n in range(_WIDE * _BAY + 2)]
    edge = side + _WIDE * brick.module
    lying, standing = _bays(infill, side, base, brick)
    head = base + infill * brick.course - brick.bed
    top = head + ahead * brick.course
    marks: Marks = (
        *view.bricks(bottom, "out"),
        *view.bricks(view.shown(upright_pieces), "out"),
        *view.bricks(view.shown(lying)),
        *view.bricks(view.shown(standing), "half"),
        view.rule((edge, 0), (0, 0), (0, top + brick.course), weight=0.5),
        *_breaks(view, edge, head),
    )
    foot, lane = view.at(edge, base), view.at(edge, 0)[0] + LANE - 4
    if "infill" in call.labels:
        marks += beside(foot, view.at(edge, head), lane, call.labels["infill"])
    if "ahead" in call.labels:
        marks += beside(view.at(edge, head), view.at(side, top), lane, call.labels["ahead"])
    if "uprights" in call.labels:
        marks += upright(view.at(0, base), view.at(0, top), view.at(0, 0)[0] - 4, call.labels["uprights"])
    return framed(marks, call.alt, view.one_to)


def draw_weave_gap(call: DrawingCall) -> Picture:
    """The picture of the left reveal of a gap, `gap` courses high, its first bays of weave laid."""
    brick, gap = call.format, int(Fraction(call.figures["gap"]))
    view = _tall(brick.bed, gap, brick)
    clear = gap * brick.course + brick.bed
    rows = range(-1, gap + 1)
    jamb = [_box(-brick.length, row * brick.course + brick.bed, brick.length, brick.height) for row in rows[::2]]
    short = [
        _box(-brick.half + brick.perpend, row * brick.course + brick.bed, brick.width, brick.height)
        for row in rows[1::2]
    ]
    edge = _WIDE * brick.module
    across = [
        _box(n * brick.module + brick.perpend, row * brick.course + brick.bed, brick.length, brick.height)
        for row in (-1, gap)
        for n in range(_WIDE)
    ]
    lying, standing = _bays(_BAY, Fraction(0), brick.bed, brick)
    marks: Marks = (
        *view.bricks(view.shown([*jamb, *across]), None),
        *view.bricks(view.shown(short), None),
        *view.bricks(lying),
        *view.bricks(standing, "half"),
        *_breaks(view, edge, clear),
    )
    if "gap" in call.labels:
        marks += upright(view.at(edge, 0), view.at(edge, clear), view.at(edge, 0)[0] + LANE, call.labels["gap"])
    return framed(marks, call.alt, view.one_to)


def _tall(base: Fraction, courses: int, brick: Format) -> _Tall:
    """The view of so many courses from `base`: the lowest bay and the highest, what is between them broken out."""
    hidden = (courses - 2 * _BAY) * brick.course
    low = base + _BAY * brick.course
    moved = hidden - Fraction(_GAP) * _ONE_TO
    return _Tall(one_to=_ONE_TO, low=low, moved=max(moved, Fraction(0)))


def _box(left: Fraction, bottom: Fraction, wide: Fraction, high: Fraction) -> PlacedBrick:
    return PlacedBrick(left=float(left), bottom=float(bottom), right=float(left + wide), top=float(bottom + high))


def _bays(courses: int, left: Fraction, base: Fraction, brick: Format) -> tuple[list[PlacedBrick], list[PlacedBrick]]:
    """Bricks lying and bricks standing of so many courses of weave, two bays wide, the first of stretchers."""
    lying, standing = [], []
    for along in range(_WIDE):
        for up in range(courses // _BAY):
            x, y = left + along * brick.module, base + up * brick.module
            if (along + up) % 2 == 0:
                lying += [_box(x, y + n * brick.course, brick.length, brick.height) for n in range(_BAY)]
            else:
                standing += [_box(x + n * brick.module / 3, y, brick.height, brick.length) for n in range(_BAY)]
    return lying, standing


def _breaks(view: _Tall, edge: Fraction, head: Fraction) -> Marks:
    """Break lines: plumb, where the work goes on to the right; level, where its middle is left out."""
    x = view.at(edge, 0)[0] + 1.5
    lines = [break_line((x, view.at(0, 0)[1] + _PAST), (x, view.at(0, head)[1] - _PAST))]
    if view.moved:
        y = view.at(0, view.low)[1]
        left, right = view.at(-view.one_to * 3, 0)[0], x + 1.0
        lines += [break_line((left, level), (right, level)) for level in (y - _GAP / 3, y - _GAP * 2 / 3)]
    return (Stroke(outlines=tuple(lines), weight=THIN),)
