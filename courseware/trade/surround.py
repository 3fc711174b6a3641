"""A half-brick surround inside an opening, piece by piece, and the panel that is left within it.

Common practice, no source: the surround stands half a brick deep round the opening's inside edge, one joint from the
reveals and one from the panel. Its pieces are half bricks, as wide as a brick is high, a third of the module apart.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from courseware.trade.errors import TradeError, halves, in_bricks, in_courses, size
from courseware.trade.exact import Exact
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.gauge import clear_height, whole_courses
from courseware.trade.mitre import Point, mitre_template, piece_joint
from courseware.trade.openings import half_bricks, opening

HALF, BAT, CORNER = "half brick", "mitred bat", "corner piece"
CORNERS = ("mitred", "butted")
_TAKEN = 3  # courses, and a brick of width, that the surround takes from the opening


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece in its place: its outline in mm from the opening's lower left corner, anticlockwise, and its run."""

    kind: str
    run: str  # bottom, right, top, left
    outline: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Surround:
    """A surround: every piece placed, counted by kind, and the panel left inside in bricks and courses.

    `bricks` are the whole bricks it takes, two pieces to a brick; `cuts` halvings, mitres and trimmed corner pieces.
    """

    pieces: tuple[Piece, ...]
    panel_bricks: Fraction
    panel_courses: int
    halves: int
    bats: int
    corners: int
    bricks: int
    cuts: int
    width: Fraction
    height: Fraction
    depth: Fraction


def surround(bricks: Exact, courses: Exact, format: Format = UK_METRIC, corner: str = "mitred") -> Surround:
    """The surround of an opening `bricks` wide and `courses` high, its corners "mitred" or "butted".

    Butted, the bottom and top runs pass through. Raises `TradeError` where the format does not stand half a brick deep
    in half a module, where a run does not close (with what would) and where nothing is left for a panel.

    >>> found = surround(4, 15)
    >>> len(found.pieces), found.corners, found.bats, found.halves, str(found.panel_bricks), found.panel_courses
    (50, 4, 8, 38, '3', 12)
    """
    wide, high = half_bricks(bricks), whole_courses(courses)
    if corner not in CORNERS:
        raise TradeError(f"no corner of a surround is called {corner!r}: use mitred or butted")
    _check_format(format)
    _check_runs(wide, high)
    return _laid(wide, high, format, corner)


