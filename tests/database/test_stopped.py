"""Whatever stops a run, what it acknowledged is in the record: killed at any moment, a full disk, two at once."""

from __future__ import annotations

import random
import resource
import shutil
import signal
import subprocess
import sys
import textwrap
import time
from collections import Counter
from contextlib import contextmanager
from itertools import pairwise
from pathlib import Path

import pytest
from sqlalchemy import select

from courseware.database.connection import reading
from courseware.database.errors import RecordFaulty, RecordRefuses
from courseware.database.given_marks import given_marks
from courseware.database.kept_marks import keep_marks, marks_of
from courseware.database.opening import open_record
from courseware.database.sample_results import results_of
from courseware.database.scripts import enter_scripts, scripts_of
from courseware.database.sittings import sitting_of, take
from courseware.database.tables import GIVEN_MARK, OBSERVATION, REGISTER, SAMPLED, SCRIPT, STATE
from courseware.papers.sitting_file import write_sitting

# Types one script and its marks after another, each with its number, and says so after each commit.
MARKER = """
    import sys
    from datetime import UTC, datetime
    from courseware.database.kept_marks import keep_marks
    from courseware.database.opening import open_record
    from courseware.database.scripts import enter_scripts
    from courseware.database.sittings import sitting_of
    from courseware.marking.marks import Mark, MarkedPaper, Script

    url, code, who, place, first, last = sys.argv[1:]
    engine = open_record(url)
    paper = sitting_of(engine, code).papers[int(place)]
    labels = [part.label for exercise in paper.exercises for part in exercise.parts]
    print("ready", flush=True)
    for number in range(int(first), int(last)):
        script = Script(code=paper.code, cells={label: f"{who} {number}" for label in labels})
        common = {"role": "first", "at": datetime.now(UTC)}
        enter_scripts(engine, code, [script], [], assessor=who, source="sheet.xlsx", **common)
        marks = tuple(Mark(label=l, marks=1, of=2, how="right", why=f"{who} {number}", written="x" * 2000) for l in labels)
        keep_marks(engine, code, [MarkedPaper(code=paper.code, status="", marks=marks)], by=who, **common)
        print(number, flush=True)
"""


def marker(url: str, code: str, who: str, place: int, first: int, last: int) -> subprocess.Popen[str]:
    words = [sys.executable, "-c", textwrap.dedent(MARKER), url, code, who, str(place), str(first), str(last)]
    return subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def stands(record, sitting, place: int = 0) -> tuple[str, set[str]]:
    """The cell of the script as it stands, and what the marks say."""
    [script] = [s for s in scripts_of(record, sitting.code, "first") if s.code == sitting.papers[place].code]
    marks = [m for m in marks_of(record, sitting.code, "first") if m.code == sitting.papers[place].code]
    return next(iter(script.cells.values())), {mark.why for paper in marks for mark in paper.marks}


def test_a_run_killed_at_any_moment_loses_nothing_that_it_acknowledged(record, sitting) -> None:
    chance = random.Random(20260105)
    number, told = 0, set()
    for _ in range(4):
        run = marker(str(record.url), sitting.code, "Ann", 0, number, 10_000)
        assert run.stdout is not None
        assert run.stdout.readline() == "ready\n"
        acknowledged = [run.stdout.readline() for _ in range(2)]
        time.sleep(chance.random() / 10)
        run.send_signal(signal.SIGKILL)
        rest, _ = run.communicate()
        told |= {int(line) for line in (*acknowledged, *rest.splitlines())}
        last = max(told)

        again = open_record(record.url)  # with its quick_check
        cell, whys = stands(again, sitting)
        assert cell in {f"Ann {last}", f"Ann {last + 1}"}
        assert whys in ({f"Ann {last}"}, {f"Ann {last + 1}"})  # all parts' marks of one keeping, never some of two
        with reading(again) as connection:
            assert connection.exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"
            kept = set(connection.scalars(select(SCRIPT.c.cells)))
        assert all(any(f'"Ann {seen}"' in cells for cells in kept) for seen in told)
        number = last + 2


def test_two_assessors_at_once_lose_nothing_of_each_other(record, sitting) -> None:
    runs = [marker(str(record.url), sitting.code, who, place, 0, 12) for place, who in enumerate(("Ann", "Ben"))]
    for run in runs:
        _, complaint = run.communicate(timeout=120)
        assert (run.returncode, complaint) == (0, "")
    assert stands(record, sitting, 0) == ("Ann 11", {"Ann 11"})
    assert stands(record, sitting, 1) == ("Ben 11", {"Ben 11"})
    with reading(record) as connection:
        assert len(connection.execute(select(SCRIPT)).all()) == 24


