"""A wall that two gangs build from both ends: three courses stand, the next is begun at either end along one line."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bats, stopped, wholes
from courseware.drawings.dimension import LANE, Marks, across, beside, dot, figure_under, name
from courseware.drawings.frame import View, framed
from courseware.drawings.picture import Picture, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, height

_ROOM = (84.0, 30.0)  # mm of paper for the wall
LAID, _BEGUN = 3, 2  # courses between two checks; bricks of the next at either end
_DASH = (2.0, 1.2)
_SAID = 14.0  # mm of paper that half of what is said of a gang takes


def draw_two_gangs(call: DrawingCall) -> Picture:
    """The picture of a wall `bricks` long and `courses` high, its outline dashed; gangs lay `first` and `second`."""
    brick = call.format
    bricks, courses = Fraction(call.figures["bricks"]), int(Fraction(call.figures["courses"]))
    wide, high = bricks * brick.module - brick.perpend, height(courses, brick)
    view = View(one_to=one_to(wide, high, _ROOM, least=20))
    laid = begun(bricks, brick)
    line = height(LAID + 1, brick)
    ends = (view.at(0, line), view.at(wide, line))
    marks: Marks = (
        *view.bricks(wholes(laid), joint=brick.bed),
        *view.bricks(bats(laid), "half", joint=brick.bed),
        Stroke(outlines=(view.box(0, 0, wide, high),), closed=True, weight=0.25, dash=_DASH),
        Stroke(outlines=(((ends[0][0] - 2, ends[0][1]), (ends[1][0] + 2, ends[1][1])),), weight=0.35),
        dot((ends[0][0] - 2, ends[0][1]), 1.4),
        dot((ends[1][0] + 2, ends[1][1]), 1.4),
    )
    (start, top), end = view.at(0, high), view.at(wide, 0)[0]
    quarter = max((end - start) / 4, _SAID)
    for way, says, key in ((-1, "first gang", "first"), (1, "second gang", "second")):
        x = (start + end) / 2 + way * quarter
        marks += (name((x, top - 7.5), says, anchor="middle"),)
        if key in call.labels:
            marks += figure_under((x, top - 6.0), call.labels[key])
    foot, edge = view.at(0, 0), view.at(wide, 0)
    if "bricks" in call.labels:
        marks += across(foot, edge, foot[1] + LANE - 3, call.labels["bricks"])
    if "courses" in call.labels:
        marks += beside(edge, view.at(wide, high), edge[0] + LANE - 4, call.labels["courses"])
    return framed(marks, call.alt, view.one_to)


def begun(bricks: Fraction, brick: Format) -> tuple[PlacedBrick, ...]:
    """The courses that stand from end to end, and the bricks of the next at either end."""
    standing = [placed for row in range(LAID) for placed in stopped(bricks, row, brick)]
    following = stopped(bricks, LAID, brick)
    return (*standing, *following[:_BEGUN], *following[-_BEGUN:])
