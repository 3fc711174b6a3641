"""What stands beside what in an exercise: its drawing beside its words, short parts two in a row, as saves paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from courseware.drawings.fitted import Room, Sizes
from courseware.drawings.large_type import in_large_type
from courseware.drawings.picture import Picture
from courseware.papers.sheets import AskedExercise, AskedPart, DrawingCall
from courseware.printing.page_format import PageFormat
from courseware.printing.part_kind import PRINT_KINDS

_OVER, _OVER_MOST = 48.0, 80.0  # mm high, of a drawing over its words: where it can be, and at most
_BESIDE_HIGH = 61.0, 45.0, 36.0  # mm high at most, of one beside them; the lower where that saves height
_TEXT_LEAST = 74.0  # mm: words beside a drawing are no narrower
_ASK_INDENT = 21.0  # mm of an ask's width that its label and its marks take
_ASK_LONGEST = 4  # lines, of a part that does not have the page to itself
_BETWEEN = 2.8  # mm round a part
_ROUND_DRAWING = 5.0  # mm
_LARGE_HIGH = 0.45, 0.9  # of a page's height: a drawing in large type, and one that has a page to itself
_KEPT = 3.0  # mm that must be saved before parts are set side by side
_SMALLER = 7.0  # mm that must be saved before a drawing is made smaller


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A part and how wide its room is, in mm; the room stands below what is asked, or `beside` it."""

    part: AskedPart
    wide: float
    beside: bool = False


Rows = tuple[tuple[Placed, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """An exercise as it is set: its drawing, whether words stand `beside` it, the parts that do, the others in rows."""

    drawing: Picture | None
    beside: bool
    first: tuple[Placed, ...]
    rows: Rows

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Every part in order."""
        return (*self.first, *(placed for row in self.rows for placed in row))


def arranged(exercise: AskedExercise, page: PageFormat) -> Arrangement:
    """The arrangement of an exercise that takes the least of its pages, by a rough count of its lines."""
    parts = exercise.parts
    if page.in_one_column:
        return _one_under_another(exercise, page)
    least, rows = _in_rows(parts, page)
    if exercise.drawing is None:
        return Arrangement(drawing=None, beside=False, first=(), rows=rows)
    sizes = Sizes(exercise.drawing)
    if exercise.drawn_in_place:
        return Arrangement(drawing=sizes.whole, beside=False, first=(), rows=rows)
    says = f"{exercise.setting} {exercise.pose} {exercise.brick}"
    best = least + _cost(min(sizes.whole.height, _OVER) + _ROUND_DRAWING + page.text_height(says, page.wide), page)
    found = _beside(sizes, says, parts, page, best)
    return found or Arrangement(drawing=_over(sizes, page), beside=False, first=(), rows=rows)


def _beside(sizes: Sizes, says: str, parts: Sequence[AskedPart], page: PageFormat, best: float) -> Arrangement | None:
    """The drawing beside the words and as many parts as take the least height, where that is less than `best`."""
    found = None
    rooms = [(page.wide - page.gap - _TEXT_LEAST, high) for high in _BESIDE_HIGH]
    for small in filter(None, map(sizes.fitting, rooms)):
        wide = float(int(page.wide - page.gap - small.width))
        beside = page.text_height(says, wide)
        for count in range(len(parts) + 1):
            rest, rows = _in_rows(parts[count:], page)
            cost = _cost(max(small.height + _ROUND_DRAWING, beside), page) + rest
            if cost < best - _worth(found, small):
                first = tuple(Placed(part=part, wide=wide) for part in parts[:count])
                best, found = cost, Arrangement(drawing=small, beside=True, first=first, rows=rows)
            if count < len(parts):
                beside += part_height(parts[count], wide, page)
    return found


def _worth(found: Arrangement | None, drawing: Picture) -> float:
    """How many mm must be saved before this drawing, or more parts beside it, take the place of what was found."""
    if found is None or found.drawing is None:
        return 0.0
    return _KEPT if drawing.height >= found.drawing.height else _SMALLER


def _one_under_another(exercise: AskedExercise, page: PageFormat) -> Arrangement:
    """The arrangement with nothing beside anything: the drawing grows with the type, its words to the type's size."""
    over = (page.wide, _OVER), (page.wide, _OVER_MOST)
    drawing = drawing_for(exercise.drawing, page, *over) if exercise.drawing else None
    rows = tuple((Placed(part=part, wide=page.wide),) for part in exercise.parts)
    return Arrangement(drawing=drawing, beside=False, first=(), rows=rows)


def drawing_for(call: DrawingCall, page: PageFormat, *rooms: Room, shares: Sequence[float] = _LARGE_HIGH) -> Picture:
    """A drawing over its words: in usual type in the first of the rooms that takes it, in large type as it needs.

    In large type it takes the first of these `shares` of the page's height that has room for it.
    """
    if not page.large:
        return Sizes(call).within(*rooms)
    return in_large_type(call, [(page.wide, page.high * share) for share in shares], page.type_mm)


def part_height(part: AskedPart, wide: float, page: PageFormat, *, beside: bool = False) -> float:
    """About how high a part stands when it is set so wide, in mm; infinite where it cannot be.

    With its room `beside` what is asked, each is so wide.
    """
    says = f"{part.ask} {part.note}" if part.note else part.ask
    ask = page.text_height(says, wide - _ASK_INDENT)
    room = PRINT_KINDS[part.kind].height(part, wide, page)
    if wide < page.wide and ask > _ASK_LONGEST * page.line:
        return inf
    return (max(ask, room) if beside else ask + room) + _BETWEEN


def _in_rows(parts: Sequence[AskedPart], page: PageFormat) -> tuple[float, Rows]:
    """The rows of one or of two parts that cost the least, and what they cost."""
    found: list[tuple[float, Rows]] = [(0.0, ())]  # of the first parts: none, one, two …
    for place, part in enumerate(parts):
        cost, rows = found[place]
        high, row = _alone(part, page)
        best = cost + _cost(high, page)
        both = parts[place - 1 : place + 1]
        if place and (both_cost := _cost(_both(both, page), page) + found[place - 1][0]) < best - _KEPT:
            best, rows = both_cost, found[place - 1][1]
            row = tuple(Placed(part=one, wide=page.half) for one in both)
        found.append((best, (*rows, row)))
    return found[-1]


def _cost(high: float, page: PageFormat) -> float:
    """What a piece that stands on one page takes of it in mm: its height, and what it leaves white on average."""
    return high + high * high / (2 * page.high)


def _alone(part: AskedPart, page: PageFormat) -> tuple[float, tuple[Placed, ...]]:
    below = part_height(part, page.wide, page)
    beside = part_height(part, page.half, page, beside=True)
    if beside < below - _KEPT:
        return beside, (Placed(part=part, wide=page.half, beside=True),)
    return below, (Placed(part=part, wide=page.wide),)


def _both(parts: Sequence[AskedPart], page: PageFormat) -> float:
    return max(part_height(part, page.half, page) for part in parts)


def _over(sizes: Sizes, page: PageFormat) -> Picture:
    return sizes.within((page.wide, _OVER), (page.wide, _OVER_MOST))
