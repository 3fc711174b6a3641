"""A task drawn: elevation brick by brick, section through its frame; template and gauge rod at true size."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.bond import PlacedBrick, bats, run, stopped, wholes
from courseware.drawings.dimension import LANE, Marks, across, box, name, upright
from courseware.drawings.frame import View, cut_through, framed
from courseware.drawings.lines import CUT, EDGE, GROUND, HIDDEN, SYMBOL, TICK
from courseware.drawings.panel import bays, kinds_in
from courseware.drawings.picture import Label, Picture
from courseware.drawings.scale import one_to
from courseware.drawings.surround import kinds_of, pieces
from courseware.drawings.tiles import tiles
from courseware.jobs.plan import Plan, shown_size
from courseware.trade import Format, Placed, height

_ROOM = (140.0, 105.0)  # mm of paper for the elevation: the setting-out figures stand below it on the same page
_HIGH = 100.0  # and for the section
_STRIP, _STRIPS = 38.0, 4  # mm wide, to a page
_LONGEST_STRIP = 226  # mm: a longer one does not fit below its heading
_LINE = 100.0  # mm
_ELEVATION = "Elevation of the wall with its panel, brick by brick"


def wall_bricks(plan: Plan) -> tuple[PlacedBrick, ...]:
    """Every brick of the wall around the opening, x from the wall's left end, y from the floor."""
    shape, brick = plan.task.shape, plan.task.brick
    long, wide = shape.wall.bricks, Fraction(shape.opening.bricks)
    left = beside(plan)
    right = long - wide - left
    laid: list[PlacedBrick] = []
    for row in range(shape.wall.courses):
        if shape.wall.below <= row < shape.wall.below + shape.opening.courses:
            laid += run(left, Fraction(0), row, brick, half_first=row % 2 == 1)
            start = left + wide
            laid += run(right, start * brick.module, row, brick, half_first=(row % 2 == 1) != (start.denominator == 2))
        else:
            laid += stopped(long, row, brick)
    return tuple(laid)


