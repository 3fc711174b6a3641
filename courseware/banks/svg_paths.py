"""The shapes of an SVG as runs of points: paths, their curves in short straight pieces, and the basic shapes.

After Scalable Vector Graphics 1.1 (W3C, second edition), chapters 8 and 9; arcs after its appendix F.6.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from math import acos, ceil, cos, degrees, hypot, pi, radians, sin, sqrt

from courseware.banks.own_picture import NotDrawn, Point

Run = list[Point]
_NUMBER = re.compile(r"[\s,]*([-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]{1,3})?)", re.ASCII)
_FLAG = re.compile(r"[\s,]*([01])")
_COMMAND = re.compile(r"[\s,]*([MmLlHhVvCcSsQqTtAaZz])")
_LARGEST = 1e6
_PIECES = 24  # straight pieces of a curve
_TURN = 3.0  # degrees of an arc to a piece
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}


def number(text: str) -> float:
    """A plain number of an SVG. Raises `NotDrawn`."""
    match = _NUMBER.fullmatch(text.rstrip())
    value = float(match[1]) if match else _LARGEST * 2
    if abs(value) > _LARGEST:
        raise NotDrawn(f"`{text[:30]}` is not a number that can be drawn", "expected one of at most a million")
    return value


def numbers(text: str) -> list[float]:
    """Numbers apart by blanks or commas. Raises `NotDrawn`."""
    return [number(piece) for piece in re.split(r"[\s,]+", text.strip()) if piece]


def points_of(text: str) -> Run:
    """The points of a polyline or polygon. Raises `NotDrawn`."""
    found = numbers(text)
    if len(found) % 2 or len(found) < 4:
        raise NotDrawn("`points` are not pairs of numbers", "expected x and y of two points or more")
    return list(zip(found[::2], found[1::2], strict=True))


def ellipse(middle: Point, wide: float, high: float) -> Run:
    """A whole ellipse of two radii, as a run that joins its ends when closed."""
    count = ceil(360 / _TURN)
    return [
        (middle[0] + wide * cos(2 * pi * n / count), middle[1] + high * sin(2 * pi * n / count)) for n in range(count)
    ]


def rounded_box(left: float, top: float, wide: float, high: float, round_x: float, round_y: float) -> Run:
    """A rectangle, its corners rounded by a quarter of an ellipse where both radii are above 0."""
    rx, ry = min(round_x, wide / 2), min(round_y, high / 2)
    if rx <= 0 or ry <= 0:
        return [(left, top), (left + wide, top), (left + wide, top + high), (left, top + high)]
    middles = ((wide - rx, ry, -90), (wide - rx, high - ry, 0), (rx, high - ry, 90), (rx, ry, 180))
    count = ceil(90 / _TURN)
    return [
        (left + x + rx * cos(radians(start + 90 * n / count)), top + y + ry * sin(radians(start + 90 * n / count)))
        for x, y, start in middles
        for n in range(count + 1)
    ]


def path_runs(data: str) -> list[tuple[Run, bool]]:
    """The runs of a path's data, each with whether it is closed. Raises `NotDrawn` where the data do not read."""
    return _Pen(data).drawn()


