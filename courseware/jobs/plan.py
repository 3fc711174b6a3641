"""The plan of a task: every figure that its sheets print, worked out once by the trade core."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from courseware.banks.figures import half_up, write_out
from courseware.jobs.support import days_of, support_bricks
from courseware.jobs.task import AllowedShape, Task
from courseware.settings.upright_joint import with_own_word
from courseware.trade import (
    Format,
    Frame,
    Surround,
    Template,
    Weave,
    basket_weave,
    batch,
    diagonal,
    height,
    mitre_template,
    mortar_volume,
    order,
    pier,
    projecting_frame,
    surround,
    wall_area_m2,
)
from courseware.words import plural

_DRY = Fraction("1.33")  # dry volume to wet: a teaching figure that a source uses, printed with the order
# mm: no deviation is asked finer than the bricks themselves may vary: BS EN 771-1, category T2, a size of 102 mm.
_LEAST = Fraction(3)
_JOINT = Fraction(3)  # mm either way when bricks are spread: a training page on broken bonding
_GAUGED = {3: "three", 4: "four"}
_FOUR_COURSES = 300  # mm: a livery company's glossary; three courses of German NF are 250 mm, DIN 4172


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredLine:
    """A measured line of the observation sheet: what, its target and the deviation allowed, in mm."""

    what: str
    target: Fraction
    allowed: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Stores:
    """What the stores give out, for one bay and for the class: each with its waste, rounded up once."""

    wall_bricks: Fraction
    support_bricks: Fraction
    panel_bricks: int
    surround_bricks: int
    bay_bricks: int
    bay_mortar_m3: Fraction
    class_bricks: int
    class_mortar_m3: Fraction
    cement_bags: int  # none in practice mortar
    lime_litres: int  # none in a mix of cement and sand alone
    sand_kg: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A task worked out."""

    task: Task
    width: Fraction
    clear: Fraction
    corner_to_corner: Fraction
    foot: Fraction  # top of the wall below, above the floor
    surround: Surround
    weave: Weave
    frame: Frame
    template: Template
    stores: Stores

    @property
    def figures(self) -> tuple[tuple[str, str], ...]:
        """The setting-out figures in the order in which they are used, as finished text."""
        courses, brick = self.task.shape.opening.courses, self.task.brick
        return (
            ("Top of the wall below the opening, above the floor", _mm(self.foot)),
            ("Width of the opening, brick to brick", _mm(self.width)),
            ("Clear height, brick below to brick above", _mm(self.clear)),
            ("Both diagonals of the opening", _mm(self.corner_to_corner)),
            (
                f"Top of course {self.task.shape.wall.below + courses} of the wall, at the head of the opening",
                _mm(self.foot + self.clear - brick.bed),
            ),
            ("Joint from reveal to surround, and from surround to panel", _mm(brick.perpend)),
            ("Top of the bottom run, above the floor", _mm(self.frame.bottom_height)),
            ("Level the bottom run through on its", _arris(self.frame.bottom_arris)),
            ("Width of the panel, brick edge to brick edge", _mm(self.weave.width)),
            ("Height of the panel, brick edge to brick edge", _mm(self.weave.height)),
            ("Top of the top run, above the floor", _mm(self.frame.top_height)),
            ("Level the top run through on its", _arris(self.frame.top_arris)),
            ("The surround stands out from the face by", _mm(self.frame.projects)),
        )

    @property
    def lines(self) -> tuple[MeasuredLine, ...]:
        """What is measured when it is built."""
        across = Fraction(half_up(self.corner_to_corner, 0))
        sizes = (
            ("Width of the opening", self.width),
            ("Clear height of the opening", self.clear),
            ("Diagonal, lower left to upper right", across),
            ("Diagonal, lower right to upper left", across),
            ("Panel, width", self.weave.width),
            ("Panel, height", self.weave.height),
            ("Projection of the surround", self.frame.projects),
        )
        gauged, word = gauge_courses(self.task.brick), self.task.settings.upright_joint
        profile, brick, least = self.task.profile, self.task.brick, self.least
        size, level = partial(allowed, profile.size, least=least), partial(allowed, profile.level, least=least)
        nothing = (
            ("Difference of the two diagonals", size(across)),
            ("Left reveal, out of plumb over its height", level(self.clear)),
            ("Right reveal, out of plumb over its height", level(self.clear)),
            ("Face of the panel, out of true under a straight-edge", level(self.weave.width)),
            ("Bottom run, out of level over its length", level(self.width)),
            ("Top run, out of level over its length", level(self.width)),
        )
        joints = (
            (f"Gauge, {_GAUGED[gauged]} courses of the wall", gauged * brick.course),
            (with_own_word("Widest perpend of the panel", word), brick.perpend),
            (with_own_word("Narrowest perpend of the panel", word), brick.perpend),
        )
        return (
            *(MeasuredLine(what=what, target=target, allowed=size(target)) for what, target in sizes),
            *(MeasuredLine(what=what, target=target, allowed=max(least, _JOINT)) for what, target in joints),
            *(MeasuredLine(what=what, target=Fraction(0), allowed=mm) for what, mm in nothing),
        )

    @property
    def least(self) -> Fraction:
        """The finest deviation, in mm, that is asked: what the bricks themselves vary by."""
        measured = self.task.shape.bricks_vary
        return _LEAST if measured is None else measured

    @property
    def days(self) -> tuple[int, ...]:
        """The course of the wall that each day ends on."""
        return days_of(self.task.shape.wall.courses, self.task.shape.day_height, self.task.brick)


