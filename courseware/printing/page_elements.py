"""What pages carry beside their words: a code, a gauge scale, the 100 mm line, room to work and to draw in."""

from __future__ import annotations

from functools import lru_cache

from courseware.banks.exercise import SKETCH_SIZE, SQUARE
from courseware.banks.figures import half_up, write_out
from courseware.drawings.dimension import box
from courseware.drawings.enlarged import resized
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.printing.page_format import A4, PageFormat
from courseware.trade import Format, gauge_rod

_QR_MODULE = 0.9  # mm
QR_BORDER = 4 * _QR_MODULE  # mm to be left white round a QR code (ISO/IEC 18004, quiet zone)
_SCALE, _OVER = 258, 4.0  # mm: a scale down a whole page, and what stands over its last tick
_PRINT_LINE = 100  # mm
_NAMES, _ANSWER, _EDGE = 21.0, 62.0, 0.3  # mm: where the names end, how wide the box of the answer is, half its line
_CHECK_LEAST = 40.0  # mm: a check has a row of its own where less is left beside the answer
_BAND, _RULE_ROW, _NUMBERS_ROW, _ANSWER_ROW = 11.0, 6.6, 7.2, 7.4  # mm high; a row of numbers for each mark but one
_STEPS_FROM = 2  # marks
ROOM_LEAST = 74.0  # mm: no room is narrower
_LINE = 9.0  # mm from line to line, to write on


@lru_cache(maxsize=32)
def qr(text: str) -> Picture:
    """A QR code (ISO/IEC 18004), level Q, without the border to be left round it."""
    import segno

    rows = list(segno.make_qr(text, error="q").matrix_iter(border=0))
    side = len(rows) * _QR_MODULE
    squares = tuple(
        box(x * _QR_MODULE, y * _QR_MODULE, (x + 1) * _QR_MODULE, (y + 1) * _QR_MODULE)
        for y, row in enumerate(rows)
        for x, dark in enumerate(row)
        if dark
    )
    dark = Stroke(outlines=squares, closed=True, weight=0, fill=0.0)
    return Picture(width=side, height=side, marks=(dark,), alt="")


@lru_cache(maxsize=16)
def gauge_scale(brick: Format | None, high: int = _SCALE) -> Picture:
    """A true-size gauge scale: bricks and beds, a tick a course, each numbered; blank where no course has room."""
    courses = int((high - _OVER) / brick.course) if brick else 0
    if brick is None or not courses:
        return Picture(width=20, height=high, marks=(), alt="A blank margin")
    tops = [float(mark) for mark in gauge_rod(courses, brick)]
    foot, left = tops[-1] + _OVER, 11.0
    right = left + 7
    bricks = tuple(box(left, foot - top, right, foot - top + float(brick.height)) for top in tops)
    ticks = tuple(((right, foot - top), (right + 2.5, foot - top)) for top in (0.0, *tops))
    numbers = tuple(
        Label(at=((left + right) / 2, foot - top + 5), text=str(n), size=4, bold=True) for n, top in enumerate(tops, 1)
    )
    course, bed = (write_out(half_up(size, 1)) for size in (brick.course, brick.bed))
    says = f"Course gauge at true size, {course} mm: {brick.name}, bed {bed} mm"
    return Picture(
        width=20,
        height=high,
        marks=(
            Stroke(outlines=bricks, closed=True, weight=0.25),
            Stroke(outlines=ticks, weight=0.35),
            *numbers,
            Label(at=(left - 1.8, foot - tops[-1] / 2), text=says, size=2.9, turn=90),
        ),
        alt="A gauge scale",
    )


@lru_cache(maxsize=1)
def print_line() -> Picture:
    """The 100 mm line that shows whether the printer kept the size."""
    rules = (
        ((2.0, 2.0), (2.0 + _PRINT_LINE, 2.0)),
        ((2.0, 0.5), (2.0, 3.5)),
        ((2.0 + _PRINT_LINE, 0.5), (2.0 + _PRINT_LINE, 3.5)),
    )
    words = "This line is 100 mm long. If yours is not, print again without scaling."
    says = Label(at=(52.0, 6.2), text=words, size=2.9)
    return Picture(width=104, height=9, marks=(Stroke(outlines=rules), says), alt="A line of 100 mm")


