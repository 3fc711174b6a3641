"""Practical tasks: the figures, the drawings brick by brick, the sheets at true size, and what cannot be built."""

from __future__ import annotations

import itertools
import math
import re
from fractions import Fraction
from io import BytesIO
from pathlib import Path

import openpyxl
import page
import pypdfium2
import pytest
from click.testing import CliRunner
from pikepdf import Pdf
from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union

from courseware.banks import BankFaulty, read_bank, solve
from courseware.banks.drawing_kinds import DRAWING_KINDS, drawn_figures
from courseware.banks.solve import scope_of
from courseware.banks.space import walk
from courseware.cli import main
from courseware.drawings.picture import Label, Stroke
from courseware.drawings.tiles import TILE
from courseware.files.bank_files import shipped_folder
from courseware.jobs.from_above import course_from_above, turned
from courseware.jobs.order import half_bats, order_rows
from courseware.jobs.pictures import (
    bats_at_true_size,
    beside,
    corner_at_true_size,
    elevation,
    per_strip,
    rod_strips,
    wall_bricks,
)
from courseware.jobs.plan import allowed, plan_of
from courseware.jobs.plan_view import plan_view
from courseware.jobs.sheets import job_sheets
from courseware.jobs.support import days_of, support_bricks
from courseware.jobs.task import AllowedShape, read_profiles, read_task
from courseware.jobs.workbooks import observation_workbook
from courseware.printing.render import job_pdf
from courseware.trade import GERMAN_NF, UK_METRIC, US_MODULAR
from courseware.workflows.jobs import find_job, shipped_jobs, worksheet

JOBS = list(shipped_jobs())
PROFILES = read_profiles((shipped_jobs()[JOBS[0]].parent / "tolerances.yaml").read_bytes(), "tolerances.yaml")
JOB = """\
job: A panel
hours: 6
bays: 3
opening: {bricks: 4, courses: 15}
wall: {bricks: 8, courses: 24, below: 4}
corner: mitred
starts: stretcher
projects: 25
eye_height: 1500
ahead: 3
waste: 10
mix: "1:5"
tolerances: NHBC Standards 2011
support: returns
mortar: cement
"""


@pytest.fixture(params=JOBS)
def plan(request):
    return plan_of(find_job(request.param))


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
        mark for mark in elevation(plan).marks if isinstance(mark, Stroke) and mark.closed and mark.weight == 0.18
    ]
    drawn = sum(len(mark.outlines) for mark in closed)
    fine = sum(
        len(m.outlines) for m in elevation(plan).marks if isinstance(m, Stroke) and m.closed and m.weight == 0.12
    )
    counted = len(wall_bricks(plan)) + len(plan.surround.pieces) + plan.weave.stretchers + plan.weave.soldiers
    assert drawn + fine == counted


def test_an_order_worked_out_by_hand() -> None:
    """Of the job above, without the program; mortar 0.0176 m³ to a square metre of half-brick wall (from its joints).

    Wall 8 × 24 − 4 × 15 = 132; returns 2 × 24 × 1½ = 72; panel 3 × 12 = 36; surround 50 pieces (38 halves, 8 bats, 4
    corners), two to a brick, 25: in all 265. With 10 % waste 291.5, so 292 for a bay; for three bays 874.5, so 875.
    Wall 1.79 m × 1.80 m = 3.222 m², returns 72 × 0.225 × 0.075 = 1.215 m²: 4.437 × 0.0176 × 1.1 = 0.0859 m³ a bay.
    Class: 0.2577 m³ wet, × 1.33 dry 0.3427 m³, a sixth of it cement: 0.0571 × 1440 = 82 kg, 4 bags; sand 0.2856 × 1920
    = 548 kg, so 550.
    """
    stores = plan_of(read_task(JOB.encode(), "job.yaml", PROFILES)).stores
    assert (stores.wall_bricks, stores.support_bricks, stores.panel_bricks, stores.surround_bricks) == (132, 72, 36, 25)
    assert (stores.bay_bricks, stores.class_bricks) == (292, 875)
    assert float(stores.bay_mortar_m3) == pytest.approx(0.0859, abs=0.0003)
    assert float(stores.class_mortar_m3) == pytest.approx(0.2577, abs=0.0009)
    assert (stores.cement_bags, stores.lime_litres, stores.sand_kg) == (4, 0, 550)


def test_the_setting_out_worked_out_by_hand() -> None:
    """Of the job above: 4 bricks by 15 courses on four courses of wall, a brick's width of surround and a joint all round.

    4 × 225 + 10 = 910; 15 × 75 + 10 = 1135; √(910² + 1135²) = √2116325 = 1454.76; 4 × 75 = 300; 19 × 75 = 1425.
    Panel: 910 − 2 × (10 + 102.5 + 10) = 665 and 1135 − 245 = 890. Bottom run: 300 + 10 + 102.5 = 412.5; top run: a joint
    below the head, 300 + 1135 − 10 = 1425. Both lie below the eye at 1500: the under-side arris, by the outline rule.
    """
    assert job().figures == (
        ("Top of the wall below the opening, above the floor", "300 mm"),
        ("Width of the opening, brick to brick", "910 mm"),
        ("Clear height, brick below to brick above", "1135 mm"),
        ("Both diagonals of the opening", "1454.8 mm"),
        ("Top of course 19 of the wall, at the head of the opening", "1425 mm"),
        ("Joint from reveal to surround, and from surround to panel", "10 mm"),
        ("Top of the bottom run, above the floor", "412.5 mm"),
        ("Level the bottom run through on its", "under-side arris"),
        ("Width of the panel, brick edge to brick edge", "665 mm"),
        ("Height of the panel, brick edge to brick edge", "890 mm"),
        ("Top of the top run, above the floor", "1425 mm"),
        ("Level the top run through on its", "under-side arris"),
        ("The surround stands out from the face by", "25 mm"),
    )