def test_two_assessors_on_one_paper_keep_both_hands(record, sitting) -> None:
    runs = [marker(str(record.url), sitting.code, who, 0, 0, 12) for who in ("Ann", "Ben")]
    for run in runs:
        _, complaint = run.communicate(timeout=120)
        assert (run.returncode, complaint) == (0, "")
    with reading(record) as connection:
        kept = set(connection.scalars(select(SCRIPT.c.cells)))
    assert all(any(f'"{who} {number}"' in cells for cells in kept) for who in ("Ann", "Ben") for number in range(12))


# Gives every part of a script a mark by hand and enters an observation and a sample result, again and again.
JUDGE = """
    import sys
    from datetime import UTC, datetime
    from courseware.database.given_marks import keep_given
    from courseware.database.observations import keep_observation
    from courseware.database.opening import open_record
    from courseware.database.sample_results import keep_results
    from courseware.database.sittings import sitting_of
    from courseware.jobs.observation import JudgedResult, Observation
    from courseware.quality.marks_by_hand import HandMark
    from courseware.quality.sample_results import SampleResult

    url, code, who, first, last = sys.argv[1:]
    engine = open_record(url)
    paper = sitting_of(engine, code).papers[0]
    print("ready", flush=True)
    for number in range(int(first), int(last)):
        note, at = f"{who} {number}", datetime.now(UTC)
        marks = [HandMark(code=paper.code, attempt=1, label=part.label, marks=1, note=note) for part in paper.parts]
        keep_given(engine, code, marks, "second", by=who, source="x.xlsx", at=at)
        seen = Observation(code=paper.code, job="porch", title="x", bay="", day="2026-02-03", by=who, profile="",
                           results=(JudgedResult(what="Face", given="good"),), comment=note)
        keep_observation(engine, seen, source="", at=at)
        result = SampleResult(code=paper.code, plan=who, agreed=True, by=who, day="2026-02-03", note=note)
        keep_results(engine, [result], at=at)
        print(number, flush=True)
"""


def judge(url: str, code: str, who: str, first: int, last: int) -> subprocess.Popen[str]:
    words = [sys.executable, "-c", textwrap.dedent(JUDGE), url, code, who, str(first), str(last)]
    return subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def test_what_is_judged_beside_the_marks_is_whole_whenever_a_run_is_killed(record, sitting) -> None:
    run = judge(str(record.url), sitting.code, "Ann", 0, 10_000)
    assert run.stdout is not None
    assert run.stdout.readline() == "ready\n"
    acknowledged = [run.stdout.readline() for _ in range(3)]
    run.send_signal(signal.SIGKILL)
    rest, _ = run.communicate()
    last = max(int(line) for line in (*acknowledged, *rest.splitlines()))
    again = open_record(record.url)
    for table, column in (
        (GIVEN_MARK, GIVEN_MARK.c.note),
        (OBSERVATION, OBSERVATION.c.remark),
        (SAMPLED, SAMPLED.c.note),
    ):
        with reading(again) as connection:
            notes = Counter(connection.scalars(select(column)))
        each = len(sitting.papers[0].parts) if table is GIVEN_MARK else 1
        assert {f"Ann {number}" for number in range(last + 1)} <= set(notes) <= {f"Ann {n}" for n in range(last + 2)}
        assert set(notes.values()) == {each}  # never a part of one entering


def test_two_who_judge_at_once_lose_nothing_of_each_other(record, sitting) -> None:
    runs = [judge(str(record.url), sitting.code, who, 0, 5) for who in ("Ann", "Ben")]
    for run in runs:
        _, complaint = run.communicate(timeout=120)
        assert (run.returncode, complaint) == (0, "")
    stand = {(mark.by, mark.note) for mark in given_marks(record, sitting.code, "second")}
    assert stand == {("Ann", "Ann 4"), ("Ben", "Ben 4")}
    assert {one.note for one in results_of(record)} == {"Ann 4", "Ben 4"}
    with reading(record) as connection:
        assert len(set(connection.scalars(select(OBSERVATION.c.remark)))) == 10


