"""What the stores are asked for, line by line, for one bay and for the class."""

from __future__ import annotations

import math
from fractions import Fraction

from courseware.banks.figures import half_up
from courseware.jobs.from_above import support_halves
from courseware.jobs.pictures import wall_bricks
from courseware.jobs.plan import Plan
from courseware.jobs.support import BONDED, PROPS

OrderRow = tuple[str, Fraction | int, Fraction | int, str]


def order_rows(plan: Plan) -> tuple[OrderRow, ...]:
    """The order line by line: what, for one bay (0 where it is ordered for the class alone), for the class, unit."""
    shape, stores = plan.task.shape, plan.stores
    bays = shape.bays
    rows: tuple[OrderRow, ...] = (
        *_brick_rows(plan),
        ("Cuts, those for half bats among them", cuts(plan, 1), cuts(plan, bays), "cuts"),
        (f"Bricks to order, {shape.waste} % waste, rounded up once", stores.bay_bricks, stores.class_bricks, "bricks"),
        (
            f"Mortar, wet, in the joints, {shape.waste} % waste",
            half_up(stores.bay_mortar_m3, 3),
            half_up(stores.class_mortar_m3, 3),
            "m³",
        ),
        (f"Cement for a mix of {shape.mix}, bags of 25 kg", 0, stores.cement_bags, "bags"),
        (_lime(shape.mortar, shape.mix), 0, stores.lime_litres, "litres"),
        ("Sand, to the next 25 kg", 0, stores.sand_kg, "kg"),
        (
            "Raking props, each with its board",
            *((PROPS, bays * PROPS) if shape.support == "props" else (0, 0)),
            "props",
        ),
    )
    return tuple(row for row in rows if row[2])


def half_bats(plan: Plan) -> int:
    """Half bats that are cut for a bay's wall and its support; a brick that turns at an end is none."""
    shape, straight = plan.task.shape, sum(brick.half for brick in wall_bricks(plan))
    wall = shape.wall
    return straight + support_halves(wall.bricks, wall.courses, plan.task.brick, shape.support, shape.return_bricks)


def cuts(plan: Plan, bays: int) -> int:
    """Cuts for so many bays: those of their surrounds, and one for every two half bats, rounded up once."""
    return bays * plan.surround.cuts + math.ceil(Fraction(bays * half_bats(plan), 2))


def _brick_rows(plan: Plan) -> tuple[OrderRow, ...]:
    shape, stores, around = plan.task.shape, plan.stores, plan.surround
    bonded = shape.support in BONDED
    each: tuple[tuple[str, Fraction | int, str], ...] = (
        ("Bricks in the wall around the opening", stores.wall_bricks, "bricks"),
        (f"Bricks in the {shape.support} at both ends", stores.support_bricks, "bricks"),
        (f"  half bats in them{' both' if bonded else ''}, two to a brick", half_bats(plan), "pieces"),
        ("Bricks in the panel", stores.panel_bricks, "bricks"),
        ("Bricks cut for the surround", stores.surround_bricks, "bricks"),
        ("  of which plain half bricks", around.halves, "pieces"),
        ("  of which mitred bats", around.bats, "pieces"),
        ("  of which corner pieces", around.corners, "pieces"),
    )
    return tuple((what, one, shape.bays * one, unit) for what, one, unit in each)


def _lime(mortar: str, mix: str) -> str:
    practice = mortar == "practice"
    return f"Lime for a {'practice ' if practice else ''}mix of {mix}{', lime to sand' if practice else ''}"
