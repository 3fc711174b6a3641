"""The wall and its support drawn from above: two courses that lie on each other, brick by brick; where props stand."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import LANE, Marks, across, name, upright
from courseware.drawings.frame import View, framed
from courseware.drawings.lines import HIDDEN, SYMBOL
from courseware.drawings.looks import bricks_of
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.jobs.from_above import FromAbove, course_from_above
from courseware.jobs.plan import Plan, shown_size
from courseware.jobs.support import BONDED

_ROOM = {False: (140.0, 30.0), True: (140.0, 60.0)}  # mm of paper for one course, without props and with them
_BETWEEN = 8.0  # mm of paper between two courses, for the words over the lower one
_BOARD = (Fraction(300), Fraction(40))  # mm: a prop's board, as long and as thick as it is drawn
_PROP = Fraction(300)  # mm: as far out as a prop is drawn


def plan_view(plan: Plan) -> Picture:
    """The first course from above, its face towards the reader; over it the second, where the support is bonded in."""
    shape, brick = plan.task.shape, plan.task.brick
    bricks, support = shape.wall.bricks, shape.support
    rows = (0, 1) if support in BONDED else (0,)
    courses = [course_from_above(bricks, row, brick, support, shape.return_bricks) for row in rows]
    wide, deep = _reach(tuple(one for course in courses for one in course))
    out = _PROP + _BOARD[1] if support == "props" else Fraction(0)
    n = one_to(wide, deep + 2 * out, _ROOM[support == "props"])
    every = " and every other" if len(rows) > 1 else ""
    marks: Marks = ()
    for row, course in zip(rows, courses, strict=True):
        view = View(one_to=n, origin=(0.0, -row * (float(deep) / n + _BETWEEN)))
        marks += _laid(view, course, brick.perpend)
        marks += (name(_above(view.at(0, deep + out)), f"course {row + 1}{every}"),)
    view = View(one_to=n)
    if support == "props":
        marks += _props(view, wide, brick.width)
        marks += (name(_above(view.at(_BOARD[0], brick.width + _PROP / 2)), "raking prop, dashed, on its board"),)
    base, edge = view.at(0, -out)[1], view.at(wide, 0)[0]
    marks += (name((view.at(wide / 2, 0)[0], view.at(0, 0)[1] + 3.8), "face", anchor="middle"),)
    marks += across(view.at(0, -out), view.at(wide, -out), base + LANE, shown_size(wide))
    marks += upright(view.at(wide, 0), view.at(wide, deep), edge + LANE, shown_size(deep))
    kinds = tuple(
        kind
        for half, kind in ((False, "whole"), (True, "half"))
        if any(one.half is half for course in courses for one in course)
    )
    return framed(marks, f"Wall from above, {_words(support)}", n, kinds)


def _words(support: str) -> str:
    if support in BONDED:
        return f"two courses, with the {support} at both ends"
    return "with a prop and its board to each side of both ends" if support else "without support"


def _reach(laid: tuple[FromAbove, ...]) -> tuple[Fraction, Fraction]:
    """How far the bricks reach, along the wall and back from its face, in mm."""
    return max(one.right for one in laid), max(one.back for one in laid)


def _laid(view: View, laid: tuple[FromAbove, ...], joint: Fraction) -> Marks:
    """The bricks of a course, wholes and halves in their own looks."""
    marks: Marks = ()
    for half, kind in ((False, "whole"), (True, "half")):
        outlines = tuple(view.box(b.left, b.front, b.right, b.back) for b in laid if b.half is half)
        marks += bricks_of(kind, outlines, fine=view.fine(joint))
    return marks


def _props(view: View, wide: Fraction, deep: Fraction) -> Marks:
    """At both ends a board flat on either side of the wall, and the prop that leans on it, drawn as a dashed line."""
    long, thick = _BOARD
    boards, leans = [], []
    for left in (Fraction(0), wide - long):
        for near, way in ((Fraction(0), -1), (deep, 1)):
            far = near + way * thick
            boards.append(view.box(left, min(near, far), left + long, max(near, far)))
            leans.append((view.at(left + long / 2, far), view.at(left + long / 2, far + way * _PROP)))
    return (
        SYMBOL.stroke(*boards, closed=True, fill=1.0),
        HIDDEN.stroke(*leans),
    )


def _above(point: tuple[float, float]) -> tuple[float, float]:
    return point[0], point[1] - 1.6
