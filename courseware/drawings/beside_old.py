"""New work that is to finish level with an old wall beside it, from a datum of its own."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from courseware.drawings.bond import bats, stopped, wholes
from courseware.drawings.dimension import Marks, beside, lane, name, plumb, room_for, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.level_marks import level
from courseware.drawings.lines import HIDDEN
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall

_ROOM = (40.0, 44.0)  # mm of paper for both walls
_EACH = 16.0  # mm of paper for either wall, or as near as half bricks go
_NAMED = 17.5  # mm of paper for the name of either datum
_APART = 4.0  # mm of paper between them
_LAID = 2  # courses of the new work that stand already: too few to tell how many there will be


def draw_beside_old(call: DrawingCall) -> Picture:
    """The picture of `courses` of the old wall at `gauge` mm, and the new work, its datum `drop` mm lower, dashed.

    Heights on the paper are from the new datum; the old bricks are `old_brick` mm high.
    """
    brick, courses, drop = call.format, int(Fraction(call.figures["courses"])), Fraction(call.figures["drop"])
    gauge, high = Fraction(call.figures["gauge"]), Fraction(call.figures["old_brick"])
    old = replace(brick, height=high, bed=gauge - high)
    top = drop + courses * gauge
    view = View(one_to=one_to(3 * brick.module, top, _ROOM, least=15))
    raised = View(one_to=view.one_to, origin=view.at(0, drop))
    bricks = max(Fraction(1), Fraction(int(call.share * _EACH * view.one_to * 2 / brick.module), 2))
    left = bricks * brick.module - brick.perpend + Fraction(_APART) * view.one_to
    new = View(one_to=view.one_to, origin=view.at(left, 0))
    right = bricks * brick.module - brick.perpend
    standing = tuple(one for row in range(courses) for one in stopped(bricks, row, old))
    begun = tuple(one for row in range(_LAID) for one in stopped(bricks, row, brick))
    over = new.at(0, top)[1] - 1.5
    marks: Marks = (
        *raised.bricks(stopped(bricks, -1, old), None, joint=old.bed),
        *raised.bricks(standing, "old", joint=old.bed),
        *new.bricks(stopped(bricks, -1, brick), None, joint=brick.bed),
        *new.bricks(wholes(begun), joint=brick.bed),
        *new.bricks(bats(begun), "half", joint=brick.bed),
        new.rule((0, _LAID * brick.course), (0, top), (right, top), (right, _LAID * brick.course), pen=HIDDEN),
        name((raised.at(right, 0)[0], over), "old", "end"),
        name((new.at(0, 0)[0], over), "new"),
        *level(raised.at(0, 0), "old datum", _NAMED),
        *level(new.at(0, 0), "new datum", max(call.share * _EACH + _APART, _NAMED), below=True),
    )
    edge = new.at(right, 0)[0]
    if "drop" in call.labels:
        line = edge + lane(call.labels) + _height_takes(call, new.at(0, 0)[1] - new.at(0, top)[1])
        marks += beside(new.at(right, 0), (edge, new.at(0, drop)[1]), line, call.labels["drop"])
    if "height" in call.labels:
        marks += plumb(new.at(right, 0), new.at(right, top), edge + lane(call.labels), call.labels["height"])
    if "old_height" in call.labels:
        line = raised.at(0, 0)[0] - _NAMED - 2
        marks += upright(raised.at(0, 0), raised.at(0, courses * gauge), line, call.labels["old_height"])
    return framed(marks, call.alt, view.one_to)


def _height_takes(call: DrawingCall, long: float) -> float:
    """How far past the height's line the next one stands: clear of its figure, which is level beside a short one."""
    if "height" not in call.labels:
        return 0.0
    room = room_for(call.labels["height"])
    return lane(call.labels) if long >= room else room + 1
