"""What stands beside what in an exercise: its drawing beside its words, short parts two in a row, as saves paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import inf

from courseware.drawings import draw
from courseware.drawings.enlarged import enlarged
from courseware.drawings.picture import Label, Picture, extent
from courseware.drawings.reduced import reduced
from courseware.papers.sheets import AskedExercise, AskedPart, DrawingCall
from courseware.printing.page_format import PageFormat
from courseware.printing.part_kind import PRINT_KINDS

_OVER, _OVER_MOST = 48.0, 80.0  # mm high, of a drawing over its words: where it can be, and at most
_BESIDE_HIGH = 61.0, 45.0  # mm high at most, of one beside them; the lower where that saves height
_TEXT_LEAST = 74.0  # mm: words beside a drawing are no narrower
_SMALLER = (1.0, 0.85, 0.72, 0.6, 0.5, 0.42)  # shares of its room that a drawing is tried in
_WORTH_A_TRY = 1.1  # of the room: dimensions and words take as much at any scale
_ASK_INDENT = 21.0  # mm of an ask's width that its label and its marks take
_ASK_LONGEST = 4  # lines, of a part that does not have the page to itself
_BETWEEN = 2.8  # mm round a part
_ROUND_DRAWING = 5.0  # mm
_KEPT = 3.0  # mm that must be saved before parts are set side by side


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
    """The arrangement of an exercise that takes the least height, by a rough count of its lines."""
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
    best = least + min(sizes.whole.height, _OVER) + _ROUND_DRAWING + page.text_height(says, page.wide)
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
            height = max(small.height + _ROUND_DRAWING, beside) + rest
            if height < best - (_KEPT if found else 0):
                first = tuple(Placed(part=part, wide=wide) for part in parts[:count])
                best, found = height, Arrangement(drawing=small, beside=True, first=first, rows=rows)
            if count < len(parts):
                beside += part_height(parts[count], wide, page)
    return found


def _one_under_another(exercise: AskedExercise, page: PageFormat) -> Arrangement:
    """The arrangement with nothing beside anything: the drawing grows with the type, its words to the type's size."""
    drawing = None
    if exercise.drawing:
        sizes = Sizes(exercise.drawing)
        drawing = sizes.whole if exercise.drawn_in_place else _over(sizes, page)
        if page.large and not exercise.drawn_in_place:
            room = (min(page.wide, drawing.width * page.scale), drawing.height * page.scale)
            drawing = enlarged(drawing, room, page.type_mm)
    rows = tuple((Placed(part=part, wide=page.wide),) for part in exercise.parts)
    return Arrangement(drawing=drawing, beside=False, first=(), rows=rows)


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


class Sizes:
    """A drawing at the scales that it was asked for, each drawn once: its words and its boxes are as large in all."""

    def __init__(self, call: DrawingCall) -> None:
        self._call = call
        self._drawn: dict[float, Picture] = {}

    @property
    def whole(self) -> Picture:
        return self._at(1.0)

    def fitting(self, room: tuple[float, float]) -> Picture | None:
        """The drawing at the largest scale at which it fits and its words stand apart; None where there is none."""
        touching = _touching(self.whole)
        least = max(self.whole.width / room[0], self.whole.height / room[1])
        for share in (share for share in _SMALLER if share == 1 or share * least <= _WORTH_A_TRY):
            try:
                picture = self._at(share)
            except ValueError:  # at no usual scale
                return None
            if picture.width <= room[0] and picture.height <= room[1] and _touching(picture) <= touching:
                return picture
        return None

    def _at(self, share: float) -> Picture:
        if share not in self._drawn:
            self._drawn[share] = draw(self._call, share)
        return self._drawn[share]


def drawn_within(call: DrawingCall, *rooms: tuple[float, float]) -> Picture:
    """The drawing made for the first of its rooms that it fits at a scale, else made smaller with its words."""
    sizes = Sizes(call)
    made = (sizes.fitting(room) for room in rooms)
    return next((picture for picture in made if picture), None) or reduced(sizes.whole, rooms[-1])


def _in_rows(parts: Sequence[AskedPart], page: PageFormat) -> tuple[float, Rows]:
    """The rows of one or of two parts that take the least height, and that height."""
    found: list[tuple[float, Rows]] = [(0.0, ())]  # of the first parts: none, one, two …
    for place, part in enumerate(parts):
        height, rows = found[place]
        best, row = _alone(part, page)
        best += height
        if place and (both := _both(parts[place - 1 : place + 1], page) + found[place - 1][0]) < best - _KEPT:
            best, rows = both, found[place - 1][1]
            row = tuple(Placed(part=one, wide=page.half) for one in parts[place - 1 : place + 1])
        found.append((best, (*rows, row)))
    return found[-1]


def _alone(part: AskedPart, page: PageFormat) -> tuple[float, tuple[Placed, ...]]:
    below = part_height(part, page.wide, page)
    beside = part_height(part, page.half, page, beside=True)
    if beside < below - _KEPT:
        return beside, (Placed(part=part, wide=page.half, beside=True),)
    return below, (Placed(part=part, wide=page.wide),)


def _both(parts: Sequence[AskedPart], page: PageFormat) -> float:
    return max(part_height(part, page.half, page) for part in parts)


def _over(sizes: Sizes, page: PageFormat) -> Picture:
    return (
        sizes.fitting((page.wide, _OVER))
        or sizes.fitting((page.wide, _OVER_MOST))
        or reduced(sizes.whole, (page.wide, _OVER_MOST))
    )


def _touching(picture: Picture) -> int:
    """How many pairs of labels stand over one another."""
    boxes = [_box(mark) for mark in picture.marks if isinstance(mark, Label)]
    return sum(a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for a, b in combinations(boxes, 2))


def _box(label: Label) -> tuple[float, float, float, float]:
    corners = extent(label)
    across, down = [x for x, _ in corners], [y for _, y in corners]
    return min(across), min(down), max(across), max(down)
