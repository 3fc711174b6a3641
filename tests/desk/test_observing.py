"""An observation sheet as a form: every line of the job, what was typed by its line's words."""

from __future__ import annotations

from pathlib import Path

from courseware.desk.forms import Form
from courseware.desk.observing import judged_fields, measured_fields, typed_observation
from courseware.jobs.observation import JUDGED, observed
from courseware.jobs.plan import plan_of
from courseware.workflows.jobs import find_job

PLAN = plan_of(find_job("porch-panel"))


def test_what_is_typed_at_each_line_is_read_by_the_lines_own_words() -> None:
    """The opening of three bricks is 685 mm: Sheet 9, Table 1, CO + Joint."""
    measured = measured_fields(PLAN)
    assert [one.what for one in measured] == [line.what for line in PLAN.lines]
    assert (measured[0].target, measured[0].allowed) == ("685", "5")
    assert [one.what for one in judged_fields()] == [what for what, *_ in JUDGED]
    fields = {one.field: (one.target,) for one in measured} | {one.field: ("good",) for one in judged_fields()}
    fields |= {f"target-{one.field}": (one.target,) for one in measured}
    fields |= {f"allowed-{one.field}": (one.allowed,) for one in measured}
    fields |= {"learner": ("A1",), "by": ("J. Marsh",), "day": ("2026-02-03",)}
    fields |= {"photo": ("h1", "not ours", "h1"), "shows-h1": ("the mitre",), "shows-h2": ("not ticked",)}
    photos = {"h1": Path("/work/photographs/a.jpg"), "h2": Path("/work/photographs/b.jpg")}
    typed = typed_observation(Form(fields=fields, files={}), PLAN, photos)
    assert typed.photos == (("/work/photographs/a.jpg", "the mitre"),)
    assert observed(PLAN, typed, job="porch-panel", code="X").verdict == "pass"