def plan_of(task: Task) -> Plan:
    """The plan. The task is known to be buildable, so no `TradeError` is met here."""
    shape, brick = task.shape, task.brick
    around = surround(shape.opening.bricks, shape.opening.courses, brick, shape.corner)
    weave = basket_weave(around.panel_bricks, around.panel_courses, brick, shape.starts)
    return Plan(
        task=task,
        width=around.width,
        clear=around.height,
        corner_to_corner=diagonal(around.width, around.height),
        foot=height(shape.wall.below, brick),
        surround=around,
        weave=weave,
        frame=projecting_frame(
            shape.opening.courses, shape.wall.below, shape.eye_height, shape.projects, brick, task.settings.arris_rule
        ),
        template=mitre_template(brick),
        stores=_stores(task, around, weave),
    )


def allowed(shape: AllowedShape, length: Fraction, *, least: Fraction = _LEAST) -> Fraction:
    """The deviation allowed over a length, in mm: pro rata where the profile says so, never finer than `least`."""
    if not shape.pro_rata or length >= shape.over:
        return max(least, shape.mm)
    return max(least, Fraction(half_up(shape.mm * length / shape.over, 0)))


def _stores(task: Task, around: Surround, weave: Weave) -> Stores:
    shape, brick = task.shape, task.brick
    panel = weave.stretchers + weave.soldiers
    wall = shape.wall.bricks * shape.wall.courses - shape.opening.bricks * shape.opening.courses
    area = wall_area_m2(pier(shape.wall.bricks, brick), height(shape.wall.courses, brick))
    mortar = mortar_volume(area, brick, frog_percent=shape.frog)
    support = support_bricks(shape.support, shape.wall.courses, shape.return_bricks)
    if support:
        mortar += mortar_volume(support * brick.module * brick.course / 1_000_000, brick, frog_percent=shape.frog)
    each = wall + support + panel + around.bricks
    wet = mortar * (1 + Fraction(shape.waste, 100))
    made = batch(shape.bays * wet, shape.mix, dry_factor=_DRY, bag_kg=25)
    practice = shape.mortar == "practice"  # its mix is lime to sand
    lime = made.cement_m3 if practice else made.lime_m3
    return Stores(
        wall_bricks=wall,
        support_bricks=support,
        panel_bricks=panel,
        surround_bricks=around.bricks,
        bay_bricks=order(each, waste_percent=shape.waste),
        bay_mortar_m3=wet,
        class_bricks=order(shape.bays * each, waste_percent=shape.waste),
        class_mortar_m3=shape.bays * wet,
        cement_bags=0 if practice else made.bags,
        lime_litres=order(lime * 1000) if lime else 0,
        sand_kg=25 * order(made.sand_kg, pack=25),
    )


def gauge_courses(brick: Format) -> int:
    """The courses that gauge is counted in: four where they are 300 mm, else three, a module wherever a panel closes.

    >>> from courseware.trade import GERMAN_NF, UK_METRIC
    >>> gauge_courses(UK_METRIC), gauge_courses(GERMAN_NF)
    (4, 3)
    """
    return 4 if height(4, brick) == _FOUR_COURSES else 3


def shown_size(size: Fraction | int) -> str:
    """A size in mm as the sheets print it: to a tenth, which is exact for UK bricks and finer than any tape."""
    return write_out(half_up(size, 1))


def counted(number: Fraction | int, word: str) -> str:
    """`1 course`, `3 courses`, `1.5 hours`."""
    return f"{write_out(number)} {plural(number, word)}"


def _mm(size: Fraction | int) -> str:
    return f"{shown_size(size)} mm"


def _arris(word: str) -> str:
    return {"top": "top arris", "underside": "under-side arris"}[word]