def test_what_is_measured_worked_out_by_hand() -> None:
    """Of the job above, of bricks that vary by 1 mm: sizes within 5 mm; level 8 mm in 5 m (NHBC 2011), pro rata.

    8 × 1455 ÷ 5000 is 2.3 but a diagonal is a size; 8 × 1135 ÷ 5000 = 1.8; 8 × 665 ÷ 5000 = 1.1; 8 × 910 ÷ 5000 = 1.5,
    which is 1.456. Joints vary by 3 mm when bricks are spread.
    """
    plan = job(("hours: 6", "hours: 6\nbricks_vary: 1"))
    assert [(line.what, line.target, line.allowed) for line in plan.lines] == [
        ("Width of the opening", 910, 5),
        ("Clear height of the opening", 1135, 5),
        ("Diagonal, lower left to upper right", 1455, 5),
        ("Diagonal, lower right to upper left", 1455, 5),
        ("Panel, width", 665, 5),
        ("Panel, height", 890, 5),
        ("Projection of the surround", 25, 5),
        ("Gauge, four courses of the wall", 300, 3),
        ("Widest perpend of the panel", 10, 3),
        ("Narrowest perpend of the panel", 10, 3),
        ("Difference of the two diagonals", 0, 5),
        ("Left reveal, out of plumb over its height", 0, 2),
        ("Right reveal, out of plumb over its height", 0, 2),
        ("Face of the panel, out of true under a straight-edge", 0, 1),
        ("Bottom run, out of level over its length", 0, 1),
        ("Top run, out of level over its length", 0, 1),
    ]


@pytest.mark.parametrize(
    ("day_height", "ends"),
    [(1500, (20, 24)), (1800, (24,)), (1799, (23, 24)), (900, (12, 24)), (75, tuple(range(1, 25)))],
)
def test_a_days_work_ends_on_a_course(day_height: int, ends: tuple[int, ...]) -> None:
    """Of 24 courses of 75 mm."""
    assert job(("hours: 6", f"hours: 6\nday_height: {day_height}")).days == ends


def test_a_days_work_is_never_less_than_a_course() -> None:
    assert days_of(3, Fraction(74), UK_METRIC) == (1, 2, 3)


def test_what_a_job_does_not_say_is_as_the_manual_says() -> None:
    """Common practice, no source: 1500 mm a day, 725 mm without support."""
    shape = job().task.shape
    assert (shape.day_height, shape.free_height) == (1500, 725)


def test_practice_mortar_has_lime_for_cement() -> None:
    """The sixth part of 0.3427 m³ is 57 litres; bricks in it are used again, those in cement mortar are not."""
    shown = {}
    for mortar in ("cement", "practice"):
        task = read_task(JOB.replace("mortar: cement", f"mortar: {mortar}").encode(), "job.yaml", PROFILES)
        plan = plan_of(task)
        shown[mortar] = str(next(s for s in job_sheets(plan, None, "") if s.file == "stores-order"))
    assert plan.stores.cement_bags == 0
    assert 57 <= plan.stores.lime_litres <= 58
    assert "Lime" in shown["practice"]
    assert "cleaned and stacked" in shown["practice"]
    assert "Cement" in shown["cement"]
    assert "not laid again" in shown["cement"]


def job(*changes: tuple[str, str]):
    """The plan of the job above with some of its lines changed."""
    text = JOB
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return plan_of(read_task(text.encode(), "job.yaml", PROFILES))


def test_one_bay_is_ordered_with_its_own_waste_and_its_half_bats_are_cuts() -> None:
    """Half bats of the job above by hand, 24 courses, of which 15 beside the opening, two bricks to each side of it.

    Odd courses of the straight wall start on a whole brick and have none. The 12 others have one at each end; the seven
    of them beside the opening have two more at its reveals: 24 + 14 = 38. A return of two bricks takes the 24 at the
    ends away, since its whole brick turns there, and ends on a half bat in each of the other 12 courses, at both ends:
    24 more, 38 in all, so 19 bricks are cut for them. The surround: 25 bricks halved, 8 mitres, 4 corners trimmed: 37.
    """
    lines = {what: (one, all_bays) for what, one, all_bays, _ in order_rows(job())}
    assert lines["Bricks to order, 10 % waste, rounded up once"] == (292, 875)
    assert lines["  half bats in them both, two to a brick"] == (38, 114)
    assert lines["Cuts, those for half bats among them"] == (37 + 19, 3 * (37 + 19))


@pytest.mark.parametrize(
    ("support", "halves"),
    [
        # 25 courses: one more that starts on a whole brick. A straight wall has no half bat in it, a return two, a pier none.
        ("returns", 40), ("piers", 38), ("props", 38),
    ],
)  # fmt: skip
def test_half_bats_go_by_what_turns_at_the_ends(support: str, halves: int) -> None:
    plan = job(("courses: 24", "courses: 25"), ("support: returns", f"support: {support}"))
    assert half_bats(plan) == halves