@lru_cache(maxsize=32)  # its pieces and its cuts are asked for one after another
def _laid(wide: Fraction, high: int, format: Format, corner: str) -> Surround:
    pieces = tuple(_mitred(wide, high, format) if corner == "mitred" else _butted(wide, high, format))
    counts = {kind: sum(1 for piece in pieces if piece.kind == kind) for kind in (HALF, BAT, CORNER)}
    whole = -(-len(pieces) // 2)
    return Surround(
        pieces=pieces,
        panel_bricks=wide - 1,
        panel_courses=high - _TAKEN,
        halves=counts[HALF],
        bats=counts[BAT],
        corners=counts[CORNER],
        bricks=whole,
        cuts=whole + counts[BAT] + counts[CORNER],
        width=opening(wide, format),
        height=clear_height(high, format),
        depth=format.width,
    )


def _check_format(format: Format) -> None:
    piece_joint(format)
    if _TAKEN * format.course != format.module:
        raise TradeError(
            f"a surround does not close in {format.name}: its pieces stand three to a module, and three courses are "
            f"{size(_TAKEN * format.course)} mm where a module is {size(format.module)} mm; it closes in UK metric"
        )
    if format.width + format.perpend != format.half:
        raise TradeError(
            f"a surround half a brick deep does not close in {format.name}: its depth and joint are "
            f"{size(format.width + format.perpend)} mm, half a module {size(format.half)} mm"
        )


def _check_runs(bricks: Fraction, courses: int) -> None:
    if bricks.denominator != 1:
        below = bricks - Fraction(1, 2)
        raise TradeError(
            f"a run of a surround does not close on {in_bricks(bricks)}: pieces stand three to a brick; "
            f"the nearest are {halves(below)} and {in_bricks(below + 1)}"
        )
    if bricks < 2 or courses <= _TAKEN:
        raise TradeError(
            f"an opening of {in_bricks(bricks)} by {in_courses(courses)} leaves no panel: a surround takes 1 brick and "
            f"3 courses of it; the least is 2 bricks by 4 courses"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """Where the runs lie: their outer edges, mm from the opening's corner, and the pitch of the pieces."""

    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction
    pitch: Fraction
    wide: Fraction
    deep: Fraction


def _frame(bricks: Fraction, courses: int, format: Format) -> _Frame:
    """The runs stand in the middle of the opening, so that the joints at both ends are alike."""
    pitch, width, height = format.module / 3, opening(bricks, format), clear_height(courses, format)
    along, up = 3 * bricks * pitch - piece_joint(format), courses * pitch - piece_joint(format)
    left, bottom = (width - along) / 2, (height - up) / 2
    return _Frame(
        left=left,
        bottom=bottom,
        right=left + along,
        top=bottom + up,
        pitch=pitch,
        wide=format.height,
        deep=format.width,
    )


def _butted(bricks: Fraction, courses: int, format: Format) -> Iterator[Piece]:
    frame = _frame(bricks, courses, format)
    yield from _level_run(frame, HALF, range(int(3 * bricks)))
    uprights = courses - _TAKEN
    start = (frame.bottom + frame.top - uprights * frame.pitch + piece_joint(format)) / 2
    yield from _upright_run(frame, HALF, range(uprights), start)


def _mitred(bricks: Fraction, courses: int, format: Format) -> Iterator[Piece]:
    frame = _frame(bricks, courses, format)
    yield from _level_run(frame, HALF, range(2, int(3 * bricks) - 2))
    yield from _upright_run(frame, HALF, range(2, courses - 2), frame.bottom)
    bat = mitre_template(format).outline
    square = (
        (Fraction(0), Fraction(0)),
        (frame.wide, Fraction(0)),
        (frame.wide, frame.wide),
        (Fraction(0), frame.wide),
    )
    for x, across in ((frame.left, 1), (frame.right, -1)):
        for y, up in ((frame.bottom, 1), (frame.top, -1)):
            run, side = ("bottom" if up > 0 else "top"), ("left" if across > 0 else "right")
            yield Piece(kind=CORNER, run=run, outline=_turned(square, x, y, across, up))
            yield Piece(kind=BAT, run=run, outline=_turned(bat, x, y, across, up))
            swapped = tuple((v, u) for u, v in reversed(bat))
            yield Piece(kind=BAT, run=side, outline=_turned(swapped, x, y, across, up))


def _turned(outline: tuple[Point, ...], x: Fraction, y: Fraction, across: int, up: int) -> tuple[Point, ...]:
    """An outline drawn from a corner, set at that corner of the frame; it stays anticlockwise."""
    placed = tuple((x + across * u, y + up * v) for u, v in outline)
    return placed if across * up > 0 else placed[::-1]


def _level_run(frame: _Frame, kind: str, places: range) -> Iterator[Piece]:
    for run, low in (("bottom", frame.bottom), ("top", frame.top - frame.deep)):
        for place in places:
            left = frame.left + place * frame.pitch
            yield Piece(kind=kind, run=run, outline=_box(left, low, left + frame.wide, low + frame.deep))


def _upright_run(frame: _Frame, kind: str, places: range, start: Fraction) -> Iterator[Piece]:
    for run, near in (("left", frame.left), ("right", frame.right - frame.deep)):
        for place in places:
            low = start + place * frame.pitch
            yield Piece(kind=kind, run=run, outline=_box(near, low, near + frame.deep, low + frame.wide))


def _box(left: Fraction, low: Fraction, right: Fraction, high: Fraction) -> tuple[Point, ...]:
    return (left, low), (right, low), (right, high), (left, high)
