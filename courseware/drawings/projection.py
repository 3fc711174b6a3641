"""A projecting course in its wall, in elevation and section with the eye line across both, and the course enlarged.

Courses are counted from the datum at the foot of the wall, the top of the brick below the first course.
"""

from __future__ import annotations

import math
from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, section, toothed
from courseware.drawings.dimension import LANE, NAME, Marks, across, beside, name, upright
from courseware.drawings.eye import DASH, eye
from courseware.drawings.frame import PROJECTING, View, datum, framed, hatching
from courseware.drawings.picture import Picture, Point, Stroke
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, height

_HIGH = 76.0  # mm of paper for the wall
_ELEVATION = 30.0  # mm of paper that the elevation takes, or as near as bricks go
_APART = 15.0  # between elevation and section, where the eye is
_DETAIL = (44.0, 53.0)  # room for the course enlarged


def draw_projection(call: DrawingCall) -> Picture:
    """The picture of the course numbered `course`, `projects` mm forward, seen from `eye_height`.

    Heights are from the datum to the top of the course and to the eye line; `from_eye` is between the two.
    """
    brick, course = call.format, int(Fraction(call.figures["course"]))
    eye, out = Fraction(call.figures["eye_height"]), Fraction(call.figures["projects"])
    rows = math.ceil(max((course + 2) * brick.course, eye + brick.course) / brick.course)
    scale = one_to(1, rows * brick.course, (1, _HIGH), least=15)
    elevation = View(one_to=scale)
    bricks = max(2, int(_ELEVATION * scale / brick.module))
    end = elevation.at(bricks * brick.module - brick.perpend + brick.half, 0)[0]
    cut = View(one_to=scale, origin=(end + _APART + float(out) / scale, 0.0))
    marks: Marks = (
        *_elevation(elevation, bricks, rows, course, brick),
        *_section(cut, range(rows), course, out, brick),
        *_eye_line(elevation.at(0, eye), end, cut.at(brick.width, eye)[0]),
        *datum(elevation.at(0, 0), cut.at(brick.width, 0), "datum"),
        *_heights(call, elevation, cut.at(brick.width, 0)[0]),
    )
    lanes = len({"course_height", "eye_height"} & call.labels.keys())
    left = cut.at(brick.width, 0)[0] + lanes * LANE + 6
    marks += _enlarged(call, left, cut.at(0, rows * brick.course)[1])
    return framed(marks, call.alt)


def section_of_wall(
    rows: range, course: int, out: Fraction, brick: Format
) -> tuple[tuple[PlacedBrick, ...], PlacedBrick]:
    """The wall cut through, its face at 0: the courses that stand back, and the one that is `out` mm forward."""
    back = tuple(section(row, brick) for row in rows if row != course - 1)
    return back, section(course - 1, brick, -out)


def _elevation(view: View, bricks: int, rows: int, course: int, brick: Format) -> Marks:
    back = tuple(laid for row in range(rows) if row != course - 1 for laid in toothed(bricks, row, brick))
    forward = toothed(bricks, course - 1, brick)
    under = forward[0].bottom
    middle = (view.at(0, 0)[0] + view.at(bricks * brick.module, 0)[0]) / 2
    return (
        *view.bricks(back, joint=brick.bed),
        *view.bricks(forward, PROJECTING, joint=brick.bed),
        view.rule((forward[0].left, under), (forward[-1].right, under), weight=0.5),
        name((middle, view.at(0, 0)[1] + 6.0), "elevation", anchor="middle"),
    )


def _section(view: View, rows: range, course: int, out: Fraction, brick: Format) -> Marks:
    back, forward = section_of_wall(rows, course, out, brick)
    marks = (*view.bricks(back, joint=brick.bed), *view.bricks((forward,), PROJECTING, joint=brick.bed))
    middle = view.at(brick.width / 2, 0)
    return (*marks, name((middle[0], middle[1] + 6.0), "section", anchor="middle"))


def _eye_line(start: Point, gap: float, end: float) -> Marks:
    """The dashed line across both views, with the eye and its name between them."""
    return (
        Stroke(outlines=((start, (end, start[1])),), weight=0.3, dash=DASH),
        *eye((gap + 3.0, start[1])),
        name((gap + 1.2, start[1] - 2.2), "eye line"),
    )


def _heights(call: DrawingCall, view: View, edge: float) -> Marks:
    """Heights from the datum to the right of the section, the shorter first; `from_eye` to the left of all."""
    brick, eye = call.format, Fraction(call.figures["eye_height"])
    top = height(Fraction(call.figures["course"]), brick)
    marks: Marks = ()
    line = edge
    for size, dimension in sorted(((top, "course_height"), (eye, "eye_height"))):
        if dimension in call.labels:
            line += LANE
            marks += upright((edge, view.at(0, 0)[1]), (edge, view.at(0, size)[1]), line, call.labels[dimension])
    if "from_eye" in call.labels:
        marks += beside(
            view.at(0, min(top, eye)), view.at(0, max(top, eye)), view.at(0, 0)[0] - 5, call.labels["from_eye"]
        )
    return marks


def _enlarged(call: DrawingCall, left: float, head: float) -> Marks:
    """The course with the one below and the one above, cut through, as large as there is room."""
    brick, course = call.format, int(Fraction(call.figures["course"]))
    out = Fraction(call.figures["projects"])
    scale = one_to(out + brick.width, 3 * brick.course, _DETAIL, least=5)
    rows = range(course - 2, course + 1)
    foot = height(course + 1, brick) / scale
    view = View(one_to=scale, origin=(left + float(out) / scale, head + 14 + float(foot)))
    back, forward = section_of_wall(rows, course, out, brick)
    marks: Marks = (*view.bricks(back), *view.bricks((forward,), PROJECTING))
    marks += tuple(hatching(view.box(b.left, b.bottom, b.right, b.top)) for b in (*back, forward))
    below = view.at(0, back[0].bottom)
    marks += (name((left, below[1] + NAME + 1.5), "section, enlarged"),)
    if "projects" in call.labels:
        over = view.at(0, back[-1].top)
        front = view.at(-out, forward.top)
        marks += across(front, over, over[1] - 3, call.labels["projects"])
    return marks