def test_cuts_for_the_class_are_rounded_up_once() -> None:
    """In a wall of 8½ bricks each of 25 courses has a half bat at one end, and two more at the reveals.

    Beside the opening lie 2 bricks to the left and 2½ to the right: in odd courses the right part ends on a half bat, in
    the others both parts have halves. What matters here: an odd number for a bay is not rounded up for each bay.
    """
    plan = job(
        ("wall: {bricks: 8, courses: 24", "wall: {bricks: 8.5, courses: 25"), ("support: returns", "support: props")
    )
    halves, of_surround = half_bats(plan), plan.surround.cuts
    assert halves % 2 == 1
    cut = {what: (one, all_bays) for what, one, all_bays, _ in order_rows(plan)}["Cuts, those for half bats among them"]
    assert cut == (of_surround + (halves + 1) // 2, 3 * of_surround + (3 * halves + 1) // 2)
    assert cut[1] < 3 * cut[0]


def _boxes(course) -> list:
    return [box(float(b.left), float(b.front), float(b.right), float(b.back)) for b in course]


@pytest.mark.parametrize("support", ["returns", "piers"])
@pytest.mark.parametrize("bricks", [Fraction(5), Fraction(13, 2), Fraction(8)])
@pytest.mark.parametrize("brick", [UK_METRIC, GERMAN_NF, US_MODULAR])
def test_a_support_is_bonded_with_the_wall(support: str, bricks: Fraction, brick) -> None:
    """Of two courses from above: bricks a joint apart, as many as are ordered, and no joint over another at the ends."""
    courses = [course_from_above(bricks, row, brick, support) for row in (0, 1)]
    for course in courses:
        boxes = _boxes(course)
        assert unary_union(boxes).area == pytest.approx(sum(one.area for one in boxes))
        near = [a.distance(b) for a, b in itertools.combinations(boxes, 2)]
        assert min(near) == pytest.approx(float(brick.perpend))
        laid = sum(Fraction(1, 2) if one.half else Fraction(1) for one in course)
        assert laid == bricks + support_bricks(support, 1)
    joint = float(brick.perpend)
    outlines = [unary_union(_boxes(course)).buffer(joint / 2, join_style="mitre") for course in courses]
    assert outlines[0].symmetric_difference(outlines[1]).area == pytest.approx(0, abs=1)
    joints = [shape.difference(unary_union(_boxes(course))) for shape, course in zip(outlines, courses, strict=True)]
    over = joints[0].intersection(joints[1]).intersection(outlines[0].buffer(-joint))
    # Joints cross. Inside a pier alone, where wall and pier meet, one lies on another for half a brick beside the header.
    longest = joint if support == "returns" else float(brick.half)
    assert all(max(x1 - x0, y1 - y0) <= longest + 0.01 for x0, y0, x1, y1 in (one.bounds for one in _parts(over)))


def _parts(shape) -> list:
    return [one for one in getattr(shape, "geoms", [shape]) if not one.is_empty]


@pytest.mark.parametrize(
    ("long", "bricks", "deep"),
    # Half a brick a course is the corner's: 24 courses, both ends. The depth is that of a pier (Sheet 9, Table 1, CO-).
    [("1", 24, "215"), ("1.5", 48, "327.5"), ("2.5", 96, "552.5"), ("6", 264, "1340")],
)
def test_a_centre_sets_how_long_returns_are(long: str, bricks: int, deep: str) -> None:
    plan = job(("support: returns", f"support: returns\nreturn_bricks: {long}"))
    assert plan.stores.support_bricks == bricks
    assert deep in {mark.text for mark in plan_view(plan).marks if isinstance(mark, Label)}
    sheet = next(str(sheet) for sheet in job_sheets(plan, None, "") if sheet.file == "job-sheet")
    assert f"a return of {long} brick{'' if long == '1' else 's'} at each end" in sheet


@pytest.mark.parametrize("long", ["0.5", "1.25", "6.5"])
def test_a_return_that_cannot_be_is_told_with_its_line(long: str) -> None:
    text = JOB + f"return_bricks: {long}\n"
    with pytest.raises(BankFaulty, match=r"job.yaml:16:16: .*; expected 1 to 6 bricks, in halves"):
        read_task(text.encode(), "job.yaml", PROFILES)


def test_heights_of_the_elevation_stand_apart(plan) -> None:
    """A short height has its figure beyond its end: the one above it has a line of its own, so neither is misread."""
    labels = {mark.text: mark.at for mark in elevation(plan).marks if isinstance(mark, Label) and mark.turn == 90}
    assert len(labels) == 2
    (low, _), (high, _) = sorted(labels.values())
    assert high - low >= 10


def test_ends_turn_where_a_course_would_end_on_half_a_brick() -> None:
    assert [turned(Fraction(8), row) for row in (0, 1, 2)] == [(False, False), (True, True), (False, False)]
    assert [turned(Fraction(17, 2), row) for row in (0, 1)] == [(False, True), (True, False)]


@pytest.mark.parametrize(
    ("support", "wholes", "halves", "deep"),
    [
        # Wall of 8: first course 8 wholes, second 7 between two ends that turn. By hand, both ends.
        (
            "returns",
            (8 + 2) + (7 + 4),
            2,
            440,
        ),  # first: 1½ behind the wall at each end; second: 2 from the face: 440 deep
        ("piers", (8 + 2) + (7 + 2), 2, 215),  # first: a stretcher behind; second: a header and a half bat behind
        ("props", 8, 0, 102.5),  # the first alone: no support is bonded in
    ],
)
def test_the_wall_from_above_shows_its_support(support, wholes, halves, deep) -> None:
    """The picture is read back: bricks counted by their grey, the depth measured, and written beside it."""
    marks = plan_view(job(("support: returns", f"support: {support}"))).marks
    counted = {0.92: 0, 0.8: 0, 1.0: 0}
    for mark in marks:
        if isinstance(mark, Stroke) and mark.closed and mark.fill is not None:
            counted[mark.fill] += len(mark.outlines)
    assert counted == {0.92: wholes, 0.8: halves, 1.0: 4 if support == "props" else 0}
    words = {m.text for m in marks if isinstance(m, Label)}
    courses = {"course 1"} if support == "props" else {"course 1 and every other", "course 2 and every other"}
    assert {"1790", str(deep), "face", *courses} <= words


def test_props_stand_on_their_boards_square_to_the_wall() -> None:
    """Read back: each dashed line starts on a board's outer edge and runs away from the wall; each board lies on it."""
    plan = job(("support: returns", "support: props"))
    marks = [mark for mark in plan_view(plan).marks if isinstance(mark, Stroke)]
    [leans] = [mark.outlines for mark in marks if mark.dash]
    [boards] = [[Polygon(outline) for outline in mark.outlines] for mark in marks if mark.closed and mark.fill == 1.0]
    wall = unary_union([Polygon(o) for m in marks if m.closed and m.fill in (0.92, 0.8) for o in m.outlines])
    assert len(leans) == len(boards) == 4
    for (foot, head), board in zip(leans, boards, strict=True):
        assert board.distance(wall) == pytest.approx(0, abs=1e-6)
        assert board.intersection(wall).area == pytest.approx(0, abs=1e-6)
        assert board.distance(Point(foot)) == pytest.approx(0, abs=1e-6)
        assert foot[0] == pytest.approx(head[0])
        assert wall.distance(Point(head)) > wall.distance(Point(foot)) > 0
    left, _, right, _ = wall.bounds
    assert min(board.bounds[0] for board in boards) == pytest.approx(left)
    assert max(board.bounds[2] for board in boards) == pytest.approx(right)


@pytest.mark.parametrize("name", JOBS)
def test_every_job_sheet_draws_its_wall_from_above(name: str) -> None:
    plan = plan_of(find_job(name))
    sheet = next(sheet for sheet in job_sheets(plan, None, "2026-01-05") if sheet.file == "job-sheet")
    [drawn] = [block.picture for block in sheet.blocks if block.heading == "The wall from above"]
    assert drawn == plan_view(plan)
    says = {
        "returns": "the returns at both ends",
        "piers": "the piers at both ends",
        "props": "a prop and its board to each side",
    }
    assert says[plan.task.shape.support] in drawn.alt


def test_props_are_in_the_order() -> None:
    """One to each side of both ends, four to a bay."""
    rows = {what: (one, all_bays) for what, one, all_bays, _ in order_rows(job(("support: returns", "support: props")))}
    assert rows["Raking props, each with its board"] == (4, 12)
    assert not any("props" in what.lower() for what, *_ in order_rows(job()))


def test_a_mix_with_lime_has_its_lime_in_the_order() -> None:
    """1:1:6 by hand: of the 0.3427 m³ dry an eighth is lime, 42.8 litres, and an eighth cement, 61.7 kg: 3 bags.

    Sand six eighths, 0.2570 × 1920 = 493 kg, so 500.
    """
    stores = job(('mix: "1:5"', 'mix: "1:1:6"')).stores
    assert (stores.cement_bags, stores.lime_litres, stores.sand_kg) == (3, 43, 500)


def test_frogs_take_mortar() -> None:
    """By hand: 233 brick places in wall and returns (4.437 m² at 59.26), less 10 % of 0.215 × 0.1025 × 0.065 m³ each.

    4.437 / 0.016875 = 262.9 bricks × 0.001432 = 0.3766 m³ of brick; a tenth 0.0377, with 10 % waste 0.0414 more a bay.
    """
    more = job(("waste: 10", "waste: 10\nfrog: 10")).stores.bay_mortar_m3 - job().stores.bay_mortar_m3
    assert float(more) == pytest.approx(0.0414, abs=0.0002)


def test_one_of_a_thing_is_written_as_one() -> None:
    plan = job(("bays: 3", "bays: 1"), ("ahead: 3", "ahead: 1"), ("hours: 6", "hours: 1"))
    words = " ".join(str(sheet) for sheet in job_sheets(plan, None, "2026-01-05"))
    assert "never more than 1 course above" in words
    assert "1 hour." in words
    assert "'1 bay'" in words
    for wrong in ("1 courses", "1 hours", "'1 bays'", "1 bays"):
        assert not re.search(rf"(?<![0-9.]){wrong}", words)


@pytest.mark.parametrize(("format", "apart", "top"), [("UK_METRIC", 4, "300"), ("GERMAN_NF", 3, "250")])
def test_the_rod_counts_as_the_trade_does(format: str, apart: int, top: str) -> None:
    """Four courses to 300 mm: a livery company's glossary. Three of German NF to 250 mm: DIN 4172."""
    plan = job(("job: A panel", f"job: A panel\nformat: {format}"))
    sheet = next(sheet for sheet in job_sheets(plan, None, "") if sheet.file == "job-sheet")
    rod = next(block.table for block in sheet.blocks if block.heading.startswith("Gauge rod"))
    tops = dict(pair for row in rod.rows for pair in zip(row[::2], row[1::2], strict=True))
    assert tops[str(apart)] == top
    gauge = next(line for line in plan.lines if line.what.startswith("Gauge, "))
    assert (gauge.what, str(gauge.target)) == (f"Gauge, {'four' if apart == 4 else 'three'} courses of the wall", top)
    assert {str(n) for n in range(apart, 25, apart)} <= set(tops)


@pytest.mark.parametrize(("measured", "mm"), [(None, 3), ("2", 2), ("4", 4), ("6", 6)])
def test_deviations_go_by_the_bricks_that_were_measured(measured, mm) -> None:
    """NHBC 2011 allows 910 mm of level 1 mm; no finer than BS EN 771-1, T2 at 102 mm, or than ten bricks that were measured."""
    plan = job() if measured is None else job(("hours: 6", f"hours: 6\nbricks_vary: {measured}"))
    lines = {line.what: line.allowed for line in plan.lines}
    assert lines["Bottom run, out of level over its length"] == mm
    assert lines["Width of the opening"] == max(5, mm)
    assert lines["Widest perpend of the panel"] == max(3, mm)
    sheet = next(str(sheet) for sheet in job_sheets(plan, None, "") if sheet.file == "observation-sheet")
    assert f"None is finer than {mm} mm, as bricks vary" in sheet
    assert ("ten of these bricks" in sheet) == (measured is not None)


@pytest.mark.parametrize("pro_rata", ["true", "false"])
@pytest.mark.parametrize("length", [99, 100, 101])
def test_no_profile_is_finer_than_bricks_vary(pro_rata, length) -> None:
    shape = AllowedShape(mm="1", over="100", pro_rata=pro_rata)
    assert allowed(shape, Fraction(length)) == 3


@pytest.mark.parametrize(
    ("kind", "courses", "bricks"),
    [("returns", 24, 72), ("piers", 24, 48), ("props", 24, 0), ("", 24, 0), ("returns", 1, 3)],
)
def test_the_bricks_of_a_support(kind: str, courses: int, bricks: int) -> None:
    """Two bricks a course less half of the corner's, twice; a brick a course, twice; none. Geometry of stretcher bond."""
    assert support_bricks(kind, courses) == bricks


@pytest.mark.parametrize(
    ("day_height", "ends"),
    [(1200, (16, 24)), (1199, (15, 24)), (1201, (16, 24)), (1800, (24,)), (1799, (23, 24)), (75, tuple(range(1, 25)))],
)
def test_no_day_goes_up_by_more_than_its_height(day_height: int, ends: tuple[int, ...]) -> None:
    assert days_of(24, Fraction(day_height), UK_METRIC) == ends


@pytest.mark.parametrize(("free", "support", "refused"), [(1800, "", False), (1799, "", True), (1799, "props", False)])
def test_a_wall_that_would_stand_free_above_the_centres_limit_needs_support(
    free: int, support: str, refused: bool
) -> None:
    """24 courses are 1800 mm."""
    text = JOB.replace("support: returns\n", f"support: {support}\n" if support else "") + f"free_height: {free}\n"
    if not refused:
        assert read_task(text.encode(), "job.yaml", PROFILES).shape.free_height == free
        return
    with pytest.raises(BankFaulty, match=r"would stand free and can go over.*`support: returns`, `piers` or `props`"):
        read_task(text.encode(), "job.yaml", PROFILES)


@pytest.mark.parametrize("name", JOBS)
def test_every_shipped_job_is_safe_to_build(name: str) -> None:
    task = find_job(name)
    sheets = {sheet.file: str(sheet) for sheet in job_sheets(plan_of(task), None, "2026-01-05")}
    assert task.shape.support
    assert "Support: " in sheets["job-sheet"]
    assert "In a day the wall goes up 1200 mm at most, which is 16 courses" in sheets["job-sheet"]
    assert "a green wall can go over" in sheets["risk-prompts"]
    assert f"{task.shape.support} as drawn; no more than 1200 mm up in a day" in sheets["risk-prompts"]
    assert ("a prop knocked away" in sheets["risk-prompts"]) == (task.shape.support == "props")
    assert "5 January 2026" in sheets["job-sheet"]


def test_the_course_at_the_head_of_the_opening_is_the_same_course_on_the_rod(plan) -> None:
    """Both tables count courses from the floor."""
    of_wall = plan.task.shape.wall.below + plan.task.shape.opening.courses
    figures = dict(plan.figures)
    head = figures[f"Top of course {of_wall} of the wall, at the head of the opening"]
    sheet = next(sheet for sheet in job_sheets(plan, None, "2026-01-05") if sheet.file == "job-sheet")
    rod = next(block.table for block in sheet.blocks if block.heading.startswith("Gauge rod"))
    tops = dict(pair for row in rod.rows for pair in zip(row[::2], row[1::2], strict=True))
    assert f"{tops[str(of_wall)]} mm" == head
    assert tops["4"] == "300"  # four courses to 300 mm: a livery company's glossary


def test_no_deviation_is_finer_than_bricks_vary() -> None:
    """BS EN 771-1: a size of 102 mm may vary by 3 mm in category T2."""
    for name in JOBS:
        plan = plan_of(find_job(name))
        assert min(line.allowed for line in plan.lines) >= 3
        what = " ".join(line.what for line in plan.lines)
        for measured in ("plumb", "four courses", "straight-edge", "perpend", "Difference of the two diagonals"):
            assert measured in what


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("hours: 6", "hourz: 6", "2:1: the key `hourz` is not known"),
        ("job: A panel", "jobs: A panel", "1:1: the key `jobs` is not known"),
        ("corner: mitred\n", "", "the key `corner` is missing"),
        ("{bricks: 4, courses: 15}", "{bricks: four, courses: 15}", "`bricks` is wrong"),
        ("{bricks: 4, courses: 15}", "4 by 15", "`opening` is"),
        ("tolerances: NHBC Standards 2011\n", "", "the key `tolerances` is missing"),
        ('mix: "1:5"\n', "", "the key `mix` is missing"),
    ],
)
def test_a_wrong_key_does_not_hide_later_faults(old: str, new: str, told: str) -> None:
    text = JOB.replace(old, new, 1).replace("mortar: cement", "mortar: concrete").replace("waste: 10", "waste: 7.5")
    with pytest.raises(BankFaulty) as faulty:
        read_task(text.encode(), "job.yaml", PROFILES)
    said = [str(fault) for fault in faulty.value.faults]
    assert any(told in one for one in said), said
    assert any("whole percent, such as 10" in one for one in said)
    assert any("there is no mortar `concrete`" in one for one in said)
    assert len(said) == 3, said


