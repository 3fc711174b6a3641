"""A mitred corner of a surround: laid piece by piece, set out as lines on a board, and its bats of both hands.

A corner is drawn as that of the upper left: one run goes plumb down from it, the other to the right, rising or falling
where the corner is not square. Along a run x goes from the corner, y inwards, in mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from courseware.drawings.dimension import Marks, across, beside, dot, led_right, name
from courseware.drawings.frame import View, framed
from courseware.drawings.lines import CENTRE, CUT, HIDDEN, REFERENCE, SYMBOL
from courseware.drawings.looks import LOOKS, bricks_of
from courseware.drawings.picture import Picture, Point
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, mitre_template, piece_joint

_ONE_TO = 5
_PIECES = 3  # of each run, the corner piece first
_GAPS = {"joint": 0.5, "touching": 0.0, "double": 1.0, "gaping": 0.0}  # joints from the halving line to a bat
_SHY = 9.0  # degrees that a bat cut wrong falls short of half the corner
_ARC = 20  # chords of an arc
_BESIDE = 9.0  # mm of paper between the line of the mirror and a bat
Outline = tuple[Point, ...]


def draw_mitred_corner(call: DrawingCall) -> Picture:
    """The picture of a corner of `corner` degrees; its mitre has a `gap` of a joint or another."""
    brick, corner = call.format, float(Fraction(call.figures["corner"]))
    view = View(one_to=_ONE_TO)
    runs = _runs(corner)
    rest, bats = pieces(brick, corner, str(call.figures["gap"]))
    laid = tuple(_placed(view, run, outline) for run in runs for outline in rest)
    cut = tuple(_placed(view, run, outline) for run in runs for outline in bats)
    piece = (*corner_piece(brick, corner), *(runs[1](*point) for point in corner_piece(brick, corner)[1:2]))
    kite = tuple(view.at(*point) for point in (*(runs[0](*point) for point in piece[:3]), piece[3]))
    marks: Marks = (
        *bricks_of("half", laid),
        *bricks_of("mitred bat", cut),
        *bricks_of("corner piece", (kite,)),
        *_angles(call, view, runs[0], corner),
        *_sizes(call, view, runs[1]),
    )
    return framed(marks, call.alt, view.one_to, ("half", "mitred bat", "corner piece"))


def corner_piece(brick: Format, corner: float) -> Outline:
    """Half of the corner piece along one run: the corner, its end on the run, and where it meets the halving line."""
    wide = float(brick.height)
    return (0.0, 0.0), (wide, 0.0), (wide, wide * math.tan(math.radians(corner / 2)))


def pieces(brick: Format, corner: float, gap: str = "joint") -> tuple[tuple[Outline, ...], tuple[Outline, ...]]:
    """The half bricks of a run and its bat, along the run from the corner."""
    wide, deep, joint = float(brick.height), float(brick.width), float(piece_joint(brick))
    places = tuple((n * (wide + joint), n * (wide + joint) + wide) for n in range(1, _PIECES))
    near, far = places[0]
    half = math.radians(corner / 2)
    slope, off = math.tan(half), _GAPS[gap] * joint / math.cos(half)
    if gap == "gaping":
        slope = math.tan(half - math.radians(_SHY))
        off = near * (slope - math.tan(half))
    bat = _below(((near, 0.0), (far, 0.0), (far, deep), (near, deep)), slope, off)
    rest = tuple(((a, 0.0), (b, 0.0), (b, deep), (a, deep)) for a, b in places[1:])
    return rest, (bat,)


def _below(outline: Outline, slope: float, off: float) -> Outline:
    """What of an outline lies on the outer side of the line y = slope x - off."""
    kept: list[Point] = []
    for place, (x, y) in enumerate(outline):
        x_before, y_before = outline[place - 1]
        here, before = y - slope * x + off, y_before - slope * x_before + off
        if (here <= 0) is not (before <= 0):
            part = before / (before - here)
            kept.append((x_before + part * (x - x_before), y_before + part * (y - y_before)))
        if here <= 0:
            kept.append((x, y))
    return tuple(kept)


@dataclass(frozen=True, slots=True)
class _Run:
    """A run in its place: a point along it and inwards gives the place on the wall, y upwards from the corner."""

    along: Point
    inwards: Point

    def __call__(self, x: float, y: float) -> Point:
        return x * self.along[0] + y * self.inwards[0], x * self.along[1] + y * self.inwards[1]


def _runs(corner: float) -> tuple[_Run, _Run]:
    rises = math.radians(corner - 90)
    return (
        _Run((0.0, -1.0), (1.0, 0.0)),
        _Run((math.cos(rises), math.sin(rises)), (math.sin(rises), -math.cos(rises))),
    )


def _placed(view: View, run: Callable[[float, float], Point], outline: Outline) -> Outline:
    return tuple(view.at(*run(x, y)) for x, y in outline)


def _angles(call: DrawingCall, view: View, plumb: _Run, corner: float) -> Marks:
    """The halving line, and the angles at the panel's corner: the whole one, and that of the cut."""
    brick, half = call.format, math.radians(corner / 2)
    start = float(brick.width) / math.tan(half), float(brick.width)
    middle = view.at(*plumb(*start))
    reach = 15.0 if {"corner", "cut"} & call.labels.keys() else 4.0
    end = _turned(middle, reach, half)
    marks: Marks = (CENTRE.stroke((view.at(0, 0), end)),)
    if not {"corner", "cut"} & call.labels.keys():
        return marks
    sides = tuple((middle, _turned(middle, 22.0, turn)) for turn in (0.0, math.radians(corner)))
    marks += (REFERENCE.stroke(*sides),)
    if "corner" in call.labels:
        marks += _arc(middle, 7.0, (0.0, math.radians(corner)), call.labels["corner"], half / 3)
    if "cut" in call.labels:
        marks += _arc(middle, 12.0, (half, math.radians(corner)), call.labels["cut"], half * 5 / 3)
    return marks


