"""An observation sheet as a form: every line of the job, what was typed by its line's words, sheets as files for a while."""

from __future__ import annotations

from pathlib import Path

from courseware.desk.forms import Form, Upload
from courseware.desk.observing import judged_fields, measured_fields, sheets_as_files, typed_observation
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
    typed = typed_observation(Form(fields=fields, files={}), PLAN)
    assert observed(PLAN, typed, job="porch-panel", code="X").verdict == "pass"


def test_sheets_are_files_under_names_of_our_own_and_gone_when_read() -> None:
    sent = [Upload(name=name, data=b"x") for name in ("amara.xlsx", "..\\..\\amara.xlsx", "../../etc/passwd", "砖.CSV")]
    with sheets_as_files(sent) as files:
        paths = [Path(path) for path in files]
        assert [path.name for path in paths] == ["amara-1.xlsx", "amara-2.xlsx", "passwd-3.csv", "sheet-4.csv"]
        assert list(files.values()) == ["amara.xlsx", "amara.xlsx", "passwd", "砖.CSV"]
        assert len({path.parent for path in paths}) == 1
        assert all(path.read_bytes() == b"x" for path in paths)
    assert not paths[0].parent.exists()