def test_every_figure_out_of_reason_is_told_at_its_own_place() -> None:
    text = JOB.replace("bays: 3", "bays: 41").replace("ahead: 3", "ahead: 13").replace("waste: 10", "waste: 51")
    with pytest.raises(BankFaulty) as faulty:
        read_task((text + "frog: 51\nbricks_vary: 21\n").encode(), "job.yaml", PROFILES)
    assert [str(fault).split(":", 3)[1:] for fault in faulty.value.faults] == [
        ["3", "7", " `bays` is out of all reason; expected 1 to 40"],
        ["10", "8", " `ahead` is out of all reason; expected 1 to 12"],
        ["11", "8", " `waste` is out of all reason; expected 0 to 50"],
        ["16", "7", " `frog` is out of all reason; expected 0 to 50"],
        ["17", "14", " `bricks_vary` is out of all reason; expected above 0, at most 20 mm"],
    ]
    at_most = JOB.replace("bays: 3", "bays: 40").replace("ahead: 3", "ahead: 12").replace("waste: 10", "waste: 50")
    assert read_task((at_most + "frog: 50\n").encode(), "job.yaml", PROFILES).shape.bays == 40


@pytest.mark.parametrize(
    ("mortar", "mix", "message"),
    [
        ("cement", "rubbish", "is not a mix: write cement to sand as 1:5"),
        ("cement", "0:5", "is not a mix"),
        ("practice", "1:1:6", "practice mortar is lime and sand alone"),
    ],
)
def test_a_mix_that_cannot_be_mixed_is_told_with_its_line(mortar: str, mix: str, message: str) -> None:
    text = JOB.replace('mix: "1:5"', f'mix: "{mix}"').replace("mortar: cement", f"mortar: {mortar}")
    with pytest.raises(BankFaulty, match=message) as faulty:
        read_task(text.encode(), "job.yaml", PROFILES)
    assert str(faulty.value).startswith("job.yaml:12:6: ")


