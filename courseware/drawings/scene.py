"""Trade sizes to paper: a scene in mm of wall, y upwards from its datum, put on the page at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from courseware.drawings.picture import Label, Picture, Point, Stroke

WIDEST, HIGHEST = 160.0, 78.0  # mm of paper for the drawing itself
_MARGIN = 17.0  # mm of paper round it for dimensions
_BLANK = (20.0, 7.0)  # a box to write a size in
Size = Fraction | int


@dataclass(slots=True)
class Scene:
    """A drawing being made: `wide` by `high` mm of wall, at `scale` mm of paper to a mm of wall."""

    wide: Fraction
    high: Fraction
    marks: list[Stroke | Label] = field(default_factory=list)

    @property
    def scale(self) -> float:
        return min((WIDEST - 2 * _MARGIN) / float(self.wide), (HIGHEST - 0) / float(self.high), 0.2)

    def at(self, x: Size, y: Size) -> Point:
        """The point on paper."""
        return _MARGIN + float(x) * self.scale, 4 + float(self.high - y) * self.scale

    def boxes(
        self, boxes: Sequence[tuple[Size, Size, Size, Size]], fill: float | None = 0.9, weight: float = 0.2
    ) -> None:
        """Rectangles (left, bottom, right, top) as one stroke: bricks of one kind."""
        outlines = tuple(
            (self.at(left, bottom), self.at(right, bottom), self.at(right, top), self.at(left, top))
            for left, bottom, right, top in boxes
        )
        if outlines:
            self.marks.append(Stroke(outlines=outlines, closed=True, weight=weight, fill=fill))

    def rule(
        self, start: tuple[Size, Size], end: tuple[Size, Size], weight: float = 0.25, dash: tuple[float, ...] = ()
    ) -> None:
        """A straight line between two places on the wall."""
        self.marks.append(Stroke(outlines=((self.at(*start), self.at(*end)),), weight=weight, dash=dash))

    def across(self, left: Size, right: Size, y: Size, text: str | None, row: int = 1) -> None:
        """A dimension below `y`: extension lines with a gap, oblique terminators, the figure above (ISO 129-1)."""
        (x1, top), (x2, _) = self.at(left, y), self.at(right, y)
        line = 4 + self.high_on_paper + 9.0 * row
        self._dimension(((x1, top + 1), (x1, line + 1.5)), ((x2, top + 1), (x2, line + 1.5)), (x1, line), (x2, line))
        self._figure(((x1 + x2) / 2, line), text, turn=0)

    def upright(self, bottom: Size, top: Size, x: Size, text: str | None, *, right: bool = True, row: int = 1) -> None:
        """A dimension beside `x`, read from the right."""
        (edge, y1), (_, y2) = self.at(x, bottom), self.at(x, top)
        away = 1 if right else -1
        line = edge + away * 10.0 * row
        self._dimension(
            ((edge + away, y1), (line + 1.5 * away, y1)),
            ((edge + away, y2), (line + 1.5 * away, y2)),
            (line, y1),
            (line, y2),
        )
        self._figure((line, (y1 + y2) / 2), text, turn=90)

    @property
    def high_on_paper(self) -> float:
        return float(self.high) * self.scale

    def picture(self, alt: str, rows_below: int = 1) -> Picture:
        """The finished drawing."""
        return Picture(
            width=2 * _MARGIN + float(self.wide) * self.scale,
            height=8 + self.high_on_paper + 9.0 * rows_below,
            marks=tuple(self.marks),
            alt=alt,
        )

    def _dimension(self, first: tuple[Point, Point], second: tuple[Point, Point], start: Point, end: Point) -> None:
        ticks = tuple(((x - 1, y + 1), (x + 1, y - 1)) for x, y in (start, end))
        self.marks.append(Stroke(outlines=(first, second, (start, end)), weight=0.18))
        self.marks.append(Stroke(outlines=ticks, weight=0.35))

    def _figure(self, middle: Point, text: str | None, turn: int) -> None:
        x, y = middle
        if text is not None:
            at = (x, y - 1) if turn == 0 else (x - 1, y)
            self.marks.append(Label(at=at, text=text, size=3.4, turn=turn, bold=True))
            return
        wide, high = _BLANK if turn == 0 else _BLANK[::-1]
        corners = (
            (x - wide / 2, y - high / 2),
            (x + wide / 2, y - high / 2),
            (x + wide / 2, y + high / 2),
            (x - wide / 2, y + high / 2),
        )
        self.marks.append(Stroke(outlines=(corners,), closed=True, weight=0.3, fill=1.0))
