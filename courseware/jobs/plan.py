"""The plan of a task: every figure that its sheets print, worked out once by the trade core."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from courseware.banks.figures import half_up, write_out
from courseware.jobs.task import AllowedShape, Task
from courseware.trade import (
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

_DRY = Fraction("1.33")  # dry volume to wet: a teaching figure that a source uses, printed with the order
_LEAST = Fraction(1)  # mm: no deviation is measured finer


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A measured line of the observation sheet: what, its target and the deviation allowed, in mm."""

    what: str
    target: Fraction
    allowed: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Stores:
    """What the stores give out: bricks and mortar for one bay, and for the class with waste, rounded up once."""

    wall_bricks: Fraction
    panel_bricks: int
    surround_bricks: int
    mortar_m3: Fraction
    class_bricks: int
    class_mortar_m3: Fraction
    cement_bags: int
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
            (f"Top of course {courses} beside the opening, above the floor", _mm(self.foot + self.clear - brick.bed)),
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
    def lines(self) -> tuple[Line, ...]:
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
        size, over_width = self.task.profile.size, allowed(self.task.profile.level, self.width)
        return (
            *(Line(what=what, target=target, allowed=allowed(size, target)) for what, target in sizes),
            *(
                Line(
                    what=f"{run} run, out of level over its length",
                    target=Fraction(0),
                    allowed=over_width,
                )
                for run in ("Bottom", "Top")
            ),
        )


def plan_of(task: Task, arris_rule: str) -> Plan:
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
            shape.opening.courses, shape.wall.below, shape.eye_height, shape.projects, brick, arris_rule
        ),
        template=mitre_template(brick),
        stores=_stores(task, around, weave),
    )


def allowed(shape: AllowedShape, length: Fraction) -> Fraction:
    """The deviation allowed over a length: pro rata where the profile says so, never under 1 mm."""
    if not shape.pro_rata or length >= shape.over:
        return shape.mm
    return max(_LEAST, Fraction(half_up(shape.mm * length / shape.over, 0)))


def _stores(task: Task, around: Surround, weave: Weave) -> Stores:
    shape, brick = task.shape, task.brick
    panel = weave.stretchers + weave.soldiers
    wall = shape.wall.bricks * shape.wall.courses - shape.opening.bricks * shape.opening.courses
    area = wall_area_m2(pier(shape.wall.bricks, brick), height(shape.wall.courses, brick))
    mortar = mortar_volume(area, brick)
    for_class = shape.bays * (wall + panel + around.bricks)
    wet = shape.bays * mortar * (1 + Fraction(shape.waste, 100))
    made = batch(wet, shape.mix, dry_factor=_DRY, bag_kg=25)
    return Stores(
        wall_bricks=wall,
        panel_bricks=panel,
        surround_bricks=around.bricks,
        mortar_m3=mortar,
        class_bricks=order(for_class, waste_percent=shape.waste),
        class_mortar_m3=wet,
        cement_bags=made.bags,
        sand_kg=25 * order(made.sand_kg, pack=25),
    )


def shown(size: Fraction | int) -> str:
    """A size in mm as the sheets print it: to a tenth, which is exact for UK bricks and finer than any tape."""
    return write_out(half_up(size, 1))


def _mm(size: Fraction | int) -> str:
    return f"{shown(size)} mm"


def _arris(word: str) -> str:
    return {"top": "top arris", "underside": "under-side arris"}[word]
