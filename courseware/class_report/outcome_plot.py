"""How much of each outcome the class got: a dot at its share, and a whisker over the shares that are likely."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courseware.drawings.picture import Label, Picture, Point, Stroke
from courseware.reports.in_short import cut
from courseware.reports.words import share
from courseware.statistics.intervals import Index

WIDE = 176.0  # mm
SIZE = 2.9  # mm of type: 8 pt and a little
ROW = 5.0  # mm
_LEFT, _AXIS = 84.0, 64.0  # mm: the words before the axis, and the axis from nothing to all
_LONGEST = 56  # characters of them
_TICKS = (0, 25, 50, 75, 100)  # per cent
_DOT, _END = 1.1, 1.0  # mm: half a dot's width, half a whisker's end


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """An exercise in a few words, and the share of its marks that the class got."""

    words: str
    got: Index | None


def outcome_plot(outcomes: Sequence[Outcome]) -> Picture:
    """The outcomes in their order; one without a figure has its words alone."""
    foot = ROW * len(outcomes)
    whiskers: list[tuple[Point, ...]] = []
    dots: list[tuple[Point, ...]] = []
    words: list[Label] = []
    for line, one in enumerate(outcomes):
        y = ROW * (line + 0.5)
        base = y + SIZE * 0.36
        words.append(Label(at=(_LEFT - 2, base), text=cut(one.words, _LONGEST), size=SIZE, anchor="end"))
        words.append(Label(at=(WIDE, base), text=share(one.got), size=SIZE, anchor="end"))
        if one.got:
            x = at(one.got.value)
            dots.append(((x, y - _DOT), (x + _DOT, y), (x, y + _DOT), (x - _DOT, y)))
            if one.got.interval:
                low, high = at(one.got.interval.low), at(one.got.interval.high)
                whiskers.append(((low, y), (high, y)))
                whiskers += [((end, y - _END), (end, y + _END)) for end in (low, high)]
    grid = tuple(((at(tick / 100), 0.0), (at(tick / 100), foot)) for tick in _TICKS)
    ticks = [Label(at=(at(tick / 100), foot + SIZE + 0.8), text=f"{tick} %", size=SIZE) for tick in _TICKS]
    strokes = (
        Stroke(outlines=grid, weight=0.12, grey=0.45),
        Stroke(outlines=tuple(whiskers), weight=0.4) if whiskers else None,
        Stroke(outlines=tuple(dots), closed=True, weight=0, fill=0.0) if dots else None,
    )
    marks: tuple[Stroke | Label, ...] = (*(stroke for stroke in strokes if stroke), *ticks, *words)
    return Picture(width=WIDE, height=foot + SIZE + 2, marks=marks, alt=_alt(outcomes))


def at(part: float) -> float:
    """Where a share from 0 to 1 stands on the axis, in mm from the left."""
    return _LEFT + _AXIS * part


def _alt(outcomes: Sequence[Outcome]) -> str:
    told = "; ".join(f"{one.words}: {share(one.got)}" for one in outcomes)
    return f"Share of the marks got of each outcome, and between what shares it likely lies. {told}"
