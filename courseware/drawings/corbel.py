"""A corbel in section: courses that each stand further out than the one below, over the wall and under it."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import LANE, Marks, across, name
from courseware.drawings.frame import View, cut_through, framed
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, wall_thickness

_ROOM = (80.0, 48.0)  # mm of paper for the section
_PLAIN = 2  # courses below the corbel, and above it
Box = tuple[Fraction, Fraction, Fraction, Fraction]


def draw_corbel(call: DrawingCall) -> Picture:
    """The picture of `steps` courses, each `each` mm further out, on a wall `thickness` bricks thick.

    The wall's face is at 0 and what stands out lies to the left of it, as in every section of ours.
    """
    brick, figures = call.format, call.figures
    steps, each = int(Fraction(figures["steps"])), Fraction(figures["each"])
    thick = wall_thickness(Fraction(figures["thickness"]), brick)
    rows = courses(steps, each, thick, brick)
    out, head = steps * each, rows[-1][3]
    view = View(one_to=one_to(thick + out, head, _ROOM))
    corbelled = tuple(view.box(*row) for row in rows[_PLAIN : _PLAIN + steps])
    plain = tuple(view.box(*row) for row in (*rows[:_PLAIN], *rows[_PLAIN + steps :]))
    marks: Marks = (
        *cut_through(plain),
        *cut_through(corbelled, "out"),
        name((view.at(thick, 0)[0] + 2, view.at(thick, 0)[1]), "section"),
    )
    if "each" in call.labels:
        low = rows[_PLAIN][1]
        line = view.at(0, low)[1] + LANE - 2
        marks += across(view.at(-each, low), view.at(0, low), line, call.labels["each"], before=True)
    if "total" in call.labels:
        line = view.at(0, head)[1] - 5
        marks += across(view.at(-out, head), view.at(0, head), line, call.labels["total"], before=True)
    if "thickness" in call.labels:
        line = view.at(0, 0)[1] + 15
        marks += across(view.at(0, 0), view.at(thick, 0), line, call.labels["thickness"])
    return framed(marks, call.alt, view.one_to, ("whole", "out"))


def courses(steps: int, each: Fraction, thick: Fraction, brick: Format) -> tuple[Box, ...]:
    """Left, bottom, right and top of each course from the lowest: plain ones, the corbelled, and those they carry."""
    outs = [Fraction(0)] * _PLAIN + [n * each for n in range(1, steps + 1)] + [steps * each] * _PLAIN
    return tuple((-out, row * brick.course, thick, row * brick.course + brick.height) for row, out in enumerate(outs))
