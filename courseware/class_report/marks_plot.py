"""The spread of a class's marks as a dot plot: one black dot a learner, above the mark it got."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import cos, pi, sin

from courseware.drawings.picture import Label, Picture, Point, Stroke

_LEFT, _WIDE, _RIGHT = 8.0, 154.0, 8.0  # mm: margins and the axis between them
HIGH = 42.0  # mm, the most that the dots may take unless told otherwise
_DOT = 3.4  # mm, the largest
_COLUMNS = 42  # the most that stand side by side
_TICKS = 12
_STEPS = (1, 2, 5, 10, 20, 25, 50, 100)
_SIZE = 3.2  # mm of type


def marks_plot(totals: Sequence[int], of: int, most_high: float = HIGH) -> Picture:
    """The plot of `totals` out of `of` marks, its dots no higher than `most_high` mm.

    A learner's place in a column tells nothing.
    """
    wide = _step(of + 1, _COLUMNS)  # marks that a column takes
    columns = Counter(total // wide for total in totals)
    room = _WIDE * wide / (of + 1)
    dot = min(_DOT, room * 0.92, most_high / max(columns.values(), default=1))
    high = dot * max(columns.values(), default=1) + 4
    dots = tuple(
        _round(_LEFT + (column + 0.5) * room, high - dot * (place + 0.5) - 0.4, dot * 0.46)
        for column, tall in sorted(columns.items())
        for place in range(tall)
    )
    words = f"marks, of {of}; one dot a learner, the broken line at the mean"
    words += f"; each column takes {wide} marks" if wide > 1 else ""
    return Picture(
        width=_LEFT + _WIDE + _RIGHT,
        height=high + 14,
        marks=(
            *((Stroke(outlines=dots, closed=True, weight=0, fill=0.0),) if dots else ()),
            *_axis(of, high),
            *_mean(totals, of, high),
            Label(at=(_LEFT + _WIDE / 2, high + 12), text=words, size=_SIZE),
        ),
        alt=_alt(totals, of),
    )


def _axis(of: int, high: float) -> tuple[Stroke | Label, ...]:
    """The axis, a tick and a figure where marks come out round, each below the middle of its mark."""
    ticks = [(_x(mark, of), mark) for mark in range(0, of + 1, _step(of, _TICKS))]
    lines: list[tuple[Point, ...]] = [((_LEFT, high), (_LEFT + _WIDE, high))]
    lines += [((x, high), (x, high + 1.6)) for x, _ in ticks]
    figures = [Label(at=(x, high + 5.4), text=str(mark), size=_SIZE) for x, mark in ticks]
    return (Stroke(outlines=tuple(lines), weight=0.35), *figures)


def _mean(totals: Sequence[int], of: int, high: float) -> tuple[Stroke | Label, ...]:
    if not totals:
        return ()
    x = _x(sum(totals) / len(totals), of)
    return (Stroke(outlines=(((x, 0.5), (x, high)),), weight=0.3, dash=(1.6, 1.2)),)


def _x(mark: float, of: int) -> float:
    return _LEFT + (mark + 0.5) * _WIDE / (of + 1)


def _step(marks: int, most: int) -> int:
    """The smallest round step that makes at most `most` of `marks`."""
    return next((step for step in _STEPS if marks <= most * step), marks)


def _round(x: float, y: float, radius: float) -> tuple[Point, ...]:
    return tuple((x + radius * cos(n * pi / 8), y + radius * sin(n * pi / 8)) for n in range(16))


def _alt(totals: Sequence[int], of: int) -> str:
    """The plot in words: how many learners in each fifth of the scale."""
    if not totals:
        return "A dot plot without dots: no marks yet"
    fifth = -(-(of + 1) // 5)
    ranges = (
        f"{low} to {min(low + fifth - 1, of)} marks {sum(low <= total < low + fifth for total in totals)}"
        for low in range(0, of + 1, fifth)
    )
    return f"Dot plot of the marks of {len(totals)} learners, one dot each. Learners by marks: {'; '.join(ranges)}"