def test_the_bats_are_drawn_at_true_size(plan) -> None:
    outlines = [m.outlines[0] for m in bats_at_true_size(plan).marks if isinstance(m, Stroke) and m.closed]
    assert len(outlines) == 2
    for outline in outlines:
        xs, ys = [x for x, _ in outline], [y for _, y in outline]
        assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((65, 102.5), abs=1e-6)


def test_the_strips_of_the_rod_mark_every_course_at_true_size(plan) -> None:
    marks = 0
    for picture in rod_strips(plan):
        for mark in picture.marks:
            if isinstance(mark, Stroke) and mark.weight == 0.4:
                marks += 1
        strips = [m.outlines[0] for m in picture.marks if isinstance(m, Stroke) and m.closed]
        assert all(max(y for _, y in strip) - min(y for _, y in strip) == pytest.approx(225) for strip in strips)
    courses = plan.task.shape.wall.courses
    assert marks == courses + math.ceil(courses / 3)  # each strip marks its own foot as well


@pytest.mark.parametrize("name", JOBS)
def test_every_sheet_conforms_and_prints_the_same_bytes(name) -> None:
    plan = plan_of(find_job(name))
    for sheet in job_sheets(plan, None, "2026-01-05"):
        pdf = job_pdf(sheet)
        report = page.validate_pdf_bytes(pdf, profile="ua1")
        assert report.is_compliant, (sheet.file, [failure.message for failure in report.failures])
        assert job_pdf(sheet) == pdf


