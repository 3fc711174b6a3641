"""A wall from one internal corner to the other with two equal openings and a pier between them, in outline.

No brick is drawn: each length is given in bricks, and its joints are for the learner to count.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, across, lane, plumb, room_for
from courseware.drawings.frame import View, cut_through, framed
from courseware.drawings.lines import CUT, GROUND, SYMBOL
from courseware.drawings.picture import Picture, extent
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import height, opening, pier, returned

_ROOM = (72.0, 30.0)  # mm of paper for the wall with its returns
_FACE, _LINTEL_GREY = 0.95, 0.7
_SILL, _HEAD, _OVER = 8, 28, 4  # courses: to the sill, to the underside of the lintel, and over the lintel
_LINTEL = Fraction(140)  # mm: common practice, no source
_BEARING = Fraction(150)  # mm of lintel on the wall each side: common practice, no source
_SAID = "this length"
Lengths = dict[str, tuple[Fraction, Fraction]]


def draw_windows(call: DrawingCall) -> Picture:
    """The picture of the wall: `end` bricks, an opening of `window`, a pier of `middle`, and the same the other way.

    Openings are doors where `opens` says so. Where `courses` is not 0 the wall stands so high and no lintel is on yet.
    The length that `marked` names is pointed out without its figure.
    """
    figures, brick = call.figures, call.format
    lengths = along(call)
    long, risen = lengths["whole"][1], int(Fraction(figures["courses"]))
    door = str(figures["opens"]) == "door"
    sill = Fraction(0) if door else height(min(_SILL, max(1, risen // 2)) if risen else _SILL, brick)
    head = height(risen or _HEAD, brick)
    top = head if risen else head + _LINTEL + height(_OVER, brick)
    thick = brick.width
    view = View(one_to=one_to(long + 2 * thick, top, _ROOM, least=30))
    gaps = (lengths["window"], lengths["other_window"])
    returns = (view.box(-thick, 0, 0, top), view.box(long, 0, long + thick, top))
    marks: Marks = (
        CUT.stroke(_outline(view, gaps, sill, top, long, open_above=bool(risen)), closed=True, fill=_FACE),
        *cut_through(returns, None),
        *(() if risen else _lintels(view, gaps, sill, head)),
        view.rule((-3 * thick, 0), (long + 3 * thick, 0), pen=GROUND),
    )
    return framed((*marks, *_sizes(call, view, lengths, top, thick)), call.alt, view.one_to)


def along(call: DrawingCall) -> Lengths:
    """From where to where each length runs along the wall, in mm from the left-hand corner."""
    brick = call.format
    end, wide = returned(Fraction(call.figures["end"]), brick), opening(Fraction(call.figures["window"]), brick)
    middle = pier(Fraction(call.figures["middle"]), brick)
    first, second = end + wide, end + wide + middle
    return {
        "end": (Fraction(0), end),
        "window": (end, first),
        "pier": (first, second),
        "other_window": (second, second + wide),
        "window_and_pier": (end, second),
        "whole": (Fraction(0), second + wide + end),
    }


def _outline(
    view: View,
    gaps: tuple[tuple[Fraction, Fraction], ...],
    sill: Fraction,
    top: Fraction,
    long: Fraction,
    *,
    open_above: bool,
) -> tuple[tuple[float, float], ...]:
    """The wall's face; where nothing is over the openings yet, they are cut out of its upper edge."""
    upper: list[tuple[Fraction | float, Fraction | float]] = [(0, top)]
    for left, right in gaps if open_above else ():
        upper += [(left, top), (left, sill), (right, sill), (right, top)]
    return tuple(view.at(*place) for place in [(0, 0), *upper, (long, top), (long, 0)])


def _lintels(view: View, gaps: tuple[tuple[Fraction, Fraction], ...], sill: Fraction, head: Fraction) -> Marks:
    holes = tuple(view.box(left, sill, right, head) for left, right in gaps)
    over = tuple(view.box(left - _BEARING, head, right + _BEARING, head + _LINTEL) for left, right in gaps)
    return (
        SYMBOL.stroke(*over, closed=True, fill=_LINTEL_GREY),
        CUT.stroke(*holes, closed=True, fill=1.0),
    )


def _sizes(call: DrawingCall, view: View, lengths: Lengths, top: Fraction, thick: Fraction) -> Marks:
    """Lengths over the wall and under it, so that the figures of short ones stand apart; the whole lowest."""
    labels = dict(call.labels)
    marked = str(call.figures["marked"])
    if marked != "none":
        labels.setdefault(marked, _SAID)
    foot, head = view.at(0, 0)[1], view.at(0, top)[1]
    marks: Marks = ()
    over = head - 4 - (lane(call.labels) if {"pier", "end"} & labels.keys() else 0)
    lines = {"pier": head - 4, "end": head - 4, "window_and_pier": over, "window": foot + lane(call.labels)}
    low = foot
    for name, line in lines.items():
        if name in labels:
            left, right = lengths[name]
            level = 0 if line > head else top
            marks += across(view.at(left, level), view.at(right, level), line, labels[name], before=name == "end")
            low = max(low, line)
    if "whole" in labels:
        marks += across(view.at(0, 0), view.at(lengths["whole"][1], 0), low + lane(call.labels), labels["whole"])
    if "height" in labels:
        edge = view.at(lengths["whole"][1] + thick, 0)[0]
        short = foot - head < room_for(labels["height"])  # its figure is level then, and clear of those over the wall
        line = max([edge + lane(call.labels), *(x for mark in marks if short for x, _ in extent(mark))])
        marks += plumb((edge, foot), (edge, head), line, labels["height"])
    return marks
