"""A site datum carried over rising ground from the footing at the gate to a wall on a higher footing, in section."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import section
from courseware.drawings.dimension import Marks, beside, name, plumb, room_for
from courseware.drawings.frame import View, cut_through, framed
from courseware.drawings.level_marks import level
from courseware.drawings.lines import GROUND, HIDDEN, SYMBOL
from courseware.drawings.picture import Picture
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import height

_HIGH = 42.0  # mm of paper for what stands over the lower footing
_LEAST = 0.6  # of that, so that the figures at the wall stand clear of one another
_RUN, _LEAST_RUN = 34.0, 28.0  # mm of paper from the peg to the wall: not to scale
_FOOTING = (Fraction(150), Fraction(300))  # mm, deep and wide: as drawn
_NAMED = 18.0  # mm of paper for the name of the datum
_PEG = Fraction(50)  # mm wide: as drawn


def draw_datum_carried(call: DrawingCall) -> Picture:
    """The picture of the datum `datum` mm over the gate's footing, and a wall `courses` high on one `steps` higher.

    The datum is dashed across to the wall; the wall's top against it is measured to the wall's left.
    """
    brick = call.format
    site, steps, courses = (Fraction(call.figures[name]) for name in ("datum", "steps", "courses"))
    rise = height(int(steps), brick)
    top = rise + height(int(courses), brick)
    view = View(one_to=one_to(1, max(site, top), (1, _HIGH), least=15, share=max(call.share, _LEAST)))
    wall = View(one_to=view.one_to, origin=(max(_LEAST_RUN, call.share * _RUN), view.at(0, rise)[1]))
    bricks = tuple(section(row, brick) for row in range(int(courses)))
    peg = view.box(-_PEG / 2, 0, _PEG / 2, site)
    marks: Marks = (
        *_footings(view, wall, brick.width),
        *wall.cut(bricks),
        SYMBOL.stroke(peg, closed=True, fill=1.0),
        HIDDEN.stroke((view.at(0, site), (wall.at(brick.width, 0)[0], view.at(0, site)[1]))),
        *level(view.at(-_PEG / 2, site), "site datum", _NAMED),
        name((view.at(0, 0)[0], view.at(0, -_FOOTING[0])[1] + 4), "gate", "middle"),
        name((wall.at(brick.width / 2 + _FOOTING[1] / 2, 0)[0], wall.at(0, -_FOOTING[0])[1] + 4), "new wall", "end"),
    )
    return framed((*marks, *_sizes(call, view, wall, site, top)), call.alt, view.one_to)


def _footings(view: View, wall: View, width: Fraction) -> Marks:
    """Both footings and the ground between them: it rises from the one to the other."""
    deep, wide = _FOOTING
    at_gate = view.box(-wide / 2, -deep, wide / 2, 0)
    middle = width / 2
    at_wall = wall.box(middle - wide / 2, -deep, middle + wide / 2, 0)
    ground = GROUND.stroke((view.at(wide / 2, 0), wall.at(middle - wide / 2, 0)))
    return *cut_through((at_gate, at_wall), None), ground


def _sizes(call: DrawingCall, view: View, wall: View, site: Fraction, top: Fraction) -> Marks:
    marks: Marks = ()
    edge = view.at(-_FOOTING[1] / 2, 0)[0]
    if "datum" in call.labels:
        foot, head = (edge, view.at(0, 0)[1]), (edge, view.at(0, site)[1])
        line = edge - 8 if foot[1] - head[1] >= room_for(call.labels["datum"]) else edge - _NAMED
        marks += plumb(foot, head, line, call.labels["datum"])
    right = wall.at(call.format.width / 2 + _FOOTING[1] / 2, 0)[0]
    foot, up = (right, wall.at(0, 0)[1]), (right, view.at(0, site)[1])
    line = right + 4
    if "rise" in call.labels:
        marks += beside((right, view.at(0, 0)[1]), foot, line, call.labels["rise"])
    if "above" in call.labels:
        marks += beside(foot, up, line, call.labels["above"])
    if "apart" in call.labels:
        left = wall.at(0, 0)[0]
        low, high = sorted(((left, up[1]), (left, view.at(0, top)[1])), key=lambda point: -point[1])
        marks += beside(low, high, left - 3, call.labels["apart"])
    return marks