@pytest.mark.parametrize(
    ("format", "each"),
    # A strip of at most 226 mm: UK 3 × 75 = 225; German NF 3 × 83.3 = 250 is too long; US modular 3 × 67.7 = 203.
    [("UK_METRIC", 3), ("GERMAN_NF", 2), ("US_MODULAR", 3)],
)
def test_every_strip_of_the_rod_stands_on_the_page_of_its_heading(format: str, each: int) -> None:
    plan = job(("job: A panel", f"job: A panel\nformat: {format}"))
    assert per_strip(plan.task.brick) == each
    sheet = next(sheet for sheet in job_sheets(plan, None, "") if sheet.file == "templates")
    with Pdf.open(BytesIO(job_pdf(sheet))) as opened:
        assert len(opened.pages) == len(sheet.blocks)
    pages = rod_strips(plan)
    strips = sum(len(m.outlines) for p in pages for m in p.marks if isinstance(m, Stroke) and m.closed)
    assert strips == math.ceil(24 / each)
    numbers = [m.text for p in pages for m in p.marks if isinstance(m, Label) and m.bold]
    assert numbers == [str(n) for n in range(1, 25)]


def test_bats_are_cut_as_many_of_each_hand() -> None:
    """A mitred corner has one of each hand, four corners to a bay."""
    assert "Cut 4 of each hand for a bay." in str(next(s for s in job_sheets(job(), None, "") if s.file == "templates"))


def test_a_template_page_has_a_100_mm_line_on_both_axes() -> None:
    plan = plan_of(find_job(JOBS[-1]))
    sheet = next(sheet for sheet in job_sheets(plan, None, "2026-01-05") if sheet.file == "templates")
    for block in sheet.blocks:
        runs = [run for m in block.picture.marks if isinstance(m, Stroke) for run in m.outlines if len(run) == 2]
        assert any(abs(b[0] - a[0]) == pytest.approx(100) and a[1] == b[1] for a, b in runs)
        assert any(abs(b[1] - a[1]) == pytest.approx(100) and a[0] == b[0] for a, b in runs)
    with Pdf.open(BytesIO(job_pdf(sheet))) as opened:
        assert str(opened.Root.ViewerPreferences.PrintScaling) == "/None"
        assert len(opened.pages) == len(sheet.blocks)


def test_the_bat_measures_right_on_a_picture_of_the_page_at_300_dpi() -> None:
    plan = plan_of(find_job("porch-panel"))
    sheet = next(sheet for sheet in job_sheets(plan, None, "2026-01-05") if sheet.file == "templates")
    picture = pypdfium2.PdfDocument(job_pdf(sheet))[0].render(scale=300 / 72).to_pil().convert("L")
    longest: list[int] = []
    for y in range(picture.height):
        run = 0
        for dark in (pixel < 128 for pixel in picture.crop((0, y, picture.width, y + 1)).get_flattened_data()):
            run = run + 1 if dark else 0
            longest.append(run)
    lengths = {length for length in longest if length > 700}
    assert any(abs(length * 25.4 / 300 - 65) < 0.6 for length in lengths)  # the bat's outer end, with its pen
    assert any(abs(length * 25.4 / 300 - 100) < 0.35 for length in lengths)  # the line to check the print by


def test_tiles_join_on_crosses_that_both_of_them_show() -> None:
    plan = plan_of(find_job("porch-panel"))
    sheets = corner_at_true_size(plan)
    assert len(sheets) == 4  # 300 mm either way, on tiles of 160 by 225 that share 10
    wide, high = TILE[0] - 10, TILE[1] - 10
    crosses = [
        next(m for m in tile.marks if isinstance(m, Stroke) and m.weight == 0.2 and not m.closed) for tile in sheets
    ]
    first, beside_it = crosses[0].outlines, crosses[1].outlines
    assert {(round(x - wide, 6), round(y, 6)) for run in first for x, y in run} == {
        (round(x, 6), round(y, 6)) for run in beside_it for x, y in run
    }
    assert high == 215
    assert all(tile.clipped and (tile.width, tile.height) == TILE for tile in sheets)


