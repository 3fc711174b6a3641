"""Appeals: opened on what stood, closed with an outcome; while one is open its paper stays as it was."""

from __future__ import annotations

import pytest

from courseware.database.appeals import APPEALED, appeal_of, close_appeal, open_appeal
from courseware.database.errors import RecordRefuses
from courseware.database.history import history
from courseware.database.scripts import enter_scripts
from courseware.marking.marks import Decision


@pytest.fixture
def code(entered, sitting) -> str:
    return sitting.papers[0].code


def opened(record, code, later, at: int = 5):
    return open_appeal(record, code, 12, reason="2b was right", by="J. Marsh", day="2026-02-01", at=later(at))


def test_an_appeal_keeps_what_stood_when_it_was_opened(entered, code, later) -> None:
    found = opened(entered, code, later)
    assert (found.is_open, found.attempt, found.marks, found.upto > 0) == (True, 1, 12, True)
    assert appeal_of(entered, code) == found
    closed = close_appeal(entered, code, "stands", reason="as marked", by="R. Holt", day="2026-02-09", at=later(6))
    assert (closed.marks, closed.upto) == (found.marks, found.upto)
    told = [(event.after, event.reason) for event in history(entered, code) if event.what == "appeal"]
    assert told == [
        ("opened; 12 marks stood", "2b was right"),
        ("closed: the marks stand; 12 marks stood", "as marked"),
    ]


def test_one_appeal_at_a_time_and_none_without_a_script(entered, sitting, code, later) -> None:
    with pytest.raises(RecordRefuses, match=f"no appeal on {code} is open"):
        close_appeal(entered, code, "stands", reason="", by="R. Holt", day="2026-02-09", at=later(6))
    opened(entered, code, later)
    with pytest.raises(RecordRefuses, match=r"an appeal on .* is open since 2026-02-01; enter its outcome first"):
        opened(entered, code, later, 6)
    with pytest.raises(RecordRefuses, match=r"no script of the paper .* was handed in"):
        opened(entered, sitting.papers[1].code, later)


@pytest.mark.each_database
def test_while_an_appeal_is_open_answers_and_decisions_stay_as_they_were(
    entered, sitting, code, later, written
) -> None:
    opened(entered, code, later)
    more = {"assessor": "J. Marsh", "role": "first", "at": later(6)}
    said = f"the paper {code} is under appeal since 2026-02-01: its answers and marks stay as they are"
    decided = Decision(code=code, label=sitting.papers[0].parts[0].label, marks=0, reason="second thoughts")
    for scripts, decisions in (([written(sitting.papers[0], "9", "2")], []), ([], [decided])):
        with pytest.raises(RecordRefuses, match=said):
            enter_scripts(entered, sitting.code, scripts, decisions, source="x.xlsx", **more)
    same = [written(sitting.papers[0], "1", "2"), written(sitting.papers[1], "5")]
    assert enter_scripts(entered, sitting.code, same, [], source="x.xlsx", **more).new == (sitting.papers[1].code,)
    assert enter_scripts(entered, sitting.code, [], [decided], source=APPEALED, **more).decided == (decided,)
