"""Elevation and section of a job, read back: each brick once, and soldiers cut where soldiers are shown."""

from __future__ import annotations

import itertools
from fractions import Fraction

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from courseware.drawings.picture import Label, Stroke, extent
from courseware.jobs.pictures import (
    beside,
    elevation,
    section,
    wall_bricks,
)
from courseware.jobs.plan import plan_of
from courseware.workflows.jobs import find_job
from tests.jobs.a_panel import JOBS


def test_every_brick_of_the_wall_that_is_drawn_is_a_brick_that_is_ordered(plan) -> None:
    laid = wall_bricks(plan)
    assert sum(Fraction(1, 2) if brick.half else 1 for brick in laid) == plan.stores.wall_bricks


def test_wall_surround_and_panel_lie_a_joint_apart_and_fill_the_elevation(plan) -> None:
    left, foot = float(beside(plan)) * 225 - 10, float(plan.foot)
    wall = [box(b.left, b.bottom, b.right, b.top) for b in wall_bricks(plan)]
    pieces = [Polygon([(left + float(x), foot + float(y)) for x, y in piece.outline]) for piece in plan.surround.pieces]
    x, y = left + float(plan.width - plan.weave.width) / 2, foot + float(plan.clear - plan.weave.height) / 2
    panel = [
        box(x + float(b.left), y + float(b.bottom), x + float(b.right), y + float(b.top)) for b in plan.weave.bricks
    ]
    everything = wall + pieces + panel
    assert unary_union(everything).area == pytest.approx(sum(shape.area for shape in everything), rel=1e-9)
    assert unary_union(wall).distance(unary_union(pieces)) == pytest.approx(10, abs=1e-6)
    assert unary_union(pieces).distance(unary_union(panel)) == pytest.approx(10, abs=1e-6)


def test_perpends_break_joint_in_every_course_of_the_wall(plan) -> None:
    """No upright joint of whole courses stands over another: stretcher bond."""
    rows: dict[float, set[float]] = {}
    for brick in wall_bricks(plan):
        rows.setdefault(brick.bottom, set()).add(round(brick.right, 3))
    courses = [rows[bottom] for bottom in sorted(rows)]
    for lower, upper in itertools.pairwise(courses):
        shared = {x for x in lower & upper if 0 < x < max(lower)}
        reveals = {round(float(beside(plan)) * 225 - 10, 3)}
        assert shared <= reveals


def test_what_is_drawn_of_the_elevation_is_what_is_counted(plan) -> None:
    closed = [
        mark for mark in elevation(plan).body.marks if isinstance(mark, Stroke) and mark.closed and mark.weight == 0.18
    ]
    drawn = sum(len(mark.outlines) for mark in closed)
    fine = sum(
        len(m.outlines) for m in elevation(plan).body.marks if isinstance(m, Stroke) and m.closed and m.weight == 0.13
    )
    counted = len(wall_bricks(plan)) + len(plan.surround.pieces) + plan.weave.stretchers + plan.weave.soldiers
    assert drawn + fine == counted


def test_heights_of_the_elevation_stand_apart(plan) -> None:
    """A short height has its figure beyond its end: the one above it has a line of its own, so neither is misread."""
    labels = {mark.text: mark.at for mark in elevation(plan).marks if isinstance(mark, Label) and mark.turn == 90}
    assert len(labels) == 2
    (low, _), (high, _) = sorted(labels.values())
    assert high - low >= 9  # a lane: a box to write in is 7.5 high


@pytest.mark.parametrize("job", JOBS)
def test_no_word_of_the_section_stands_on_what_is_cut(job) -> None:
    marks = section(plan_of(find_job(job))).body.marks
    cut = [Polygon(o) for m in marks if isinstance(m, Stroke) and m.closed for o in m.outlines if len(o) > 2]
    for word in (mark for mark in marks if isinstance(mark, Label)):
        letters = Polygon(extent(word)).buffer(-0.3)
        assert not any(letters.intersects(piece) for piece in cut), word.text


def heights(outline) -> float:
    return max(y for _, y in outline) - min(y for _, y in outline)


@pytest.mark.parametrize("job", JOBS)
def test_the_section_cuts_soldiers_and_flat_bricks_in_turn_bay_by_bay(job) -> None:
    plan = plan_of(find_job(job))
    brick = plan.task.brick
    [panel] = [m for m in section(plan).body.marks if isinstance(m, Stroke) and m.closed and m.fill is None]
    n = float(brick.width) / max(abs(a[0] - b[0]) for a, b in itertools.pairwise(panel.outlines[0]))
    up = sorted(panel.outlines, key=lambda outline: -max(y for _, y in outline))
    sizes = ["soldier" if abs(heights(o) * n - float(brick.length)) < 0.1 else "flat" for o in up]
    for size, outline in zip(sizes, up, strict=True):
        assert heights(outline) * n == pytest.approx(float(brick.length if size == "soldier" else brick.height))
    bays = [list(run) for _, run in itertools.groupby(sizes)]
    starts = plan.task.shape.starts
    assert bays[0][0] == ("soldier" if starts == "soldier" else "flat")
    assert {len(bay) for bay in bays if bay[0] == "flat"} == {3}
    assert {len(bay) for bay in bays if bay[0] == "soldier"} == {1}
    assert len(bays) == plan.surround.panel_courses // 3
    tops = [(min(y for _, y in o), max(y for _, y in o)) for o in up]
    for (under, _), (_, over) in itertools.pairwise(tops):
        assert under - over == pytest.approx(float(brick.bed) / n, abs=0.001)
