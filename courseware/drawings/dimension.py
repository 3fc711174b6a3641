"""Dimension lines as ISO 129-1 has them, on paper in mm with y downwards.

Extension lines leave a gap at the brickwork and run a little past the dimension line; oblique strokes end it; the
figure stands above the line, read from the bottom of the sheet or from its right. Where the learner is to find the
figure an empty ruled box stands in its place, large enough to write 1247.5 in by hand.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar

from courseware.drawings.lines import REFERENCE, SYMBOL, TICK
from courseware.drawings.picture import Label, Point, Stroke

LANE, CLOSE_LANE = 9.5, 6.5  # mm from the brickwork to a dimension line, and from one line to the next; without boxes
BLANK = (20.0, 7.5)  # the box to write in, mm
SMALL_BOX = 0.6  # of it, in a drawing that is made larger whole afterwards
FIGURE, NAME = 3.5, 2.9  # mm of type: figures, and the names of things
THIN, RULED = REFERENCE.weight, SYMBOL.weight  # pens
_GAP, _PAST = 1.0, 1.6  # between brickwork and extension line; past the dimension line
_OFF = 0.9  # figure or box above its line
_ASIDE = 1.5  # mm on either side of a figure: one for which its dimension is too short stands beyond its end

Marks = tuple[Stroke | Label, ...]
_BOXES: ContextVar[float] = ContextVar("boxes", default=1.0)  # of the usual size of a box


@contextmanager
def with_boxes(share: float) -> Iterator[None]:
    """Has whatever is drawn within it boxes to write in of so much of their usual size."""
    kept = _BOXES.set(share)
    try:
        yield
    finally:
        _BOXES.reset(kept)


def blank() -> tuple[float, float]:
    """How wide and high a box to write in is drawn, in mm."""
    share = _BOXES.get()
    return BLANK[0] * share, BLANK[1] * share


def lane(labels: Mapping[str, str | None]) -> float:
    """How far a dimension line stands from the brickwork, and from the next: a box to write in wants more."""
    return max(CLOSE_LANE, LANE - BLANK[1] + blank()[1]) if None in labels.values() else CLOSE_LANE


def room_for(text: str | None) -> float:
    """How long a dimension is at least to have its figure, or the box for it, on its line."""
    return 2 * _ASIDE + (blank()[0] if text is None else _words((0.0, 0.0), text, 0).width)


def across(left: Point, right: Point, line: float, text: str | None, *, before: bool = False) -> Marks:
    """A level dimension between two points, its line at height `line` on the paper; `text` None leaves a box.

    The figure of a short one stands after its right end, or `before` its left one.
    """
    way = 1.0 if line > left[1] else -1.0
    room = room_for(text)
    short = right[0] - left[0] < room
    start, end = (
        left[0] - room if short and before else left[0],
        right[0] + room if short and not before else right[0],
    )
    beyond = left[0] - room / 2 - 0.5 if before else right[0] + room / 2 + 0.5
    middle = beyond if short else (left[0] + right[0]) / 2
    rules = (
        *(((x, y + way * _GAP), (x, line + way * _PAST)) for x, y in (left, right)),
        ((start, line), (end, line)),
    )
    return (*_lines(rules, ((left[0], line), (right[0], line))), _figure((middle, line), text, turn=0))


def upright(bottom: Point, top: Point, line: float, text: str | None) -> Marks:
    """A plumb dimension between two points, its line at `line` across the paper, read from the right."""
    way = 1.0 if line > bottom[0] else -1.0
    room = room_for(text)
    short = bottom[1] - top[1] < room
    end = top[1] - room if short else top[1]
    middle = top[1] - room / 2 - 0.5 if short else (bottom[1] + top[1]) / 2
    return (
        *_lines(
            (*_reach(bottom, top, line, way), ((line, bottom[1]), (line, end))), ((line, bottom[1]), (line, top[1]))
        ),
        _figure((line, middle), text, turn=90),
    )


def beside(bottom: Point, top: Point, line: float, text: str | None) -> Marks:
    """A plumb dimension with its figure level and on the far side of the line, for spans that may be very short."""
    way = 1.0 if line > bottom[0] else -1.0
    middle = (bottom[1] + top[1]) / 2
    foot = line + way * (_PAST + room_for(text) - 2 * _ASIDE)
    rules = (
        *_reach(bottom, top, line, way),
        ((line, bottom[1]), (line, top[1])),
        ((line, middle), (foot, middle)),
    )
    where = ((line + way * _PAST + foot) / 2, middle)
    return (*_lines(rules, ((line, bottom[1]), (line, top[1]))), _figure(where, text, turn=0))


def plumb(bottom: Point, top: Point, line: float, text: str | None) -> Marks:
    """A plumb dimension: its figure along the line where the line is long enough, else level on its far side."""
    return (upright if bottom[1] - top[1] >= room_for(text) else beside)(bottom, top, line, text)


def led(point: Point, knee: Point, text: str | None) -> Marks:
    """A leader from a dot at `point` to a figure that stands on a short level line from `knee` to the left."""
    foot = (knee[0] - blank()[0], knee[1])
    return REFERENCE.stroke((point, knee, foot)), dot(point), _figure(((knee[0] + foot[0]) / 2, knee[1]), text, turn=0)


def led_right(point: Point, knee: Point, text: str | None) -> Marks:
    """A leader from a dot at `point` to a figure that stands on a short level line from `knee` to the right."""
    foot = (knee[0] + blank()[0], knee[1])
    line = Stroke(outlines=((point, knee, foot),), weight=THIN)
    return line, dot(point), _figure(((knee[0] + foot[0]) / 2, knee[1]), text, turn=0)


def figure_under(middle: Point, text: str | None) -> Marks:
    """A figure that has no line, centred below a point; the box for it where the learner is to find it."""
    x, y = middle
    if text is not None:
        return (Label(at=(x, y + FIGURE), text=text, size=FIGURE, bold=True),)
    wide, high = blank()
    corners = box(x - wide / 2, y, x + wide / 2, y + high)
    return (Stroke(outlines=(corners,), closed=True, weight=RULED, fill=1.0),)


def to_write_in(mark: Stroke | Label) -> bool:
    """Whether a mark is one of the boxes for a figure that the learner is to find, level or upright."""
    if isinstance(mark, Label) or not mark.closed or mark.fill != 1.0 or len(mark.outlines) != 1:
        return False
    (left, top), _, (right, bottom), *_ = (*mark.outlines[0], *mark.outlines[0])
    sides = sorted((abs(right - left), abs(bottom - top)))
    return any(
        all(abs(side - share * own) < 0.01 for side, own in zip(sides, sorted(BLANK), strict=True))
        for share in (1.0, SMALL_BOX)
    )


def name(at: Point, text: str, anchor: str = "start") -> Label:
    """The name of a thing or a datum."""
    return Label(at=at, text=text, size=NAME, anchor=anchor)


def dot(at: Point, side: float = 0.9) -> Stroke:
    """A small dark square, where a leader begins."""
    half = side / 2
    return Stroke(
        outlines=(box(at[0] - half, at[1] - half, at[0] + half, at[1] + half),), closed=True, weight=0, fill=0.0
    )


def box(left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    """The corners of a rectangle on paper."""
    return (left, top), (right, top), (right, bottom), (left, bottom)


def _words(at: Point, text: str, turn: int) -> Label:
    return Label(at=at, text=text, size=FIGURE, turn=turn, bold=True)


def _reach(bottom: Point, top: Point, line: float, way: float) -> tuple[tuple[Point, Point], ...]:
    return tuple(((x + way * _GAP, y), (line + way * _PAST, y)) for x, y in (bottom, top))


def _lines(rules: tuple[tuple[Point, Point], ...], ends: tuple[Point, Point]) -> tuple[Stroke, Stroke]:
    ticks = tuple(((x - 1.1, y + 1.1), (x + 1.1, y - 1.1)) for x, y in ends)
    return REFERENCE.stroke(*rules), TICK.stroke(*ticks)


def _figure(at: Point, text: str | None, turn: int) -> Stroke | Label:
    """The figure, or the box for it, above a line through `at`: to its left where the figure is turned."""
    x, y = at
    if text is not None:
        return _words((x, y - _OFF - 0.3) if turn == 0 else (x - _OFF - 0.3, y), text, turn)
    long, deep = blank()
    corners = (
        box(x - long / 2, y - _OFF - deep, x + long / 2, y - _OFF)
        if turn == 0
        else box(x - _OFF - deep, y - long / 2, x - _OFF, y + long / 2)
    )
    return SYMBOL.stroke(corners, closed=True, fill=1.0)