class _Pen:
    """A pen that follows a path's data."""

    def __init__(self, data: str) -> None:
        self.data = data
        self.place = 0
        self.at: Point = (0.0, 0.0)
        self.start: Point = (0.0, 0.0)
        self.handle: Point | None = None  # of the curve before, for S and T
        self.curve = ""  # C or Q: what the handle belongs to
        self.runs: list[tuple[Run, bool]] = []

    def drawn(self) -> list[tuple[Run, bool]]:
        command = ""
        while self.data[self.place :].strip(" \t\r\n,"):
            match = _COMMAND.match(self.data, self.place)
            if match:
                command, self.place = match[1], match.end()
            elif command in ("", "Z", "z"):
                raise NotDrawn("the path's data cannot be read", f"expected a command at `{self._rest()}`")
            if not self.runs and command not in ("M", "m"):
                raise NotDrawn("the path does not begin with a move", "expected M or m first")
            self._step(command)
            command = {"M": "L", "m": "l"}.get(command, command)
        return [(run, closed) for run, closed in self.runs if len(run) > 1]

    def _rest(self) -> str:
        return self.data[self.place : self.place + 20].strip()

    def _take(self, command: str) -> list[float]:
        found: list[float] = []
        for index in range(_TAKES[command]):
            match = (_FLAG if command == "A" and index in (3, 4) else _NUMBER).match(self.data, self.place)
            if not match:
                raise NotDrawn("the path's data cannot be read", f"expected a number at `{self._rest()}`")
            found.append(number(match[1]))
            self.place = match.end()
        return found

    def _step(self, letter: str) -> None:
        command, own = letter.upper(), self._take(letter.upper())
        x, y = self.at if letter.islower() else (0.0, 0.0)
        if command == "Z":
            self.runs[-1] = (self.runs[-1][0], True)
            self.at = self.start
            self.handle = None
            return
        if command == "M":
            self.at = self.start = (own[0] + x, own[1] + y)
            self.runs.append(([self.at], False))
            self.handle = None
            return
        if self.runs[-1][1]:  # drawing goes on from where a closed run began
            self.runs.append(([self.at], False))
        run = self.runs[-1][0]
        handle: Point | None = None
        if command in ("C", "S", "Q", "T"):
            pairs = [(px + x, py + y) for px, py in zip(own[::2], own[1::2], strict=True)]
            if command in ("S", "T"):
                pairs.insert(0, self._mirrored("C" if command == "S" else "Q"))
            run += _curve((self.at, *pairs))
            handle, self.curve = pairs[-2], "C" if command in ("C", "S") else "Q"
        elif command == "A":
            run += _arc(self.at, own, (own[5] + x, own[6] + y))
        else:
            straight: Mapping[str, Callable[[], Point]] = {
                "L": lambda: (own[0] + x, own[1] + y),
                "H": lambda: (own[0] + x, self.at[1]),
                "V": lambda: (self.at[0], own[0] + y),
            }
            run.append(straight[command]())
        self.at, self.handle = run[-1], handle

    def _mirrored(self, curve: str) -> Point:
        if self.handle is None or self.curve != curve:
            return self.at
        return 2 * self.at[0] - self.handle[0], 2 * self.at[1] - self.handle[1]


def _curve(handles: Sequence[Point]) -> Run:
    """A Bézier curve by de Casteljau's way, without its first point."""
    found: Run = []
    for piece in range(1, _PIECES + 1):
        t, left = piece / _PIECES, list(handles)
        while len(left) > 1:
            left = [((1 - t) * a[0] + t * b[0], (1 - t) * a[1] + t * b[1]) for a, b in pairwise(left)]
        found.append(left[0])
    found[-1] = handles[-1]
    return found


def _arc(start: Point, own: Sequence[float], end: Point) -> Run:
    """An elliptical arc from `start`, without it: SVG 1.1, F.6.5 (the middle) and F.6.6 (radii too small)."""
    rx, ry, tilt, large, sweep = abs(own[0]), abs(own[1]), radians(own[2]), bool(own[3]), bool(own[4])
    if start == end:
        return [end]
    if not rx or not ry:
        return [end]
    c, s = cos(tilt), sin(tilt)
    half_x, half_y = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = c * half_x + s * half_y, -s * half_x + c * half_y
    over = hypot(x / rx, y / ry)
    if over > 1:
        rx, ry = rx * over, ry * over
    square = (rx * ry) ** 2 - (rx * y) ** 2 - (ry * x) ** 2
    by = sqrt(max(0.0, square / ((rx * y) ** 2 + (ry * x) ** 2))) * (-1 if large == sweep else 1)
    mid_x, mid_y = by * rx * y / ry, -by * ry * x / rx
    at = c * mid_x - s * mid_y + (start[0] + end[0]) / 2, s * mid_x + c * mid_y + (start[1] + end[1]) / 2
    first = _angle((x - mid_x) / rx, (y - mid_y) / ry)
    turn = (_angle((-x - mid_x) / rx, (-y - mid_y) / ry) - first) % 360
    turn = turn if sweep else turn - 360
    count = max(1, ceil(abs(turn) / _TURN))
    found: Run = []
    for n in range(1, count + 1):
        angle = radians(first + turn * n / count)
        px, py = rx * cos(angle), ry * sin(angle)
        found.append((c * px - s * py + at[0], s * px + c * py + at[1]))
    found[-1] = end
    return found


def _angle(x: float, y: float) -> float:
    long = hypot(x, y)
    found = degrees(acos(max(-1.0, min(1.0, x / long)))) if long else 0.0
    return found if y >= 0 else -found
