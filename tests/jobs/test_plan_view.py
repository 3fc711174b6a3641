"""The wall drawn from above, read back: bricks counted by their grey, the depth measured."""

from __future__ import annotations

import pytest
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

from courseware.drawings.picture import Label, Stroke
from courseware.jobs.plan_view import plan_view
from courseware.jobs.sheets import job_sheets
from tests.jobs.a_panel import job


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
    marks = plan_view(job(("support: returns", f"support: {support}"))).body.marks
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
    marks = [mark for mark in plan_view(plan).body.marks if isinstance(mark, Stroke)]
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
