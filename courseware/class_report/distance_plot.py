"""The distance travelled as a drawing: for each exercise a ring at the start, a dot at the end, and a line between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from courseware.class_report.distance import SlipChange
from courseware.class_report.slip_bars import capital
from courseware.drawings.picture import Label, Picture, Point, Stroke
from courseware.reports.in_short import cut
from courseware.reports.words import points, whole_percent
from courseware.statistics.intervals import Index

WIDE = 176.0  # mm
SIZE = 2.9  # mm of type: 8 pt and a little
ROW = 5.6  # mm
LEFT, AXIS = 72.0, 58.0  # mm: the words before the axis, and the axis from nothing to all
_LONGEST = 48  # characters of them
_RING, _DOT = 1.3, 1.1  # mm: half a ring's and half a dot's width
_TICKS = (0, 25, 50, 75, 100)  # per cent


@dataclass(frozen=True, slots=True, kw_only=True)
class Journey:
    """An exercise in a few words, the shares of its marks at start and end (None: nobody wrote), the mean change."""

    words: str
    start: float | None
    end: float | None
    change: Index | None


def distance_plot(journeys: Sequence[Journey]) -> Picture:
    """The exercises in their order."""
    told = [f"{points(one.change)}" for one in journeys]
    ticks = [f"{tick} %" for tick in _TICKS]
    return _plot(
        [(one.words, one.start, one.end) for one in journeys],
        told,
        [(tick / 100, words) for tick, words in zip(_TICKS, ticks, strict=True)],
        "Share of the marks got of each exercise, at the start and at the end. "
        + "; ".join(
            f"{one.words}: {_percent(one.start)}, then {_percent(one.end)}, {words}"
            for one, words in zip(journeys, told, strict=True)
        ),
    )


def slips_plot(slips: Sequence[SlipChange], papers: tuple[int, int]) -> Picture:
    """The slips in their order: the share of the papers that showed each, at the start and at the end."""
    told = [f"{one.start} of {papers[0]}, then {one.end} of {papers[1]}" for one in slips]
    return _plot(
        [(capital(one.words), _of(one.start, papers[0]), _of(one.end, papers[1])) for one in slips],
        told,
        [(tick / 100, f"{tick} %") for tick in _TICKS],
        "Share of the papers that showed each slip, at the start and at the end. "
        + "; ".join(f"{one.words}: {words}" for one, words in zip(slips, told, strict=True)),
    )


def at(share: float) -> float:
    """Where a share from 0 to 1 stands on the axis, in mm from the left."""
    return LEFT + AXIS * share


def _plot(
    rows: Sequence[tuple[str, float | None, float | None]],
    told: Sequence[str],
    ticks: Sequence[tuple[float, str]],
    alt: str,
) -> Picture:
    foot = ROW * len(rows)
    lines: list[tuple[Point, ...]] = []
    rings: list[tuple[Point, ...]] = []
    dots: list[tuple[Point, ...]] = []
    words: list[Label] = []
    for line, ((name, start, end), figures) in enumerate(zip(rows, told, strict=True)):
        y = ROW * (line + 0.5)
        base = y + SIZE * 0.36
        words.append(Label(at=(LEFT - 2.5, base), text=cut(name, _LONGEST), size=SIZE, anchor="end"))
        words.append(Label(at=(WIDE, base), text=figures, size=SIZE, anchor="end"))
        if start is not None and end is not None and start != end:
            lines.append(((at(start), y), (at(end), y)))
        if start is not None:
            rings.append(_round(at(start), y, _RING))
        if end is not None:
            dots.append(_round(at(end), y, _DOT))
    grid = tuple(((at(share), 0.0), (at(share), foot)) for share, _ in ticks)
    strokes = (
        Stroke(outlines=grid, weight=0.12, grey=0.45),
        Stroke(outlines=tuple(lines), weight=0.7, grey=0.4) if lines else None,
        Stroke(outlines=tuple(rings), closed=True, weight=0.35, fill=1.0) if rings else None,
        Stroke(outlines=tuple(dots), closed=True, weight=0, fill=0.0) if dots else None,
    )
    scale = [Label(at=(at(share), foot + SIZE + 0.8), text=text, size=SIZE) for share, text in ticks]
    marks: tuple[Stroke | Label, ...] = (*(stroke for stroke in strokes if stroke), *scale, *words)
    return Picture(width=WIDE, height=foot + SIZE + 2, marks=marks, alt=alt)


def _round(x: float, y: float, half: float) -> tuple[Point, ...]:
    return tuple((x + half * cos(pi * step / 8), y + half * sin(pi * step / 8)) for step in range(16))


def _of(seen: int, papers: int) -> float | None:
    return seen / papers if papers else None


def _percent(share: float | None) -> str:
    return "nobody wrote" if share is None else f"{whole_percent(share)} %"
