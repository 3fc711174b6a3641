"""What every page carries beside its words: the code, the gauge scale, the 100 mm line, room to work and to draw in."""

from __future__ import annotations

from functools import lru_cache

from courseware.banks.exercise import SKETCH_SIZE, SQUARE
from courseware.banks.figures import half_up, write_out
from courseware.drawings.dimension import box
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.trade import Format, gauge_rod

_QR_MODULE = 0.9  # mm
_SCALE_LENGTH, _PRINT_LINE = 240, 100  # mm
_WIDE, _HALF = 168.4, 82.0  # mm, of the page within its margins, and of one of two parts side by side
_NAMES, _ANSWER, _EDGE = 25.0, 62.0, 0.3  # mm: where the names end, how wide the box of the answer is, half its line
_BAND, _RULE_ROW, _NUMBERS_ROW, _ANSWER_ROW = 13.0, 7.5, 8.5, 8.2  # mm high; a row of numbers for each mark but one
_STEPS_FROM = 2  # marks
_LINE = 9.0  # mm from line to line, to write on
_SIZE = 3.35  # mm of type


def qr(code: str) -> Picture:
    """A paper's code as a QR code (ISO/IEC 18004), level Q, border 4."""
    import segno

    rows = list(segno.make_qr(code, error="q").matrix_iter(border=4))
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
def gauge_scale(brick: Format | None) -> Picture:
    """The margin's true-size gauge scale: bricks and beds, a tick a course, each numbered; blank for no one brick."""
    if brick is None:
        return Picture(width=20, height=262, marks=(), alt="A blank margin")
    tops = [float(mark) for mark in gauge_rod(int(_SCALE_LENGTH / brick.course), brick)]
    foot, left = tops[-1] + 4, 11.0
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
        height=262,
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
def ruled(lines: int) -> Picture:
    """So many lines to write on, across the page."""
    rules = tuple(((0.3, _LINE * n), (_WIDE - 0.3, _LINE * n)) for n in range(1, lines + 1))
    return Picture(
        width=_WIDE, height=_LINE * lines + 0.3, marks=(Stroke(outlines=rules, weight=0.2, grey=0.4),), alt=""
    )


@lru_cache(maxsize=64)
def working_room(unit: str, marks: int, *, half: bool = False) -> Picture:
    """Room set out for the working of one part, in proportion to its marks, the unit printed in the answer's box.

    One mark: a band with the answer at its end, across the page or half of it. More: rows for the rule and the numbers,
    then answer and check. Drawn, not a table: a reader hears what the room is for and not ten empty cells.
    """
    return _one_band(unit, _HALF if half else _WIDE) if marks < _STEPS_FROM else _in_steps(unit, marks)


def steps_in(marks: int) -> bool:
    """Whether the room of a part of so many marks asks for the rule and the numbers apart."""
    return marks >= _STEPS_FROM


def _one_band(unit: str, wide: float) -> Picture:
    foot, left = _EDGE + _BAND, wide - _EDGE - min(_ANSWER, wide / 2)
    frame = Stroke(outlines=(box(_EDGE, _EDGE, left, foot),), closed=True, weight=0.2, grey=0.4)
    answer = Stroke(outlines=(box(left, _EDGE, wide - _EDGE, foot),), closed=True, weight=0.6)
    words = (
        Label(at=(_EDGE + 1.2, _EDGE + 4.3), text="Working", size=_SIZE, anchor="start"),
        Label(at=(left + 1.2, _EDGE + 4.3), text="Answer", size=_SIZE, anchor="start", bold=True),
    )
    marks: tuple[Stroke | Label, ...] = (frame, answer, *words, *_unit_at(wide - _EDGE - 1.5, foot - 4.0, unit))
    return Picture(width=wide, height=foot + _EDGE, marks=marks, alt="")


def _in_steps(unit: str, marks: int) -> Picture:
    rule, numbers = _EDGE + _RULE_ROW, _EDGE + _RULE_ROW + _NUMBERS_ROW * (marks - 1)
    foot, left, right = numbers + _ANSWER_ROW, _NAMES, _NAMES + _ANSWER
    across = tuple(((_EDGE, y), (_WIDE - _EDGE, y)) for y in (_EDGE, rule, numbers, foot))
    upright = tuple(((x, _EDGE), (x, foot)) for x in (_EDGE, _NAMES, _WIDE - _EDGE))
    answer = (box(_EDGE, numbers, left, foot), box(left, numbers, right, foot))
    words = numbers + _ANSWER_ROW / 2 + 1.2
    drawn: tuple[Stroke | Label, ...] = (
        Stroke(outlines=(*across, *upright), weight=0.2, grey=0.4),
        Stroke(outlines=answer, closed=True, weight=0.6),
        Label(at=(_EDGE + 1.2, _EDGE + 4.3), text="The rule", size=_SIZE, anchor="start"),
        Label(at=(_EDGE + 1.2, rule + 4.3), text="Numbers in", size=_SIZE, anchor="start"),
        Label(at=(_EDGE + 1.2, words), text="Answer", size=_SIZE, anchor="start", bold=True),
        Label(at=(right + 1.2, words), text="My check", size=_SIZE, anchor="start"),
        *_unit_at(right - 1.5, words + 0.3, unit),
    )
    return Picture(width=_WIDE, height=foot + _EDGE, marks=drawn, alt="")


def _unit_at(x: float, y: float, unit: str) -> tuple[Label, ...]:
    return (Label(at=(x, y), text=unit, size=4.0, anchor="end", bold=True),) if unit else ()
