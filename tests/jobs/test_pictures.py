"""The section through a task's frame, read back: it cuts soldiers where the elevation shows soldiers."""

import itertools

import pytest

from courseware.drawings.picture import Stroke
from courseware.jobs.pictures import section
from courseware.jobs.plan import plan_of
from courseware.workflows.jobs import find_job, shipped_jobs


def heights(outline) -> float:
    return max(y for _, y in outline) - min(y for _, y in outline)


@pytest.mark.parametrize("job", shipped_jobs())
def test_the_section_cuts_soldiers_and_flat_bricks_in_turn_bay_by_bay(job) -> None:
    plan = plan_of(find_job(job))
    brick = plan.task.brick
    [panel] = [m for m in section(plan).marks if isinstance(m, Stroke) and m.closed and m.fill == 1.0]
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
