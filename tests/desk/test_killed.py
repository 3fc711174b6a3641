"""The desk killed while it prints or while somebody types: its next start goes on, and nothing that was done is lost."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

from courseware.papers.sitting_file import write_sitting
from courseware.workflows.going_on import stopped_issues
from tests.desk.conftest import running
from tests.desk.killed_typing import Cells, lost, type_until_killed
from tests.piers_sitting import BANK

KILLS = 25  # while it prints, and as many while somebody types

PROGRAM = """
import sys, time
from pathlib import Path
from courseware.desk.job_queue import Jobs, Made
from courseware.papers.group import numbered
from courseware.settings.settings import DEFAULTS
from courseware.workflows.issue import IssueOptions, issue_sitting

if __name__ == "__main__":
    work = Path(sys.argv[1])
    learners, day = int(sys.argv[2]), sys.argv[3]
    options = IssueOptions(out=work / "output", settings=DEFAULTS, processes=1)

    def issue(watch):
        issue_sitting([str(work / "piers.yaml")], numbered(learners), day, options, watch)
        return Made(says="")

    Jobs().start("Papers", issue)
    time.sleep(300)
"""


def test_a_desk_that_was_killed_goes_on_when_it_is_started_again(tmp_path: Path, monkeypatch) -> None:
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    (tmp_path / "piers.yaml").write_text(BANK, encoding="utf-8")
    (tmp_path / "program.py").write_text(PROGRAM, encoding="utf-8")
    out = tmp_path / "output"
    kill_while_it_prints([sys.executable, "program.py", ".", "10", "2026-01-05"], tmp_path, 2)
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


def kill_while_it_prints(command: list[str], work: Path, more: int) -> None:
    """Starts what prints papers in the folder of work, and kills it once so many more are there."""
    had = len(papers_in(work))
    environment = {**os.environ, "XDG_CONFIG_HOME": str(work / "config"), "XDG_STATE_HOME": str(work / "state")}
    with subprocess.Popen(command, cwd=work, env=environment, stdout=subprocess.DEVNULL) as process:
        ends = time.monotonic() + 120
        while len(papers_in(work)) < had + more and process.poll() is None and time.monotonic() < ends:
            time.sleep(0.01)
        process.kill()


def papers_in(work: Path) -> dict[str, bytes]:
    """Every paper and key that is printed, by its name."""
    return {path.name: path.read_bytes() for path in (work / "output").rglob("*-*.pdf") if path.stem.count("-") == 3}


def test_a_desk_killed_time_and_again_while_it_prints_loses_and_changes_no_paper(tmp_path: Path, monkeypatch) -> None:
    """Twenty-five times: the first run, and each start that goes on with it, killed after one paper or key more or some."""
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    (tmp_path / "piers.yaml").write_text(BANK, encoding="utf-8")
    (tmp_path / "program.py").write_text(PROGRAM, encoding="utf-8")
    desk = [sys.executable, "-m", "courseware.cli", "desk", ".", "--no-browser", "--name", "J. Marsh"]
    kept: dict[str, bytes] = {}
    for kill in range(KILLS):
        first = [sys.executable, "program.py", ".", "60", f"2026-01-{kill + 1:02}"]
        kill_while_it_prints(desk if stopped_issues(tmp_path / "output") else first, tmp_path, kill % 4 + 1)
        there = papers_in(tmp_path)
        assert kept.items() <= there.items(), kill
        assert kept.keys() < there.keys(), kill
        kept = there
    with running(tmp_path) as last:
        for job in last.jobs.all():
            while not job.over:
                time.sleep(0.05)
            assert (job.state, job.trouble) == ("done", "")
    after = papers_in(tmp_path)
    assert kept.items() <= after.items()
    assert len(after) % 120 == 0, "a paper and a key each of 60 learners"


def test_a_desk_killed_while_somebody_types_loses_no_cell_that_it_answered(
    class_of, tmp_path: Path, monkeypatch
) -> None:
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    sitting = class_of(7, exercises=3).sitting
    folder = tmp_path / "output" / "sitting"
    folder.mkdir(parents=True)
    (folder / "sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    answered: Cells = {}
    for seed in range(KILLS):
        answered |= type_until_killed(tmp_path, sitting, seed)
        assert lost(tmp_path, sitting, answered) == {}
    assert answered