@lru_cache(maxsize=32)
def squared(size: tuple[int, int] = SKETCH_SIZE) -> Picture:
    """Space to draw in, so wide and high in mm, ruled in squares of 5 mm."""
    width, height = size
    rules = [((float(x), 0.0), (float(x), float(height))) for x in range(0, width + 1, SQUARE)]
    rules += [((0.0, float(y)), (float(width), float(y))) for y in range(0, height + 1, SQUARE)]
    return Picture(width=width, height=height, marks=(Stroke(outlines=tuple(rules), weight=0.1, grey=0.4),), alt="")


@lru_cache(maxsize=16)
def ruled(lines: int, wide: float) -> Picture:
    """So many lines to write on, so wide."""
    rules = tuple(((_EDGE, _LINE * n), (wide - _EDGE, _LINE * n)) for n in range(1, lines + 1))
    drawn = Stroke(outlines=rules, weight=0.2, grey=0.4)
    return Picture(width=wide, height=_LINE * lines + _EDGE, marks=(drawn,), alt="")


@lru_cache(maxsize=64)
def working_room(unit: str, marks: int, wide: float = A4.wide, page: PageFormat = A4) -> Picture:
    """Room set out for the working of one part, in proportion to its marks, the unit printed in the answer's box.

    One mark: a band with the answer at its end. More: rows for the rule and the numbers, then answer and check, the
    check below the answer where the room is narrow. Drawn, not a table: a reader hears what the room is for and not ten
    empty cells.
    """
    draw = _one_band if marks < _STEPS_FROM else _in_steps
    room = draw(unit, marks, wide / page.scale, page.label / page.scale, page.room)
    return resized(room, page.scale, lambda size: size * page.scale)


def steps_in(marks: int) -> bool:
    """Whether the room of a part of so many marks asks for the rule and the numbers apart."""
    return marks >= _STEPS_FROM


def _one_band(unit: str, _: int, wide: float, label: float, high: float) -> Picture:
    foot, left = _EDGE + _BAND * high, wide - _EDGE - min(_ANSWER, wide / 2)
    frame = Stroke(outlines=(box(_EDGE, _EDGE, left, foot),), closed=True, weight=0.2, grey=0.4)
    answer = Stroke(outlines=(box(left, _EDGE, wide - _EDGE, foot),), closed=True, weight=0.6)
    words = (_word(_EDGE, _EDGE, "Working", label), _word(left, _EDGE, "Answer", label, bold=True))
    marks: tuple[Stroke | Label, ...] = (frame, answer, *words, *_unit_at(wide - _EDGE - 1.5, foot - 3.5, unit))
    return Picture(width=wide, height=foot + _EDGE, marks=marks, alt="")


def _in_steps(unit: str, marks: int, wide: float, label: float, high: float) -> Picture:
    rule_row, numbers_row, answer_row = (row * high for row in (_RULE_ROW, _NUMBERS_ROW, _ANSWER_ROW))
    edge, rule, names = wide - _EDGE, _EDGE + rule_row, _NAMES * label / A4.label
    numbers = rule + numbers_row * (marks - 1)
    foot = numbers + answer_row
    right = min(names + _ANSWER, edge)
    beside = edge - right >= _CHECK_LEAST
    right, end = (right, foot) if beside else (edge, foot + rule_row)
    levels = dict.fromkeys((_EDGE, rule, numbers, foot, end))
    across = tuple(((_EDGE, y), (edge, y)) for y in levels)
    upright = tuple(((x, _EDGE), (x, end)) for x in (_EDGE, names, edge))
    answer = (box(_EDGE, numbers, names, foot), box(names, numbers, right, foot))
    drawn: tuple[Stroke | Label, ...] = (
        Stroke(outlines=(*across, *upright), weight=0.2, grey=0.4),
        Stroke(outlines=answer, closed=True, weight=0.6),
        _word(_EDGE, _EDGE, "The rule", label),
        _word(_EDGE, rule, "Numbers in", label),
        _word(_EDGE, numbers, "Answer", label, bold=True),
        _word(right, numbers, "My check", label) if beside else _word(_EDGE, foot, "My check", label),
        *_unit_at(right - 1.5, numbers + answer_row / 2 + 1.5, unit),
    )
    return Picture(width=wide, height=end + _EDGE, marks=drawn, alt="")


def _word(left: float, top: float, says: str, size: float, *, bold: bool = False) -> Label:
    return Label(at=(left + 1.2, top + size + 0.9), text=says, size=size, anchor="start", bold=bold)


def _unit_at(x: float, y: float, unit: str) -> tuple[Label, ...]:
    return (Label(at=(x, y), text=unit, size=4.0, anchor="end", bold=True),) if unit else ()
