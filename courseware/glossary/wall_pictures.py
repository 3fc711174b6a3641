"""A wall from its front: its bricks, joints, courses and ends, its bonds, and what stands on it or beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bed_of, run, stopped, toothed
from courseware.drawings.dimension import Marks
from courseware.drawings.frame import View
from courseware.drawings.frame import level as triangle
from courseware.drawings.lines import CUT, SEEN
from courseware.drawings.picture import Point
from courseware.glossary.emphasis import Outline, dark, hollow, laid, light, line, placed, span, thin
from courseware.trade import UK_METRIC, gauge_rod, pier, queen_closer

_BRICKS, _COURSES = 4, 6
_VIEW = View(one_to=20)
_NEAR = View(one_to=12)  # to see a joint by: two bricks and a half, four courses
_LONG = pier(_BRICKS, UK_METRIC)
_MODULE, _HALF, _JOINT = (float(size) for size in (UK_METRIC.module, UK_METRIC.half, UK_METRIC.perpend))
_COURSE, _BED, _HIGH = float(UK_METRIC.course), float(UK_METRIC.bed), float(UK_METRIC.height)
_THREE_QUARTERS = _MODULE * 3 / 4 - _JOINT

Row = Sequence[PlacedBrick]


def course() -> Marks:
    rows = _rows()
    return (*_wall(rows), *_dark(rows[2]))


def stretcher() -> Marks:
    rows = _rows()
    return (*_wall(rows), *_dark([rows[2][1]]))


def bed() -> Marks:
    rows = _few()
    return (*_near(rows), *dark(_NEAR.box(0, rows[2][0].bottom - _BED, rows[2][-1].right, rows[2][0].bottom)))


def perp() -> Marks:
    rows = _few()
    return (*_near(rows), *dark(_between(_NEAR, rows[2][0], rows[2][1])))


def lap() -> Marks:
    """From a perp to the nearest in the course above."""
    rows = _few()
    y = rows[2][0].bottom - _BED / 2
    start, end = (row[0].right + _JOINT / 2 for row in (rows[1], rows[2]))
    return (*_near(rows), *span(_NEAR.at(start, y), _NEAR.at(end, y), 2.4))


def stopped_end() -> Marks:
    rows = _rows()
    ends = [row[-1] for row in rows]
    top = bed_of(_COURSES - 1, UK_METRIC)[1]
    return (*_wall(rows), *_dark(ends), *line((_VIEW.at(_LONG, _BED), _VIEW.at(_LONG, top))))


def straight_joint() -> Marks:
    """Perps one over another: a fault, common practice, no source."""
    rows = [run(Fraction(_BRICKS), Fraction(0), row, UK_METRIC) for row in range(_COURSES)]
    return (*_wall(rows), *dark(*(_between(_VIEW, row[1], row[2]) for row in rows)))


def broken_bond() -> Marks:
    """Three bricks and three quarters: a three-quarter bat in every course, common practice, no source."""
    rows = [_lay(row, _broken(row)) for row in range(_COURSES)]
    cut = [brick for row in rows for brick in row if brick.half]
    return (*_wall(rows), *_dark(cut))


def toothing() -> Marks:
    rows = [toothed(3, row, UK_METRIC) for row in range(_COURSES)]
    return (*_wall(rows), *_dark([row[-1] for number, row in enumerate(rows) if number % 2]))


def racking_back() -> Marks:
    rows = [
        run(Fraction(_BRICKS) - Fraction(row, 2), Fraction(0), row, UK_METRIC, half_first=row % 2 == 1)
        for row in range(_COURSES)
    ]
    steps: list[Point] = []
    for row, bricks in enumerate(rows):
        foot, top = row * _COURSE, (row + 1) * _COURSE
        steps += [_VIEW.at(bricks[-1].right, foot), _VIEW.at(bricks[-1].right, top)]
    return (*_wall(rows), *line(tuple(steps)))


def gauge() -> Marks:
    x = float(_LONG) + 50
    return (*_wall(_rows()), *span(_VIEW.at(x, 0), _VIEW.at(x, 4 * _COURSE)))


def module() -> Marks:
    rows = _few()
    y = float(UK_METRIC.course) * 4 + 25
    start = rows[2][0].left
    return (*_near(rows), *span(_NEAR.at(start, y), _NEAR.at(start + _MODULE, y), 1.8))


def datum() -> Marks:
    below = run(Fraction(_BRICKS), Fraction(0), -1, UK_METRIC)
    left, right = _VIEW.at(-90, 0), _VIEW.at(_LONG + 60, 0)
    return (*_wall([below, *_rows()[:4]]), *line((left, right)), replace(triangle(left), fill=0.0))


def rod() -> Marks:
    marks = [float(top) for top in gauge_rod(_COURSES, UK_METRIC)]
    ticks = tuple((_VIEW.at(-70, top), _VIEW.at(-45, top)) for top in marks)
    stick = dark(_VIEW.box(-110, 0, -70, marks[-1] + 40))
    return (*_wall(_rows()), *stick, *thin(*ticks), *line(*ticks))


def string_line() -> Marks:
    """A line along the top arris of the course that is laid next, its pins in the perps at both ends."""
    rows = _rows()
    top = bed_of(4, UK_METRIC)[1]
    pins = tuple((_VIEW.at(x, top - 60), _VIEW.at(x, top + 25)) for x in (-20, float(_LONG) + 20))
    return (
        *_wall([*rows[:4], rows[4][:1], rows[4][-1:]]),
        *line((_VIEW.at(-20, top), _VIEW.at(_LONG + 20, top))),
        *line(*pins),
    )


def coping() -> Marks:
    return (*_wall(_rows()), *dark(_VIEW.box(-45, _COURSES * _COURSE + _BED, _LONG + 45, _COURSES * _COURSE + 75)))


def damp_proof_course() -> Marks:
    """Two courses above the ground in the picture; how high it must be is for the drawings and the local code."""
    ground = thin((_VIEW.at(-80, 0), _VIEW.at(_LONG + 80, 0)))
    foot = bed_of(2, UK_METRIC)[0] - _BED
    return (*ground, *_wall(_rows()), *dark(_VIEW.box(-12, foot, _LONG + 12, foot + _BED)))


def weep_hole() -> Marks:
    """A perp left open above a damp-proof course."""
    rows = _few()
    tray = line(
        (_NEAR.at(-10, rows[2][0].bottom - _BED / 2), _NEAR.at(rows[2][-1].right + 10, rows[2][0].bottom - _BED / 2))
    )
    return (*_near(rows), *tray, *hollow(_between(_NEAR, rows[2][0], rows[2][1])))


def soldier() -> Marks:
    """Its course on top: as many as fill the length, a joint between them."""
    foot = 3 * _COURSE + _BED
    count = int((float(_LONG) + _JOINT) / (_HIGH + _JOINT))
    wide = (float(_LONG) + _JOINT) / count
    row = [_VIEW.box(n * wide, foot, n * wide + _HIGH, foot + float(UK_METRIC.length)) for n in range(count)]
    return (*_wall(_rows()[:3]), *light(*row), *dark(row[5]))


def brick_on_edge() -> Marks:
    foot = 4 * _COURSE + _BED
    count = int((float(_LONG) + _JOINT) / (_HIGH + _JOINT))
    wide = (float(_LONG) + _JOINT) / count
    row = [_VIEW.box(n * wide, foot, n * wide + _HIGH, foot + float(UK_METRIC.width)) for n in range(count)]
    return (*_wall(_rows()[:4]), *dark(*row))


def stretcher_bond() -> Marks:
    rows = _rows()
    return (*_wall(rows), *_dark([rows[2][1], rows[3][1], rows[3][2]]))


def english_bond() -> Marks:
    rows = _english()
    return (*_wall(rows), *_dark(row for number in (1, 3, 5) for row in rows[number]))


def flemish_bond() -> Marks:
    rows = [_lay(row, _flemish(row)) for row in range(_COURSES)]
    return (*_wall(rows), *_dark(brick for row in rows for brick in row if _is_header(brick)))


def header() -> Marks:
    rows = [_lay(row, _flemish(row)) for row in range(_COURSES)]
    return (*_wall(rows), *_dark([next(brick for brick in rows[2][2:] if _is_header(brick))]))


def queen_closers() -> Marks:
    """Next to the header at the quoin, so that the lap is a quarter of a brick."""
    rows = _english()
    return (*_wall(rows), *_dark(row[1] for row in rows[1::2]))


def stack_bond() -> Marks:
    rows = [run(Fraction(_BRICKS), Fraction(0), row, UK_METRIC) for row in range(_COURSES)]
    return (*_wall(rows), *_dark(row[1] for row in rows))


def string_course() -> Marks:
    rows = _rows()
    return (*_wall([*rows[:3], *rows[4:]]), *_dark(run(Fraction(_BRICKS), Fraction(0), 3, UK_METRIC)))


def face() -> Marks:
    top = bed_of(_COURSES - 1, UK_METRIC)[1]
    back = (_VIEW.at(0, top), _VIEW.at(60, top + 45), _VIEW.at(_LONG + 60, top + 45), _VIEW.at(_LONG, top))
    end = (
        _VIEW.at(_LONG, top), _VIEW.at(_LONG + 60, top + 45), _VIEW.at(_LONG + 60, 45 + _BED), _VIEW.at(_LONG, _BED),
    )  # fmt: skip
    return (*light(back, end, fill=1.0), *_dark(brick for row in _rows() for brick in row))


def plumb() -> Marks:
    """A line with a bob beside the end of the wall, the same distance away at the top and at the foot."""
    x, top = float(_LONG) + 40, _COURSES * _COURSE + 40
    bob = (_VIEW.at(x - 16, 110), _VIEW.at(x + 16, 110), _VIEW.at(x, 40))
    arm = thin((_VIEW.at(_LONG - 40, top), _VIEW.at(x, top)))
    return (*_wall(_rows()), *arm, *line((_VIEW.at(x, top), _VIEW.at(x, 110))), *dark(bob))


def level() -> Marks:
    top = _COURSES * _COURSE
    tool = dark(_VIEW.box(60, top, _LONG - 60, top + 55))
    middle = float(_LONG) / 2
    glass = SEEN.stroke(_VIEW.box(middle - 60, top + 15, middle + 60, top + 42), closed=True, fill=1.0)
    bubble = CUT.stroke(_VIEW.box(middle - 22, top + 18, middle + 22, top + 39), closed=True, fill=1.0)
    return (*_wall(_rows()), *tool, glass, bubble)


def dentil_course() -> Marks:
    """Headers, every other one standing out."""
    rows = _rows()
    headers = _lay(4, [_HALF - _JOINT] * (2 * _BRICKS))
    top = run(Fraction(_BRICKS), Fraction(0), 5, UK_METRIC)
    return (*_wall([*rows[:4], headers[1::2], top]), *_dark(headers[::2]))


def _rows() -> list[tuple[PlacedBrick, ...]]:
    return [stopped(Fraction(_BRICKS), row, UK_METRIC) for row in range(_COURSES)]


def _few() -> list[tuple[PlacedBrick, ...]]:
    return [stopped(Fraction(5, 2), row, UK_METRIC) for row in range(4)]


def _near(rows: Sequence[Row]) -> Marks:
    return laid(_NEAR, (brick for row in rows for brick in row))


def _wall(rows: Sequence[Row]) -> Marks:
    return laid(_VIEW, (brick for row in rows for brick in row))


def _dark(bricks: Iterable[PlacedBrick]) -> Marks:
    return dark(*(placed(_VIEW, brick) for brick in bricks))


def _between(view: View, left: PlacedBrick, right: PlacedBrick) -> Outline:
    """The joint between two bricks of a course."""
    return view.box(left.right, left.bottom, right.left, left.top)


def _lay(row: int, lengths: Sequence[float]) -> tuple[PlacedBrick, ...]:
    """Bricks so long, laid from the left with a joint between them; `half` where one is cut."""
    bottom, top = bed_of(row, UK_METRIC)
    at, bricks = 0.0, []
    for long in lengths:
        cut = long < float(UK_METRIC.length) and abs(long - float(UK_METRIC.width)) > 1
        bricks.append(PlacedBrick(left=at, bottom=bottom, right=at + long, top=top, half=cut))
        at += long + _JOINT
    return tuple(bricks)


def _english() -> list[tuple[PlacedBrick, ...]]:
    """Courses of stretchers and of headers by turns, a queen closer next to the first and before the last header."""
    whole, head, queen = float(UK_METRIC.length), float(UK_METRIC.width), float(queen_closer(UK_METRIC))
    headers = [head, queen, *[head] * (2 * _BRICKS - 3), queen, head]
    return [_lay(row, headers if row % 2 else [whole] * _BRICKS) for row in range(_COURSES)]


def _flemish(row: int) -> list[float]:
    """Header and stretcher by turns; every other course begins with a header and a queen closer."""
    whole, head, queen = float(UK_METRIC.length), float(UK_METRIC.width), float(queen_closer(UK_METRIC))
    if row % 2:
        return [head, queen, whole, head, whole, queen, head]
    return [whole, head, whole, head, whole]


def _is_header(brick: PlacedBrick) -> bool:
    return abs(brick.right - brick.left - float(UK_METRIC.width)) < 1


def _broken(row: int) -> list[float]:
    whole, head = float(UK_METRIC.length), float(UK_METRIC.width)
    return [whole, _THREE_QUARTERS, whole, whole] if row % 2 == 0 else [head, whole, _THREE_QUARTERS, whole, head]
