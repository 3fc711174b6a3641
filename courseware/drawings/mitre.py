"""The corner of a surround at true size, to draw the mitred bat in; filled in on the key.

The corner stands at the lower left: the corner piece with its joint, the line of the depth along both runs and the line
that halves the corner. The bat and the size of its cut appear when the cut is told.
"""

from __future__ import annotations

from courseware.drawings.dimension import Marks, box, name
from courseware.drawings.frame import cut_through, framed
from courseware.drawings.lines import CENTRE, CUT, HIDDEN, SYMBOL
from courseware.drawings.picture import Label, Picture, Point
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, mitre_template

_SETBACK = 5.0  # mm between the box's edge and the corner, and beyond the far arris of the bat
_BEYOND = 5.0  # mm that the lines run past the depth
_SAYS = {"leg": "leg of the cut", "cut_length": "length of the cut"}
_RULE = 100.0  # mm of the line that shows whether the size was kept


def draw_mitre(call: DrawingCall) -> Picture:
    """The picture of a square corner, 1:1. Told sizes bring the bat with them; asked for, they leave it to be drawn."""
    brick = call.format
    outline = [(float(x), float(y)) for x, y in mitre_template(brick).outline]
    long, high = max(x for x, _ in outline), float(brick.width) + _BEYOND
    left, top = -_SETBACK, high + _SETBACK
    told = {dimension: text for dimension, text in call.labels.items() if text is not None}
    marks: Marks = (
        SYMBOL.stroke(box(left, -top, long + _SETBACK, _SETBACK), closed=True),
        *_setting_out(brick, long, high),
        *_rule(long / 2),
    )
    if told:
        marks += cut_through((tuple(_at(*point) for point in outline),), "mitred bat")
        for line, (dimension, text) in enumerate(told.items()):
            marks += (
                Label(at=_at(8, high - 5 - 6 * line), text=f"{_SAYS[dimension]} {text} mm", size=3.4, anchor="start"),
            )
    else:
        marks += (name(_at(long - 2, 3), "outer edge of the run", anchor="end"),)
    return framed(marks, call.alt)


def _at(x: float, y: float) -> Point:
    return x, -y


def _setting_out(brick: Format, long: float, high: float) -> Marks:
    """Both outer edges, the corner piece, the depth lines and the halving line."""
    wide, deep = float(brick.height), float(brick.width)
    return (
        CUT.stroke((_at(0, high), _at(0, 0), _at(long, 0))),
        CUT.stroke((_at(0, 0), _at(wide, 0), _at(wide, wide), _at(0, wide)), closed=True),
        HIDDEN.stroke((_at(deep, high), _at(deep, deep), _at(long, deep))),
        CENTRE.stroke((_at(0, 0), _at(deep, deep))),
        name(_at(6, wide - 6), "corner piece"),
    )


def _rule(middle: float) -> Marks:
    left, y = middle - _RULE / 2, 2 * _SETBACK
    ends = tuple(((x, y - 1.5), (x, y + 1.5)) for x in (left, left + _RULE))
    return (
        SYMBOL.stroke(((left, y), (left + _RULE, y)), *ends),
        name((middle, y + 4.2), "100 mm: the drawing is at true size if this line is", anchor="middle"),
    )
