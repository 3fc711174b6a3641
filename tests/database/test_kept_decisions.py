"""Decisions kept beside a record fill what a record made again lacks, and no more than that."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.database.kept_decisions import KeptDecision, decisions_to_keep
from courseware.database.opening import open_record
from courseware.database.scripts import decisions_of, enter_scripts
from courseware.database.sittings import take
from courseware.marking.marks import WHOLE_PAPER, Decision
from courseware.papers.sitting_file import write_sitting


@pytest.fixture
def anew(tmp_path, sitting, later):
    """A record made again, with nothing in it but the sitting."""
    engine = open_record(f"sqlite:///{tmp_path / 'anew.sqlite'}")
    take(engine, sitting, write_sitting(sitting), at=later(60))
    yield engine
    engine.dispose()


@pytest.fixture
def enter(sitting, later):
    clock = iter(range(1, 99))

    def go(engine, *scripts, decisions=(), kept=(), by="J. Marsh", role="first"):
        more = {"assessor": by, "role": role, "source": "a.xlsx", "at": later(next(clock)), "kept": kept}
        return enter_scripts(engine, sitting.code, scripts, decisions, **more)

    return go


def own_mark(sitting, marks: int | None = 1, reason: str = "method shown", label: str = "", **more) -> Decision:
    """A decision on the first part of the first paper, unless another label is given."""
    first = sitting.papers[0]
    return Decision(code=first.code, label=label or first.parts[0].label, marks=marks, reason=reason, **more)


def test_what_the_record_lacks_is_restored_with_whoever_decided_it(record, anew, sitting, enter, written) -> None:
    script, decided = written(sitting.papers[0], "7"), own_mark(sitting)
    said = own_mark(sitting, None, "", WHOLE_PAPER, comment="their hand")
    enter(record, script, decisions=[decided, said], by="P. Reed")
    kept = decisions_to_keep(record, sitting.code)
    assert kept == (
        KeptDecision(decision=decided, written="7", by="P. Reed", role="first", source="a.xlsx"),
        KeptDecision(decision=said, written="", by="P. Reed", role="first", source="a.xlsx"),
    )
    enter(anew, script, kept=kept)
    assert decisions_of(anew, sitting.code, "first").standing == (decided, said)
    assert decisions_to_keep(anew, sitting.code) == kept
    assert enter(anew, script, kept=kept).decided == ()  # once more adds nothing
    assert decisions_to_keep(anew, sitting.code) == kept


def test_what_the_record_has_stands_over_what_is_kept(record, sitting, enter, written) -> None:
    script, newer = written(sitting.papers[0], "7"), own_mark(sitting, 2, "on a second look")
    enter(record, script, decisions=[newer])
    enter(record, script, kept=[KeptDecision(decision=own_mark(sitting), written="7", by="P. Reed", role="first")])
    assert decisions_of(record, sitting.code, "first").standing == (newer,)


def test_of_two_decisions_the_later_stands_again(record, anew, sitting, enter, written) -> None:
    script, old, new = written(sitting.papers[0], "7"), own_mark(sitting), own_mark(sitting, 0, "from the board")
    enter(record, script, decisions=[old], by="J. Marsh")
    enter(record, script, decisions=[new], by="P. Reed")
    enter(anew, script, decisions=[old], kept=decisions_to_keep(record, sitting.code), by="J. Marsh")
    assert decisions_of(anew, sitting.code, "first").standing == (new,)  # the sheet of J. Marsh still has the old one


def test_one_whose_answer_is_another_now_has_lapsed(record, anew, sitting, enter, written) -> None:
    decided = own_mark(sitting)
    enter(record, written(sitting.papers[0], "7"), decisions=[decided])
    kept = decisions_to_keep(record, sitting.code)
    for typed in ([], [decided]):  # nor is it entered by the sheet that has it still
        entered = enter(anew, written(sitting.papers[0], "8", line=5), decisions=typed, kept=kept)
        assert [(one.decision, one.line, one.before, one.now) for one in entered.lapsed] == [(decided, 5, "7", "8")]
        assert entered.pending == kept
        assert decisions_of(anew, sitting.code, "first").standing == ()
    again = own_mark(sitting, 2, "looked at again")
    entered = enter(anew, decisions=[again], kept=kept)
    assert (entered.lapsed, entered.pending) == ((), ())
    assert decisions_of(anew, sitting.code, "first").standing == (again,)


def test_blanks_round_an_answer_are_no_change(anew, sitting, enter, written) -> None:
    kept = KeptDecision(decision=own_mark(sitting), written="7", by="P. Reed", role="first")
    assert enter(anew, written(sitting.papers[0], " 7 "), kept=[kept]).lapsed == ()
    assert decisions_of(anew, sitting.code, "first").standing == (kept.decision,)


def test_one_on_a_script_that_is_not_in_yet_waits(anew, sitting, enter, written) -> None:
    kept = KeptDecision(decision=own_mark(sitting), written="7", by="P. Reed", role="first")
    entered = enter(anew, written(sitting.papers[1], "7"), kept=[kept])
    assert (entered.lapsed, entered.pending) == ((), (kept,))
    assert decisions_of(anew, sitting.code, "first").standing == ()
    assert enter(anew, written(sitting.papers[0], "7"), kept=[kept]).pending == ()
    assert decisions_of(anew, sitting.code, "first").standing == (kept.decision,)


def test_each_attempt_has_its_own(record, anew, sitting, enter, written) -> None:
    paper = sitting.papers[0]
    first, second = written(paper, "7"), written(paper, "8", status="resubmitted", line=3)
    enter(record, first, decisions=[own_mark(sitting)])
    enter(record, first, second, decisions=[own_mark(sitting, 2, "right now")])
    kept = decisions_to_keep(record, sitting.code)
    assert [one.decision.attempt for one in kept] == [1, 2]
    assert enter(anew, first, kept=kept).pending == kept[1:]
    enter(anew, first, second, kept=kept)
    assert decisions_to_keep(anew, sitting.code) == kept


def test_the_second_markers_wait_for_the_second_marking(anew, sitting, enter, written) -> None:
    kept = KeptDecision(decision=own_mark(sitting), written="7", by="P. Reed", role="second")
    script = written(sitting.papers[0], "7")
    assert enter(anew, script, kept=[kept]).pending == (kept,)
    assert decisions_of(anew, sitting.code, "first").standing == ()
    assert enter(anew, script, kept=[kept], role="second").pending == ()
    assert decisions_of(anew, sitting.code, "second").standing == (kept.decision,)


def test_all_that_was_decided_on_a_part_is_kept_in_its_order(record, sitting, enter, written) -> None:
    script = written(sitting.papers[0], "7")
    for marks, reason in ((1, "method shown"), (0, "from the board"), (1, "asked about it")):
        enter(record, script, decisions=[own_mark(sitting, marks, reason)])
    enter(record, replace(script, cells={**script.cells, sitting.papers[0].parts[0].label: "9"}))
    kept = decisions_to_keep(record, sitting.code)
    assert [(one.decision.marks, one.written) for one in kept] == [(1, "7"), (0, "7"), (1, "7")]