def _turned(at: Point, reach: float, turn: float) -> Point:
    """The point so far from `at`, turned from plumb down towards the other run."""
    return at[0] + reach * math.sin(turn), at[1] + reach * math.cos(turn)


def _arc(middle: Point, reach: float, turns: tuple[float, float], text: str | None, at: float) -> Marks:
    first, last = turns
    points = tuple(_turned(middle, reach, first + (last - first) * n / _ARC) for n in range(_ARC + 1))
    point = _turned(middle, reach, at)
    level = middle[1] + (10.5 if at > turns[1] / 2 else 20.5)
    return (REFERENCE.stroke(points), *led_right(point, (middle[0] + 17.0, level), text))


def _sizes(call: DrawingCall, view: View, run: _Run) -> Marks:
    """Sizes of the pieces along the upper run, as they stand where the corner is square."""
    brick, joint = call.format, float(piece_joint(call.format))
    wide, deep = float(brick.height), float(brick.width)
    last = 2 * (wide + joint)
    marks: Marks = ()
    if "joint" in call.labels:
        left, right = (view.at(*run(x, 0)) for x in (wide, wide + joint))
        marks += across(left, right, left[1] - 5, call.labels["joint"], before=True)
    if "wide" in call.labels:
        left, right = (view.at(*run(x, 0)) for x in (last, last + wide))
        marks += across(left, right, left[1] - 5, call.labels["wide"])
    if "deep" in call.labels:
        top, foot = (view.at(*run(last + wide, y)) for y in (0, deep))
        marks += beside(foot, top, top[0] + 4, call.labels["deep"])
    return marks


def draw_bat_hands(call: DrawingCall) -> Picture:
    """The picture of the bat for a square corner and of its mirror image, the line of the mirror between them.

    What the cut takes off is dashed, as what is not seen is.
    """
    brick = call.format
    view, template = View(one_to=_ONE_TO), mitre_template(brick)
    start, wide, deep = float(template.outline[0][0]), float(brick.height), float(brick.width)
    near = _BESIDE * view.one_to
    right = tuple(view.at(float(x) - start + near, -float(y)) for x, y in template.outline)
    off = (right[-1], view.at(near, -deep), right[-2])
    hands = tuple(tuple((-x, y) for x, y in line) for line in (right, off))
    middle, foot = right[0][0] + wide / 2 / view.one_to, view.at(0, -deep)[1]
    marks: Marks = (
        *bricks_of("mitred bat", (hands[0], right)),
        HIDDEN.stroke(hands[1], off),
        CENTRE.stroke(((0, -4), (0, foot + 4))),
        name((-middle, -2), "left hand", anchor="middle"),
        name((middle, -2), "right hand", anchor="middle"),
    )
    if "wide" in call.labels:
        ends = view.at(-near - wide, -deep), view.at(-near, -deep)
        marks += across(*ends, foot + 9.5, call.labels["wide"], before=True)
    if "deep" in call.labels:
        edge = right[1][0]
        marks += beside((edge, foot), (edge, 0), edge + 4, call.labels["deep"])
    if "leg" in call.labels:
        ends = off[1], view.at(near + float(template.leg), -deep)
        marks += across(*ends, foot + 9.5, call.labels["leg"])
    return framed(marks, call.alt, view.one_to)


def draw_template_lines(call: DrawingCall) -> Picture:
    """The picture of a square corner set out on a board, every line that the template is found by, and the bat."""
    brick = call.format
    view, [plumb, level] = View(one_to=_ONE_TO), _runs(90)
    wide, deep, joint = float(brick.height), float(brick.width), float(piece_joint(brick))
    long = _PIECES * (wide + joint) - joint + 35
    steps = [place for n in range(_PIECES) for place in (n * (wide + joint), n * (wide + joint) + wide)][1:]
    off = joint / 2 * math.sqrt(0.5)
    _, [bat] = pieces(brick, 90)
    board = (view.at(-25, 25), view.at(long + 10, 25), view.at(long + 10, -long - 10), view.at(-25, -long - 10))
    past = deep + 22
    marks: Marks = (
        CUT.stroke(board, closed=True),
        REFERENCE.stroke(_placed(view, level, bat), closed=True, fill=LOOKS["bat"].fill),
        CUT.stroke(*((view.at(*run(0, 0)), view.at(*run(long, 0))) for run in (plumb, level))),
        REFERENCE.stroke(
            *((view.at(*run(deep, deep)), view.at(*run(long, deep))) for run in (plumb, level)),
            *(
                (view.at(*run(x, 0)), view.at(*run(x, deep if x > wide + 1 else wide)))
                for run in (plumb, level)
                for x in steps
            ),
        ),
        CENTRE.stroke((view.at(0, 0), view.at(past, -past))),
        SYMBOL.stroke(*((view.at(wide + s, -wide + s), view.at(past + s, -past + s)) for s in (off, -off))),
        name(view.at(past + 10, -deep - 22), "panel's corner"),
        dot(view.at(deep, -deep)),
    )
    if "joint" in call.labels:
        point = view.at(past, -past)
        marks += led_right(point, (point[0] + 4, point[1] + 12), call.labels["joint"])
    return framed(marks, call.alt, view.one_to)