def beside(plan: Plan) -> Fraction:
    """Bricks of wall to the left of the opening: half of what is spare, in half bricks."""
    return Fraction(int(2 * (plan.task.shape.wall.bricks - plan.task.shape.opening.bricks)) // 2, 2)


def elevation(plan: Plan) -> Picture:
    """The elevation with the opening's sizes, the wall's and the heights of both runs."""
    view, wide, marks = _built(plan)
    left, foot = _left(plan), plan.foot
    kinds = ("whole", *kinds_of(plan.surround), *(kind for kind in kinds_in(plan.weave) if kind != "whole"))
    base, edge = view.at(0, 0)[1], view.at(wide, 0)[0]
    marks += across(view.at(left, 0), view.at(left + plan.width, 0), base + LANE, shown_size(plan.width))
    marks += across(view.at(0, 0), view.at(wide, 0), base + 2 * LANE, shown_size(Fraction(wide)))
    marks += upright(view.at(wide, 0), view.at(wide, foot), edge + LANE, shown_size(foot))
    marks += upright(view.at(wide, foot), view.at(wide, foot + plan.clear), edge + 2 * LANE, shown_size(plan.clear))
    return framed(marks, _ELEVATION, view.one_to, kinds)


def in_small(plan: Plan) -> Picture:
    """The elevation without sizes, to know a job by among others."""
    return framed(_built(plan)[2], _ELEVATION)


def _built(plan: Plan) -> tuple[View, float, Marks]:
    """The wall with its surround and panel on paper: the view, the wall's length in mm, the marks."""
    brick = plan.task.brick
    laid = wall_bricks(plan)
    wide, high = max(b.right for b in laid), max(b.top for b in laid)
    view = View(one_to=one_to(wide, high, _ROOM))
    left, foot = _left(plan), plan.foot
    marks: Marks = (*view.bricks(wholes(laid), joint=brick.bed), *view.bricks(bats(laid), "half", joint=brick.bed))
    marks += pieces(view, plan.surround, (left, foot))
    inner = left + (plan.width - plan.weave.width) / 2, foot + (plan.clear - plan.weave.height) / 2
    marks += bays(view, plan.weave, inner)
    return view, wide, (*marks, view.rule((-60, 0), (wide + 60, 0), pen=GROUND))


def _left(plan: Plan) -> Fraction:
    """Where the opening begins, in mm from the wall's left end."""
    return beside(plan) * plan.task.brick.module - plan.task.brick.perpend


def section(plan: Plan) -> Picture:
    """The wall cut through the frame, with the eye line, both runs' heights and how far they stand out."""
    shape, brick, frame = plan.task.shape, plan.task.brick, plan.frame
    top = height(shape.wall.courses, brick)
    view = View(one_to=one_to(1, max(top, shape.eye_height), (1, _HIGH), least=10))
    foot, out, deep = plan.foot, frame.projects, brick.width
    back = [
        (Fraction(0), row * brick.course + brick.bed, deep, (row + 1) * brick.course)
        for row in range(shape.wall.courses)
        if not shape.wall.below <= row < shape.wall.below + shape.opening.courses
    ]
    panel_foot = foot + (plan.clear - plan.weave.height) / 2
    panel = [(Fraction(0), panel_foot + b.bottom, deep, panel_foot + b.top) for b in _cut_through(plan)]
    runs = [(-out, high - deep, deep - out, high) for high in (frame.bottom_height, frame.top_height)]
    marks: Marks = tuple(
        mark
        for boxes, kind in ((back, "whole"), (panel, None), (runs, "out"))
        for mark in cut_through(tuple(view.box(*b) for b in boxes), kind)
    )
    eye = Fraction(shape.eye_height)
    marks += (view.rule((-600, eye), (deep + 60, eye), pen=HIDDEN),)
    marks += (name((view.at(-600, eye)[0], view.at(0, eye)[1] - 1.2), f"eye line {shown_size(eye)}"),)
    marks += (view.rule((-700, 0), (deep + 60, 0), pen=GROUND),)
    marks += (name((view.at(-700, 0)[0], view.at(0, 0)[1] + 3.6), "floor"),)
    edge = view.at(deep, 0)[0]
    for lane, high in enumerate((frame.bottom_height, frame.top_height), 1):
        marks += upright(view.at(deep, 0), view.at(deep, high), edge + lane * LANE, shown_size(high))
    over = view.at(0, frame.top_height)
    marks += across(view.at(-out, frame.top_height), over, over[1] - 4, shown_size(out), before=True)
    return framed(marks, "Section through the frame with the eye line", view.one_to, ("whole", "out"))


def _cut_through(plan: Plan) -> tuple[Placed, ...]:
    """The panel's bricks in a cut up the middle of its left column of bays: flat bricks and soldiers in turn."""
    middle = plan.task.brick.length / 2
    return tuple(b for b in plan.weave.bricks if b.left <= middle < b.right)


def bats_at_true_size(plan: Plan) -> Picture:
    """The mitred bat, left and right hand, 1:1, with a 100 mm line on both axes."""
    bat = plan.template
    marks: Marks = ()
    for left, outline, hand in ((8.0, bat.outline, "left hand"), (86.0, bat.other_hand, "right hand")):
        low = float(min(x for x, _ in outline))
        points = tuple((left + float(x) - low, 115.0 - float(y)) for x, y in outline)
        marks += (CUT.stroke(points, closed=True),)
        marks += (name((left + float(bat.width) / 2, 122.0), f"mitred bat, {hand}", anchor="middle"),)
    marks += _lines(10.0, 132.0)
    return framed(marks, "Outlines of the mitred bat at true size")


def corner_at_true_size(plan: Plan) -> tuple[Picture, ...]:
    """The lower left corner of the surround laid out 1:1, to lay the pieces on; cut into tiles."""
    reach = plan.task.brick.module * 4 / 3  # four pieces either way
    outlines = tuple(
        tuple((float(x), float(reach - y)) for x, y in piece.outline)
        for piece in plan.surround.pieces
        if all(x <= reach and y <= reach for x, y in piece.outline)
    )
    side = float(reach)
    marks: Marks = (
        EDGE.stroke(((0.0, 0.0), (0.0, side), (side, side))),
        CUT.stroke(*outlines, closed=True),
        name((4, side - 2.5), "reveal and top of the brick below: heavy line"),
        *_lines_within(side),
    )
    return tiles(framed(marks, "The surround's lower left corner at true size"))


def _lines_within(side: float) -> Marks:
    """A 100 mm line on both axes, clear of the pieces of a corner."""
    from_left, from_top = side - _LINE - 8, 12.0
    level = ((from_left, from_top), (from_left + _LINE, from_top))
    plumb = ((from_left, from_top), (from_left, from_top + _LINE))
    return (
        SYMBOL.stroke(level, plumb),
        name((from_left + 4, from_top + 5), "100 mm both ways: print without scaling"),
    )


def rod_strips(plan: Plan) -> tuple[Picture, ...]:
    """The gauge rod from the floor to the top of the wall at true size, in strips that fit a page, four to a page."""
    brick, courses = plan.task.brick, plan.task.shape.wall.courses
    strips = range(0, courses, per_strip(brick))
    return tuple(
        _strip_page(brick.course, strips[start : start + _STRIPS], courses, plan)
        for start in range(0, len(strips), _STRIPS)
    )


def per_strip(brick: Format) -> int:
    """Courses to a strip of the rod: three, or as many as fit a page."""
    return min(3, int(_LONGEST_STRIP // brick.course))


def _strip_page(course: Fraction, firsts: range, courses: int, plan: Plan) -> Picture:
    each = per_strip(plan.task.brick)
    high = float(course * each)
    below, opening = plan.task.shape.wall.below, plan.task.shape.opening.courses
    marks: Marks = ()
    for place, first in enumerate(firsts):
        left = place * (_STRIP + 3)
        marks += (SYMBOL.stroke(box(left, 0, left + _STRIP, high), closed=True),)
        for n in range(each + 1):
            number = first + n
            y = high - n * float(course)
            if number <= courses:
                marks += (TICK.stroke(((left, y), (left + 16, y))),)
            if 0 < number <= courses and n:
                says = {below: "opening starts", below + opening: "last beside it"}.get(number, "")
                marks += (Label(at=(left + 3, y + 5), text=str(number), size=4.5, bold=True, anchor="start"),)
                if says:
                    marks += (name((left + 9, y + 5), says),)
        joins = "floor" if first == 0 else f"join to {first}"
        marks += (name((left + 2, high - 1.5), joins),)
    marks += _lines(10.0, high + 10)
    return framed(marks, "Strips of the gauge rod at true size")


def _lines(x: float, y: float) -> Marks:
    """A 100 mm line on each axis."""
    level = (((x, y), (x + _LINE, y)), ((x, y - 1.5), (x, y + 1.5)), ((x + _LINE, y - 1.5), (x + _LINE, y + 1.5)))
    right = 166.0
    plumb = (
        ((right, 5.0), (right, 5.0 + _LINE)),
        ((right - 1.5, 5.0), (right + 1.5, 5.0)),
        ((right - 1.5, 5.0 + _LINE), (right + 1.5, 5.0 + _LINE)),
    )
    return (
        SYMBOL.stroke(*level, *plumb),
        name((x + _LINE / 2, y + 4.5), "100 mm both ways: print without scaling", anchor="middle"),
    )
