"""The desk killed while it prints or while somebody types: its next start goes on, and nothing that was done is lost."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

from courseware.papers.sitting_file import write_sitting
from courseware.workflows.going_on import stopped_issues
from tests.desk.conftest import running
from tests.desk.killed_typing import Cells, lost, type_until_killed
from tests.piers_sitting import BANK

PROGRAM = """
import sys, time
from pathlib import Path
from courseware.desk.job_queue import Jobs, Made
from courseware.papers.group import numbered
from courseware.settings.settings import DEFAULTS
from courseware.workflows.issue import IssueOptions, issue_sitting

if __name__ == "__main__":
    work = Path(sys.argv[1])
    options = IssueOptions(out=work / "output", settings=DEFAULTS, processes=1)

    def issue(watch):
        issue_sitting([str(work / "piers.yaml")], numbered(10), "2026-01-05", options, watch)
        return Made(says="")

    Jobs().start("Papers", issue)
    time.sleep(300)
"""


def test_a_desk_that_was_killed_goes_on_when_it_is_started_again(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    (tmp_path / "piers.yaml").write_text(BANK, encoding="utf-8")
    (tmp_path / "program.py").write_text(PROGRAM, encoding="utf-8")
    out = tmp_path / "output"
    with subprocess.Popen([sys.executable, tmp_path / "program.py", tmp_path]) as process:
        ends = time.monotonic() + 60
        while len(list(out.rglob("paper-*.pdf"))) < 2 and time.monotonic() < ends:
            time.sleep(0.01)
        os.kill(process.pid, signal.SIGKILL)
    [left] = stopped_issues(out)
    assert 0 < left.printed < 10
    printed = {path.name: path.read_bytes() for path in left.path.rglob("*-*.pdf")}
    with running(tmp_path) as desk:
        [job] = desk.jobs.all()
        while not job.over:
            time.sleep(0.05)
        assert (job.state, job.trouble) == ("done", "")
    [folder] = [path for path in out.iterdir() if path.is_dir()]
    after = {path.name: path.read_bytes() for path in folder.rglob("*-*.pdf")}
    assert len([name for name in after if name.startswith("paper-")]) == 10
    assert printed.items() <= after.items()
    assert stopped_issues(out) == ()


def test_a_desk_killed_while_somebody_types_loses_no_cell_that_it_answered(
    class_of, tmp_path: Path, monkeypatch
) -> None:
    """Three times here; fifty times by `tests/benchmarks/desk.py`."""
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    sitting = class_of(7, exercises=3).sitting
    folder = tmp_path / "output" / "sitting"
    folder.mkdir(parents=True)
    (folder / "sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    answered: Cells = {}
    for seed in range(3):
        answered |= type_until_killed(tmp_path, sitting, seed)
        assert lost(tmp_path, sitting, answered) == {}
    assert answered