def test_every_piece_of_the_corner_is_at_true_size_on_its_tiles() -> None:
    plan = plan_of(find_job("porch-panel"))
    pieces = next(
        m for m in corner_at_true_size(plan)[0].marks if isinstance(m, Stroke) and m.closed and m.weight == 0.35
    )
    sizes = {
        tuple(sorted(round(max(p) - min(p), 3) for p in zip(*outline, strict=True))) for outline in pieces.outlines
    }
    assert sizes == {(65.0, 65.0), (65.0, 102.5)}


def test_the_two_runs_of_a_tall_frame_are_levelled_on_different_arrises() -> None:
    """Common practice, no source: the outline rule levels the top arris above the eye line, the underside below it."""
    frame = plan_of(find_job("gable-panel")).frame
    assert (frame.bottom_arris, frame.top_arris) == ("underside", "top")


@pytest.mark.parametrize(
    ("length", "mm"),
    [
        (5000, 8),
        (10000, 8),
        (2500, 4),
        (1876, 3),
        (910, 3),
        (100, 3),
    ],  # NHBC Standards 2011, 1.2-S1: 8 mm in 5 m, pro rata below
)
def test_deviations_are_allowed_pro_rata_where_the_profile_says_so(length, mm) -> None:
    shape = next(p for p in PROFILES if p.name == "NHBC Standards 2011").level
    assert allowed(shape, Fraction(length)) == mm
    assert allowed(AllowedShape(mm="8", over="5000", pro_rata="false"), Fraction(length)) == 8


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "courses: 15",
            "courses: 14",
            "4:1: a basket weave of 11 courses does not close: courses go in threes; nearest: 9 and 12 courses",
        ),
        ("bricks: 4", "bricks: 1", "4:1: an opening of 1 brick by 15 courses leaves no panel"),
        ("projects: 25", "projects: 90", "4:1: a projection of 90 mm a course is too much"),
        ("eye_height: 1500", "eye_height: 412.5", "4:1: the eye line runs along the course itself"),
        ("bricks: 8", "bricks: 4.5", "5:1: the wall is not long enough for the opening, or too long"),
        ("courses: 24", "courses: 19", "5:1: the wall is not high enough for the opening, or too high"),
        (
            "NHBC Standards 2011",
            "NHBC 2011",
            "13:13: no tolerance profile is named `NHBC 2011`; did you mean `NHBC Standards 2011`?",
        ),
        ("job: A panel\n", "job: A panel\nformat: AUSTRALIAN\n", "does not close in Australian"),
        (
            "job: A panel\n",
            "job: A panel\nformat: GERMAN_FN\n",
            "2:9: no brick format is named `GERMAN_FN`; did you mean `GERMAN_NF`?",
        ),
        ("corner: mitred", "corner: round", "use mitred or butted"),
        ("hours: 6", "hours: many", "2:8: `hours` is wrong: it is not a figure"),
        ("bays: 3\n", "", "1:1: the key `bays` is missing"),
        ("bays: 3", "bays: 300", "3:7: `bays` is out of all reason; expected 1 to 40"),
    ],
)
def test_a_job_that_cannot_be_is_told_in_one_line(old, new, message) -> None:
    assert old in JOB
    with pytest.raises(BankFaulty) as told:
        read_task(JOB.replace(old, new, 1).encode(), "job.yaml", PROFILES)
    assert any(message in str(fault) for fault in told.value.faults), str(told.value)


