"""A projecting course in its wall, in elevation and section with the eye line across both, and the course enlarged.

Courses are counted from the datum at the foot of the wall, the top of the brick below the first course.
"""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bed_of, section, toothed
from courseware.drawings.dimension import NAME, Marks, across, beside, lane, name, upright
from courseware.drawings.eye import eye
from courseware.drawings.foot import scale_bar
from courseware.drawings.frame import View, datum, framed
from courseware.drawings.lines import CUT, HIDDEN
from courseware.drawings.picture import Picture, Point, moved
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, height

_HIGH = 76.0  # mm of paper for the wall
_ELEVATION = 30.0  # mm of paper that the elevation takes, or as near as bricks go
_APART = 15.0  # between elevation and section, where the eye is
_DETAIL = (44.0, 53.0)  # room for the course enlarged
_DETAIL_FROM = 0.6  # of the usual room: with less the course is not enlarged where nothing is told of it
_NAMED = 7.5  # mm of paper from the datum down to the names of the views
_TALL = {"stretcher": 1, "soldier": 3}  # courses that the projecting one takes up


def draw_projection(call: DrawingCall) -> Picture:
    """The picture of the course numbered `course`, `projects` mm forward, seen from `eye_height`.

    It is of stretchers, or of soldiers that stand where three courses would lie, the last of them numbered `course`.
    Heights are from the datum to the top of the course and to the eye line; `from_eye` is between the two.
    """
    brick, course = call.format, int(Fraction(call.figures["course"]))
    high, out = Fraction(call.figures["eye_height"]), Fraction(call.figures["projects"])
    rows = range(math.ceil(max((course + 2) * brick.course, high + brick.course) / brick.course))
    scale = one_to(1, len(rows) * brick.course, (1, _HIGH), least=15)
    elevation = View(one_to=scale)
    bricks = max(2, int(_ELEVATION * call.share * scale / brick.module))
    end = elevation.at(bricks * brick.module - brick.perpend + brick.half, 0)[0]
    cut = View(one_to=scale, origin=(end + _APART + float(out) / scale, 0.0))
    marks: Marks = (
        *_elevation(call, elevation, bricks, rows),
        *_section(call, cut, rows),
        *_eye_line(elevation.at(0, high), end, cut.at(brick.width, high)[0]),
        *datum(elevation.at(0, 0), cut.at(brick.width, 0), "datum"),
        *_heights(call, elevation, cut.at(brick.width, 0)[0]),
    )
    lanes = len({"course_height", "eye_height"} & call.labels.keys())
    if call.narrow:
        marks += _enlarged(call, 0.0, elevation.at(0, 0)[1] + _NAMED)
    elif call.share >= _DETAIL_FROM or "projects" in call.labels:
        left = cut.at(brick.width, 0)[0] + lanes * lane(call.labels) + 6
        marks += _enlarged(call, left, cut.at(0, len(rows) * brick.course)[1])
    return framed(marks, call.alt, scale, ("whole", "out"))


def section_of_wall(call: DrawingCall, rows: range) -> tuple[tuple[PlacedBrick, ...], PlacedBrick]:
    """These rows of the wall cut through, its face at 0: the courses that stand back, and the one that is forward."""
    brick, out = call.format, Fraction(call.figures["projects"])
    taken = _taken(call)
    forward = section(taken[-1], brick, -out)
    if len(taken) > 1:
        forward = replace(forward, bottom=forward.top - float(brick.length))
    return tuple(section(row, brick) for row in rows if row not in taken), forward


def _taken(call: DrawingCall) -> range:
    """The rows that the projecting course takes up."""
    course = int(Fraction(call.figures["course"]))
    return range(course - _TALL[str(call.figures["lay"])], course)


def _elevation(call: DrawingCall, view: View, bricks: int, rows: range) -> Marks:
    brick, taken = call.format, _taken(call)
    back = tuple(laid for row in rows if row not in taken for laid in toothed(bricks, row, brick))
    forward = toothed(bricks, taken[-1], brick)
    if len(taken) > 1:
        forward = _soldiers(forward[0].left, forward[-1].right, taken[-1], brick)
    under = forward[0].bottom
    middle = (view.at(0, 0)[0] + view.at(bricks * brick.module, 0)[0]) / 2
    return (
        *view.bricks(back, joint=brick.bed),
        *view.bricks(forward, "out", joint=brick.bed),
        view.rule((forward[0].left, under), (forward[-1].right, under), pen=CUT),
        name((middle, view.at(0, 0)[1] + _NAMED), "elevation", anchor="middle"),
    )


def _soldiers(left: float, right: float, row: int, brick: Format) -> tuple[PlacedBrick, ...]:
    """Bricks on end side by side, their tops at the top of this row."""
    top, pitch = bed_of(row, brick)[1], float(brick.height + brick.perpend)
    count = int((right - left + float(brick.perpend)) / pitch + 1e-6)
    return tuple(
        PlacedBrick(
            left=left + n * pitch,
            right=left + n * pitch + float(brick.height),
            bottom=top - float(brick.length),
            top=top,
        )
        for n in range(count)
    )


def _section(call: DrawingCall, view: View, rows: range) -> Marks:
    back, forward = section_of_wall(call, rows)
    middle = view.at(call.format.width / 2, 0)
    words = name((middle[0], middle[1] + _NAMED), "section", anchor="middle")
    return (*view.cut(back), *view.cut((forward,), "out"), words)


def _eye_line(start: Point, gap: float, end: float) -> Marks:
    """The dashed line across both views, with the eye and its name between them."""
    return (
        HIDDEN.stroke((start, (end, start[1]))),
        *eye((gap + 3.0, start[1])),
        name((gap + 1.2, start[1] - 2.2), "eye line"),
    )


def _heights(call: DrawingCall, view: View, edge: float) -> Marks:
    """Heights from the datum to the right of the section, the shorter first; `from_eye` to the left of all."""
    brick, high = call.format, Fraction(call.figures["eye_height"])
    top = height(Fraction(call.figures["course"]), brick)
    marks: Marks = ()
    line = edge
    for size, dimension in sorted(((top, "course_height"), (high, "eye_height"))):
        if dimension in call.labels:
            line += lane(call.labels)
            marks += upright((edge, view.at(0, 0)[1]), (edge, view.at(0, size)[1]), line, call.labels[dimension])
    if "from_eye" in call.labels:
        marks += beside(
            view.at(0, min(top, high)), view.at(0, max(top, high)), view.at(0, 0)[0] - 5, call.labels["from_eye"]
        )
    return marks


def _enlarged(call: DrawingCall, left: float, head: float) -> Marks:
    """The course with the one below and the one above, cut through, as large as there is room, with its own bar."""
    brick, taken = call.format, _taken(call)
    out = Fraction(call.figures["projects"])
    rows = range(taken[0] - 1, taken[-1] + 2)
    scale = one_to(out + brick.width, len(rows) * brick.course, _DETAIL, least=5)
    foot = height(rows[-1] + 1, brick) / scale
    view = View(one_to=scale, origin=(left + float(out) / scale, head + 14 + float(foot)))
    back, forward = section_of_wall(call, rows)
    below = view.at(0, back[0].bottom)[1] + NAME + 1.5
    marks: Marks = (*view.cut(back), *view.cut((forward,), "out"), name((left, below), "section, enlarged"))
    marks += tuple(moved(mark, left, below + NAME + 0.5) for mark in scale_bar(scale))
    if "projects" in call.labels:
        over = view.at(0, back[-1].top)
        front = view.at(-out, forward.top)
        marks += across(front, over, over[1] - 3, call.labels["projects"])
    return marks
