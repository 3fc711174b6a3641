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

_OVER = 48.0  # mm high at most, of a drawing over its words
_BESIDE_HIGH = 61.0  # mm high at most, of one beside them
_TEXT_LEAST = 74.0  # mm: words beside a drawing are no narrower
_SMALLER = (1.0, 0.85, 0.72, 0.6, 0.5, 0.42)  # shares of its room that a drawing is tried in
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
    over = _over(exercise, page)
    best, rows = _in_rows(parts, page)
    found = Arrangement(drawing=over, beside=False, first=(), rows=rows)
    if exercise.drawing is None or over is None:
        return found
    says = f"{exercise.setting} {exercise.pose} {exercise.brick}"
    best += over.height + _ROUND_DRAWING + page.text_height(says, page.wide)
    small = fitting(exercise.drawing, (page.wide - page.gap - _TEXT_LEAST, _BESIDE_HIGH))
    if small is None or exercise.drawn_in_place:
        return found
    wide = float(int(page.wide - page.gap - small.width))
    beside = page.text_height(says, wide)
    for count in range(len(parts) + 1):
        rest, rows = _in_rows(parts[count:], page)
        height = max(small.height + _ROUND_DRAWING, beside) + rest
        if height < best:
            first = tuple(Placed(part=part, wide=wide) for part in parts[:count])
            best, found = height, Arrangement(drawing=small, beside=True, first=first, rows=rows)
        if count < len(parts):
            beside += part_height(parts[count], wide, page)
    return found


def _one_under_another(exercise: AskedExercise, page: PageFormat) -> Arrangement:
    """The arrangement with nothing beside anything: the drawing grows with the type, its words to the type's size."""
    drawing = _over(exercise, page)
    if drawing and page.large and not exercise.drawn_in_place:
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


def fitting(call: DrawingCall, room: tuple[float, float]) -> Picture | None:
    """The drawing at a scale at which it fits, its words and its boxes as large as ever; None where there is none."""
    whole = draw(call)
    touching = _touching(whole)
    for share in _SMALLER:
        if share < 1 and share * max(whole.width / room[0], whole.height / room[1]) > 1.1:
            continue
        try:
            picture = whole if share == 1 else draw(call, share)
        except ValueError:  # at no usual scale
            return None
        if picture.width <= room[0] and picture.height <= room[1] and _touching(picture) <= touching:
            return picture
    return None


def drawn_within(call: DrawingCall, room: tuple[float, float], *, true_size: bool = False) -> Picture:
    """The drawing made for its room, at the least scale made smaller with its words; at `true_size` as it is."""
    if true_size:
        return draw(call)
    return fitting(call, room) or reduced(draw(call), room)


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


def _over(exercise: AskedExercise, page: PageFormat) -> Picture | None:
    if exercise.drawing is None:
        return None
    whole = draw(exercise.drawing)
    if exercise.drawn_in_place or (whole.height <= _OVER and whole.width <= page.wide):
        return whole
    return fitting(exercise.drawing, (page.wide, _OVER)) or whole


def _touching(picture: Picture) -> int:
    """How many pairs of labels stand over one another."""
    boxes = [_box(mark) for mark in picture.marks if isinstance(mark, Label)]
    return sum(a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for a, b in combinations(boxes, 2))


def _box(label: Label) -> tuple[float, float, float, float]:
    corners = extent(label)
    across, down = [x for x, _ in corners], [y for _, y in corners]
    return min(across), min(down), max(across), max(down)