@contextmanager
def files_end_at(size: int):
    """No file may grow over so many bytes, as on a disk without room."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def test_a_disk_without_room_is_told_and_loses_nothing(record, sitting, later, written, marked) -> None:
    paper = sitting.papers[0]

    def mark(minute: int, size: int) -> None:
        script = written(paper, f"try {minute}")
        common = {"role": "first", "at": later(minute)}
        enter_scripts(record, sitting.code, [script], (), assessor="Ann", source="s.xlsx", **common)
        one = marked(paper, why=f"try {minute}", comment="x" * size)
        keep_marks(record, sitting.code, [one], by="Ann", **common)

    mark(1, 10)
    file = Path(str(record.url.database))
    with (
        files_end_at(file.stat().st_size + 8192),
        pytest.raises(RecordFaulty, match="no room left; nothing that was ack"),
    ):
        mark(2, 100_000)
    again = open_record(record.url)
    assert stands(again, sitting)[1] == {"try 1"}
    mark(3, 100_000)  # with room again
    assert stands(again, sitting) == ("try 3", {"try 3"})


def test_a_lost_record_is_made_again_from_the_sitting_alone(record, sitting, later) -> None:
    text = write_sitting(sitting)
    Path(str(record.url.database)).unlink()
    with pytest.raises(RecordRefuses):
        open_record(record.url, make=False)
    again = open_record(record.url)
    assert take(again, sitting, text, at=later(1))
    assert sitting_of(again, sitting.code) == sitting


def test_a_copy_of_the_one_file_is_the_whole_record(record, sitting, tmp_path) -> None:
    shutil.copy(str(record.url.database), tmp_path / "copy.sqlite")
    assert sitting_of(open_record(f"sqlite:///{tmp_path}/copy.sqlite"), sitting.code) == sitting


# Takes a marked script through its states again and again, agrees another day in the register after each round, and says so
# after each commit; what is refused, since another has done it meanwhile, is passed over.
MOVER = """
    import sys
    from datetime import UTC, datetime
    from courseware.database.errors import RecordRefuses
    from courseware.database.opening import open_record
    from courseware.database.register import enter_in_register
    from courseware.database.sittings import sitting_of
    from courseware.database.states import confirm, release, take_back

    url, code, who, first, last = sys.argv[1:]
    engine = open_record(url)
    paper = sitting_of(engine, code).papers[0].code
    print("ready", flush=True)
    for number in range(int(first), int(last)):
        say = {"by": who, "at": datetime.now(UTC)}
        for step, more in ((confirm, {}), (release, {}), (take_back, {"reason": f"{who} {number}"})):
            try:
                step(engine, code, [paper], **more, **say)
                print(step.__name__, flush=True)
            except RecordRefuses:
                pass
        enter_in_register(engine, paper, "resubmission", due="2026-02-02", reason=f"{who} {number}", **say)
        print(number, flush=True)
"""
NEXT = {"": {"confirmed"}, "confirmed": {"released", "back"}, "released": {"back"}, "back": {"confirmed"}}


def mover(url: str, code: str, who: str, first: int, last: int) -> subprocess.Popen[str]:
    words = [sys.executable, "-c", textwrap.dedent(MOVER), url, code, who, str(first), str(last)]
    return subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def moves(record, paper: str) -> tuple[list[str], list[str]]:
    """What was said of a script and the reasons in the register, both in order; no state came out of turn."""
    with reading(record) as connection:
        said = list(connection.scalars(select(STATE.c.state).where(STATE.c.paper == paper).order_by(STATE.c.id)))
        entries = select(REGISTER.c.reason).where(REGISTER.c.paper == paper, REGISTER.c.entry == "resubmission")
        reasons = list(connection.scalars(entries.order_by(REGISTER.c.id)))
    assert all(after in NEXT[before] for before, after in pairwise(["", *said]))
    return said, reasons


def test_states_and_entries_that_were_acknowledged_are_there_after_kill_9(entered, sitting) -> None:
    chance = random.Random(20260106)
    paper, number = sitting.papers[0].code, 0
    acknowledged: list[str] = []
    for _ in range(3):
        run = mover(str(entered.url), sitting.code, "Ann", number, 10_000)
        assert run.stdout is not None
        assert run.stdout.readline() == "ready\n"
        told = [run.stdout.readline() for _ in range(3)]
        time.sleep(chance.random() / 10)
        run.send_signal(signal.SIGKILL)
        rest, _ = run.communicate()
        acknowledged += [line.strip() for line in (*told, *rest.splitlines())]
        said, reasons = moves(open_record(entered.url), paper)
        for word, name in (("confirmed", "confirm"), ("released", "release"), ("back", "take_back")):
            assert (
                acknowledged.count(name) <= said.count(word) <= acknowledged.count(name) + 3
            )  # one a kill may be unsaid
        entries = [f"Ann {line}" for line in acknowledged if line.isdigit()]
        assert set(entries) <= set(reasons)
        number = len(reasons) + 1


@pytest.mark.each_database
def test_two_at_once_never_bring_a_script_into_a_state_out_of_turn(entered, sitting) -> None:
    runs = [mover(str(entered.url), sitting.code, who, 0, 8) for who in ("Ann", "Ben")]
    done: list[str] = []
    for run in runs:
        told, complaint = run.communicate(timeout=120)
        assert (run.returncode, complaint) == (0, "")
        done += told.splitlines()
    said, reasons = moves(entered, sitting.papers[0].code)
    assert len(said) == sum(not line.isdigit() and line != "ready" for line in done)
    assert sorted(reasons) == sorted(f"{who} {number}" for who in ("Ann", "Ben") for number in range(8))
