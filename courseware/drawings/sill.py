"""A sill of bricks on edge from the front, its middle broken out, and its section: how it stands out and slopes."""

from __future__ import annotations

from fractions import Fraction
from math import cos, radians, sin

from courseware.drawings.broken import break_lines, broken, one_piece, pieces_of, stretchers
from courseware.drawings.dimension import CLOSE_LANE, NAME, Marks, across, lane, name
from courseware.drawings.foot import scale_bar
from courseware.drawings.frame import View, cut_through, framed, sizes
from courseware.drawings.picture import Picture, moved
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, on_edge

_ROOM = (85.0, 45.0)  # mm of paper for the brickwork of the front
_SLOPE = 9.0  # degrees, as drawn: common practice, no source
_SECTION, _PLAIN = (40.0, 40.0), 2  # mm of paper for the section; courses of wall in it
_APART = (26.0, 34.0)  # mm of paper between front and section, clear of the size that the sill stands out; of its box
_LIFT = 4.0  # mm of paper from the size of the front to the section where that stands below it


def draw_sill(call: DrawingCall) -> Picture:
    """The picture of a sill `length` mm long, brick at both ends, that `stands` so many mm out from the wall."""
    brick, stands = call.format, Fraction(call.figures["stands"])
    run = on_edge(Fraction(call.figures["length"]), brick)
    foot, head = -brick.course, brick.width
    view = broken(run, brick.height, head - foot, _ROOM)
    marks: Marks = (
        *view.bricks(view.shown(pieces_of(run, brick.height, Fraction(0), brick.width)), joint=run.joint),
        *view.bricks(stretchers(view, -brick.course, brick), kind=None, joint=brick.bed),
        *break_lines(view, foot, head),
        *one_piece(call, view, brick.height, head),
        *sizes(call, view.raised(foot), view.length, Fraction(0), ("length", "")),
    )
    scale = one_to(brick.length + stands, 2 * brick.course + head, _SECTION)
    left, datum = view.at(view.length, 0)[0] + _APART[None in call.labels.values()], 0.0
    if call.narrow:
        left = view.at(0, 0)[0]
        datum = view.at(0, foot)[1] + 2 * lane(call.labels) + float(head) / scale + _LIFT
    section = View(one_to=scale, origin=(left + float(stands) / scale, datum))
    return framed((*marks, *_section(call, section, stands, brick)), call.alt, view.one_to)


def _section(call: DrawingCall, view: View, stands: Fraction, brick: Format) -> Marks:
    """The brick on edge upon the wall, its lower front arris `stands` out; the wall's face is at 0, its front left."""
    wall = tuple(
        view.box(0, -n * brick.course, brick.width, -n * brick.course + brick.height) for n in range(_PLAIN, 0, -1)
    )
    lean, c, s = brick.length, cos(radians(_SLOPE)), sin(radians(_SLOPE))
    corners = ((0, 0), (lean, 0), (lean, brick.width), (0, brick.width))
    on_edge_brick = tuple(
        view.at(-float(stands) + float(x) * c - float(y) * s, float(x) * s + float(y) * c) for x, y in corners
    )
    left, low = view.at(0, 0)[0], view.at(0, -_PLAIN * brick.course)[1] + 5
    marks: Marks = (
        *cut_through(wall, None),
        *cut_through((on_edge_brick,)),
        name((left, low), "section, enlarged"),
        *(moved(mark, left, low + NAME + 0.5) for mark in scale_bar(view.one_to)),
    )
    if "stands" in call.labels:
        line = view.at(0, 0)[1] + CLOSE_LANE + 0.5
        marks += across(on_edge_brick[0], view.at(0, 0), line, call.labels["stands"], before=True)
    return marks
