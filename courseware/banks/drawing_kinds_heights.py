"""Drawings of heights and levels, and of lengths in outline: what each is drawn from, and what it measures."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import partial
from itertools import pairwise

from courseware import trade
from courseware.banks.drawing_kind import DrawingKind, Figures, built, own, span
from courseware.trade import Format

_BANDS = ("first", "second", "third", "fourth")
_READINGS = ("first", "second", "third", "fourth")


def _level(name: str, figures: Figures, brick: Format) -> Fraction:
    """The top of the course of that number over the datum; the datum itself for course 0."""
    return trade.height(figures[name], brick) if figures[name] else Fraction(0)


def _laid(figures: Figures, brick: Format) -> Fraction:
    return _level("laid", figures, brick)


def _room_left(figures: Figures, brick: Format) -> Fraction:
    """Raises `TradeError` where the courses that are laid stand as high as what is fixed, or higher."""
    if (left := Fraction(figures["fixed"]) - _laid(figures, brick)) <= 0:
        raise trade.TradeError("the courses laid reach the fixed height: lay fewer or fix it higher")
    return left


def _bed_of_gauge(name: str, figures: Figures, _: Format) -> Fraction:
    """What the gauge leaves for a bed on the brick of that name; raises `TradeError` where it leaves none."""
    if (bed := Fraction(figures["gauge"]) - Fraction(figures[name])) <= 0:
        raise trade.TradeError("the brick is as high as the gauge, or higher: no bed is left")
    return bed


def _old_height(figures: Figures, brick: Format) -> Fraction:
    return trade.height(figures["courses"], brick) / brick.course * Fraction(figures["gauge"])


def _window_and_pier(figures: Figures, brick: Format) -> Fraction:
    return trade.opening(figures["window"], brick) + trade.pier(figures["middle"], brick)


def _between_corners(figures: Figures, brick: Format) -> Fraction:
    ends = 2 * trade.returned(figures["end"], brick)
    return ends + trade.opening(figures["window"], brick) + _window_and_pier(figures, brick)


def _datum_above(figures: Figures, brick: Format) -> Fraction:
    """Raises `TradeError` where the higher footing is not below the datum."""
    if (above := Fraction(figures["datum"]) - trade.height(figures["steps"], brick)) <= 0:
        raise trade.TradeError("the higher footing reaches the datum: fewer steps or a higher datum")
    return above


def _band_from_eye(band: str, figures: Figures, brick: Format) -> Fraction:
    return abs(_level(band, figures, brick) - Fraction(figures["eye_height"]))


def _first_from_eye(figures: Figures, brick: Format) -> Fraction:
    eye = Fraction(figures["eye_height"])
    return trade.height(trade.courses_to_reach(eye, brick), brick) - eye


def _bands_rise(figures: Figures, _: Format) -> None:
    """Raises `TradeError` where bands do not stand one over another."""
    bands = [figures[name] for name in _BANDS if figures[name]]
    if any(Fraction(low) >= Fraction(high) for low, high in pairwise(bands)):
        raise trade.TradeError("the bands do not rise: give the lowest course first")


HEIGHT_KINDS: Mapping[str, DrawingKind] = {
    "fixed_height": DrawingKind(
        arguments={
            "laid": span(0, 40),
            "fixed": span(600, 4000),
            "over": frozenset({"lintel", "sill", "line"}),
        },
        optional={"laid": Fraction(0), "over": "line"},
        dimensions={"laid_height": _laid, "left": _room_left, "fixed": own("fixed")},
        says="a wall that must finish at a fixed height: the courses laid so far, and the room left above them",
        builds=_room_left,
    ),
    "heights": DrawingKind(
        arguments={"courses": span(5, 40), "datum": frozenset({"height", "face", "clear"})},
        optional={"datum": "height"},
        dimensions={
            "height": built(trade.height, "courses"),
            "face_height": built(trade.face_height, "courses"),
            "clear_height": built(trade.clear_height, "courses"),
        },
        says="the foot and the head of a wall, its middle broken out, with the datums of its height",
    ),
    "rod_marks": DrawingKind(
        arguments={
            "lowest": span(1, 40),
            "step": span(1, 10),
            **{name: span(1, 6000) for name in _READINGS},
        },
        optional={},
        dimensions={name: own(name) for name in _READINGS},
        says="a gauge rod, broken between four of its marks, with what the tape reads from its foot to each",
        builds=lambda figures, brick: (trade.height(figures["lowest"], brick), trade.height(figures["step"], brick)),
    ),
    "lining_through": DrawingKind(
        arguments={"gauge": span(60, 100), "brick": span(50, 90)},
        optional={},
        dimensions={
            "four": lambda figures, _: 4 * Fraction(figures["gauge"]),
            "ten": lambda figures, _: 10 * Fraction(figures["brick"]),
            "bed": partial(_bed_of_gauge, "brick"),
        },
        says="new work toothed into an old wall, four courses of it measured, and ten new bricks stacked dry",
        builds=partial(_bed_of_gauge, "brick"),
    ),
    "beside_old": DrawingKind(
        arguments={
            "courses": span(8, 40),
            "drop": span(100, 600),
            "gauge": span(60, 100),
            "old_brick": span(50, 90),
        },
        optional={"gauge": Fraction(75), "old_brick": Fraction(65)},
        dimensions={
            "drop": own("drop"),
            "old_height": _old_height,
            "height": lambda figures, brick: _old_height(figures, brick) + Fraction(figures["drop"]),
        },
        says="new work beside an old wall, to finish level with it, each with the datum that it starts from",
        builds=partial(_bed_of_gauge, "old_brick"),
    ),
    "datum_carried": DrawingKind(
        arguments={"datum": span(800, 2400), "steps": span(1, 12), "courses": span(3, 16)},
        optional={},
        dimensions={
            "datum": own("datum"),
            "rise": built(trade.height, "steps"),
            "above": _datum_above,
            "apart": lambda figures, brick: abs(_datum_above(figures, brick) - trade.height(figures["courses"], brick)),
        },
        says="a site datum over the footing at a gate, carried over rising ground to a wall on a higher footing",
        builds=_datum_above,
    ),
    "bands": DrawingKind(
        arguments={
            "first": span(1, 40),
            **{name: span(0, 40) for name in _BANDS[1:]},
            "eye_height": span(900, 3500),
        },
        optional={name: Fraction(0) for name in _BANDS[1:]},
        dimensions={
            **{f"{name}_from_eye": partial(_band_from_eye, name) for name in _BANDS},
            "second_to_third": lambda figures, brick: abs(
                _level("third", figures, brick) - _level("second", figures, brick)
            ),
        },
        says="a wall with its projecting courses, and the two arrises of such a course in section",
        builds=_bands_rise,
    ),
    "above_the_eye": DrawingKind(
        arguments={"eye_height": span(900, 3500), "more": span(3, 12)},
        optional={},
        dimensions={
            "eye_height": own("eye_height"),
            "first_from_eye": _first_from_eye,
            "band_from_eye": lambda figures, brick: (
                _first_from_eye(figures, brick) + trade.height(figures["more"], brick)
            ),
        },
        says="a wall about the eye line, broken below it: the first course above the line, and a band over that",
    ),
    "string_course": DrawingKind(
        arguments={"bricks": span(10, 40), "course": span(16, 40)},
        optional={},
        dimensions={"length": built(trade.pier, "bricks"), "height": built(trade.height, "course")},
        says="a wall between two stopped ends with a projecting course high in it",
    ),
    "corbel_reach": DrawingKind(
        arguments={"reach": span(5, 300), "wall": span(100, 700), "top_course": span(6, 60)},
        optional={},
        dimensions={"reach": own("reach"), "wall": own("wall")},
        says="section of a wall, broken, with the top course of a corbel that is still to be divided into courses",
        builds=partial(_level, "top_course"),
    ),
    "gap": DrawingKind(
        arguments={"width": span(100, 6000), "height": span(100, 4000)},
        optional={"height": Fraction(1060)},
        dimensions={"width": own("width"), "height": own("height")},
        says="a gap in a wall that is to be filled, no brick drawn",
    ),
    "reveals": DrawingKind(
        arguments={"bricks": span("1/2", 12), "courses": span(1, 36)},
        optional={},
        dimensions={"width": built(trade.opening, "bricks"), "height": built(trade.height, "courses")},
        says="an opening as it is set out, its centre line and both reveals, with nothing over them yet",
    ),
    "windows": DrawingKind(
        arguments={
            "end": span(1, 10),
            "window": span(1, 12),
            "middle": span(1, 10),
            "marked": frozenset({"none", "end", "window", "pier"}),
            "opens": frozenset({"window", "door"}),
            "courses": span(0, 40),
        },
        optional={"marked": "none", "opens": "window", "courses": Fraction(0)},
        dimensions={
            "end": built(trade.returned, "end"),
            "window": built(trade.opening, "window"),
            "pier": built(trade.pier, "middle"),
            "window_and_pier": _window_and_pier,
            "whole": _between_corners,
            "height": partial(_level, "courses"),
        },
        says="a wall between two internal corners with two equal openings and a pier between them, in outline",
    ),
}