def test_the_command_writes_every_sheet_and_the_order_as_a_workbook(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("mine.yaml").write_text(JOB, encoding="utf-8")
    done = CliRunner().invoke(main, ["job", "mine.yaml", "--date", "2026-01-05"])
    assert done.exit_code == 0, done.output
    folder = Path("output/2026-01-05-a-panel")
    assert sorted(path.name for path in folder.iterdir()) == [
        "job-sheet.pdf", "observation-sheet.pdf", "observation-sheet.xlsx", "risk-prompts.pdf", "stores-order.pdf", "stores-order.xlsx", "templates.pdf",
    ]  # fmt: skip
    sheet = openpyxl.load_workbook(folder / "stores-order.xlsx").worksheets[0]
    lines = {row[0].value: row[2].value for row in sheet.iter_rows(min_row=2)}
    assert lines["Bricks in the wall around the opening"] == 3 * (8 * 24 - 4 * 15)
    assert lines["Bricks in the panel"] == 3 * 3 * 12


def test_the_observation_workbook_says_pass_or_fail_once_a_figure_is_typed() -> None:
    """The formula is read back: nothing typed says nothing, within the deviation passes, beyond it fails."""
    plan = plan_of(find_job("porch-panel"))
    sheet = openpyxl.load_workbook(BytesIO(observation_workbook(plan, "2026-01-05"))).worksheets[0]
    for row, line in enumerate(plan.lines, 2):
        assert (sheet.cell(row, 2).value, sheet.cell(row, 3).value) == (line.target, line.allowed)
        assert sheet.cell(row, 4).value is None
        assert sheet.cell(row, 5).value == f'=IF(ISNUMBER(D{row}),IF(ABS(D{row}-B{row})<=C{row},"pass","fail"),"")'


def test_an_unknown_job_is_told_with_those_that_there_are(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(main, ["job", "none"])
    assert done.exit_code == 2
    assert "shipped jobs are " + ", ".join(JOBS) in done.output


@pytest.mark.parametrize("name", JOBS)
def test_the_worksheet_asks_for_the_figures_of_the_job_itself(name) -> None:
    """The same numbers on paper and in the workshop: the answers are those of the plan."""
    task = find_job(name)
    plan = plan_of(task)
    bank, exercises = worksheet(task)
    assert len(exercises) == len(bank.exercises) - (task.shape.corner == "butted")  # which has no bats
    answers = {}
    for exercise in exercises:
        [given] = list(walk(exercise))
        answers |= scope_of(given, solve(exercise, given))
    assert answers["width"] == plan.width
    assert answers["clear"] == plan.clear
    assert answers["panel_bricks"] == plan.stores.panel_bricks
    assert answers["pieces"] == len(plan.surround.pieces)
    assert answers["cut_bricks"] == plan.stores.surround_bricks
    assert (answers["bottom_top"], answers["top_top"]) == (plan.frame.bottom_height, plan.frame.top_height)


@pytest.mark.parametrize("name", JOBS)
def test_no_exercise_of_the_worksheet_prints_a_size_that_another_asks_for(name) -> None:
    """A worksheet is one paper: a width asked for in one exercise may not stand in another's words or drawing."""
    _, exercises = worksheet(find_job(name))
    for exercise in exercises:
        [given] = list(walk(exercise))
        sizes = [number for part in solve(exercise, given) for number in part.numbers if number.part.unit == "mm"]
        for other in exercises:
            if other is not exercise:
                told = figures_read(other)
                assert not [number.part.name for number in sizes if Fraction(number.answer) in told], other.name


@pytest.mark.parametrize("name", JOBS)
def test_the_order_of_the_worksheet_does_not_print_the_size_of_its_panel(name) -> None:
    _, exercises = worksheet(find_job(name))
    by_name = {exercise.name: exercise for exercise in exercises}
    [given] = list(walk(by_name["panel-of-the-job"]))
    inner = scope_of(given, solve(by_name["panel-of-the-job"], given))
    told = figures_read(by_name["order-of-the-job"])
    assert not {Fraction(inner["inner_bricks"]), Fraction(inner["inner_courses"])} <= told


def figures_read(exercise) -> set[Fraction]:
    """The figures that a learner reads in an exercise: in its words, and as sizes in its drawing."""
    [given] = list(walk(exercise))
    scope = scope_of(given, solve(exercise, given))
    site = {"place": "", "street": "", "client": ""}
    said = " ".join(wording.render(scope, site) for wording in (exercise.pose, *(part.ask for part in exercise.parts)))
    drawn = set()
    if exercise.drawing is not None:
        kind, figures = DRAWING_KINDS[exercise.drawing.kind], drawn_figures(exercise.drawing, scope)
        drawn = {Fraction(kind.dimensions[name](figures, exercise.format)) for name in exercise.drawing.shows}
    return drawn | {Fraction(figure) for figure in re.findall(r"\d+(?:\.\d+)?", said)}


def test_worksheets_come_with_the_job_and_can_be_made_again(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("group-a.csv").write_text("Name\nAmara Okafor\nZoë O'Brien-Smythe\n", encoding="utf-8")
    done = CliRunner().invoke(
        main, ["job", "porch-panel", "--group", "group-a.csv", "--date", "2026-01-05", "--jobs", "1"]
    )
    assert done.exit_code == 0, done.output
    assert "the job is for 8, worksheets are for 2" in done.output
    [file] = Path("output").glob("*/sitting.json")
    assert file.parent.name == "2026-01-05-worksheet-a-framed-panel-beside-group-a"
    again = CliRunner().invoke(main, ["again", str(file), "--out", "second", "--jobs", "1"])
    assert again.exit_code == 0, again.output
    [second] = Path("second").glob("*/sitting.json")
    for path in file.parent.rglob("*.pdf"):
        assert (second.parent / path.relative_to(file.parent)).read_bytes() == path.read_bytes(), path.name


def test_a_worksheet_on_one_bay_over_one_course_speaks_of_one(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    text = JOB.replace("bays: 3", "bays: 1").replace("below: 4", "below: 1")
    Path("mine.yaml").write_text(text, encoding="utf-8")
    done = CliRunner().invoke(main, ["job", "mine.yaml", "--learners", "1", "--date", "2026-01-05", "--jobs", "1"])
    assert done.exit_code == 0, done.output
    [papers] = Path("output").glob("*/for-learners/all-papers.pdf")
    [keys] = Path("output").glob("*/for-tutor/all-keys.pdf")
    words = " ".join(
        " ".join(page.get_textpage().get_text_bounded().split())
        for path in (papers, keys)
        for page in pypdfium2.PdfDocument(path)
    )
    assert "1 course of wall stands under the opening" in words
    assert "1 bay is built" in words
    assert not re.search(r"(?<![0-9.])1 (courses|bays|bats|bricks|pieces)\b", words)


def test_the_worksheets_bank_proves_over_all_that_a_job_may_have() -> None:
    done = CliRunner().invoke(main, ["check", str(shipped_folder() / "jobs" / "worksheet.yaml")])
    assert done.exit_code == 0, done.output


@pytest.mark.parametrize("format", ["GERMAN_NF", "US_MODULAR"])
def test_a_job_in_another_brick_is_worked_out_in_that_brick(format) -> None:
    """German NF: an opening of 4 bricks is 1010 mm (din-4172). US modular: brick and joint are 8 in (Technical Notes 10B)."""
    task = read_task(JOB.replace("job: A panel", f"job: A panel\nformat: {format}").encode(), "job.yaml", PROFILES)
    plan = plan_of(task)
    assert plan.width == {"GERMAN_NF": 1010, "US_MODULAR": Fraction("25.4") * (32 + Fraction(3, 8))}[format]
    for sheet in job_sheets(plan, None, "2026-01-05"):
        assert page.is_pdf_compliant_bytes(job_pdf(sheet), profile="ua1")


def test_a_worksheet_that_fails_its_proof_is_not_issued(tmp_path, monkeypatch) -> None:
    """Worksheets go the way of every sitting: proved first, and nothing made where the proof fails."""
    monkeypatch.chdir(tmp_path)
    sheet = (shipped_folder() / "jobs" / "worksheet.yaml").read_text(encoding="utf-8")
    wrong = sheet.replace("value: courses * course + joint, earns", "value: courses * course + 2 * joint, earns", 1)
    assert wrong != sheet
    bank = read_bank(wrong.encode(), "worksheet.yaml")
    monkeypatch.setattr("courseware.workflows.issue.worksheet", lambda _task: (bank, bank.exercises[:1]))
    done = CliRunner().invoke(main, ["job", "porch-panel", "--learners", "2"])
    assert done.exit_code == 1
    assert "nothing was made" in done.output
    assert not list(Path("output").glob("*/sitting.json"))
