"""Which line says what: the pens of every drawing, by what is drawn with them.

One group of widths for drawings of buildings: narrow 0.18, wide 0.35, extra wide 0.7, and 0.25 for symbols
(tests/authorities/iso-128.txt). A new kind takes its pen from here, never a width of its own: `SEEN.stroke(outlines)`.
"""

from __future__ import annotations

from dataclasses import dataclass

from courseware.drawings.picture import Point, Stroke


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A pen: `weight` in mm of paper, `dash` in mm of line and gap in turn, and the number of its type in ISO 128."""

    weight: float
    type: str
    dash: tuple[float, ...] = ()

    def stroke(self, *outlines: tuple[Point, ...], closed: bool = False, fill: float | None = None) -> Stroke:
        """Runs of points on paper drawn with it."""
        return Stroke(outlines=outlines, closed=closed, weight=self.weight, fill=fill, dash=self.dash)


GROUND = Line(weight=0.7, type="01.3")  # a datum, and what the work stands on
EDGE = Line(weight=0.5, type="01.2")  # a line that work is set out to, where nothing is cut
CUT = Line(weight=0.35, type="01.2")  # what is cut through, hatched; the edge of an opening, of a wall in outline
SEEN = Line(weight=0.18, type="01.1")  # a brick looked at
FINE = Line(weight=0.13, type="01.1")  # and one so small that its joints would close; hatching, marks on bricks
REFERENCE = Line(weight=0.18, type="01.1")  # dimension lines, reference lines, leaders
TICK = Line(weight=0.35, type="01.2")  # the strokes that end a dimension line: heavier, common practice, no source
BREAK = Line(weight=0.18, type="01.1")  # the zigzag where the middle of a run is left out
SYMBOL = Line(weight=0.25, type="01.1")  # rods, the eye, the scale's bar, boxes to write in
HIDDEN = Line(weight=0.18, type="02.1", dash=(2.0, 0.8))  # hidden behind the face, or only thought: tape, line of sight
CENTRE = Line(weight=0.18, type="04.1", dash=(4.0, 1.0, 0.6, 1.0))  # centre lines: long dash, gap, dot, gap
