"""Scripts and decisions: entered once, changed by a new row, given back as they stand; nothing is overwritten."""

from __future__ import annotations

import pytest
from sqlalchemy import select

from courseware.database.connection import reading
from courseware.database.errors import RecordRefuses
from courseware.database.scripts import decisions_of, enter_scripts, scripts_of
from courseware.database.tables import DECISION, SCRIPT
from courseware.marking.marks import Decision, Script


@pytest.fixture
def enter(record, sitting, later):
    """Enters a sheet, a minute after the last."""
    minute = iter(range(1, 100))

    def go(*scripts, decisions=(), assessor="J. Marsh", role="first"):
        more = {"assessor": assessor, "role": role, "source": "sheet.xlsx", "at": later(next(minute))}
        return enter_scripts(record, sitting.code, scripts, decisions, **more)

    return go


def rows(record, table) -> int:
    with reading(record) as connection:
        return len(connection.execute(select(table)).all())


@pytest.mark.each_database
def test_scripts_come_back_as_written_in_the_order_of_the_papers(record, sitting, enter, written) -> None:
    odd = "  2½ bags, “about” =1+1 ‰ \t;"
    first = written(sitting.papers[0], "910mm", odd, line=4)
    second = written(sitting.papers[1], "1,125", status="late", line=3)
    done = enter(second, first)
    assert done.new == (second.code, first.code)
    assert scripts_of(record, sitting.code, "first") == (first, second)


def test_the_same_sheet_once_more_adds_no_row(record, sitting, enter, written) -> None:
    script = written(sitting.papers[0], "910")
    enter(script)
    again = enter(script)
    assert (again.new, again.changed, again.same) == ((), (), (script.code,))
    assert rows(record, SCRIPT) == 1


@pytest.mark.each_database
def test_a_change_is_a_new_row_and_the_old_one_stays(record, sitting, enter, written) -> None:
    enter(written(sitting.papers[0], "910", "7"))
    done = enter(written(sitting.papers[0], "901", "7"))
    [change] = done.changed
    assert (change.before, change.after, change.by) == ("910", "901", "J. Marsh")
    assert rows(record, SCRIPT) == 2
    [stands] = scripts_of(record, sitting.code, "first")
    assert list(stands.cells.values())[:2] == ["901", "7"]


def test_why_a_cell_could_not_be_read_is_kept(record, sitting, enter) -> None:
    script = Script(code=sitting.papers[0].code, cells={"1a": ""}, unread={"1a": "holds a formula"})
    enter(script)
    assert scripts_of(record, sitting.code, "first") == (script,)


def test_the_second_marker_is_apart_from_the_first(record, sitting, enter, written) -> None:
    enter(written(sitting.papers[0], "910"))
    enter(written(sitting.papers[0], "911"), role="second", assessor="P. Reed")
    assert next(iter(scripts_of(record, sitting.code, "first")[0].cells.values())) == "910"
    assert next(iter(scripts_of(record, sitting.code, "second")[0].cells.values())) == "911"


def test_a_resubmission_is_the_next_attempt_and_entered_once(record, sitting, enter, written) -> None:
    first, again = written(sitting.papers[0], "910"), written(sitting.papers[0], "1125", status="resubmitted")
    enter(first)
    assert enter(again).new == (first.code,)  # the row typed over
    assert enter(again).same == (first.code,)
    assert scripts_of(record, sitting.code, "first") == (first, again)
    third = written(sitting.papers[0], "1135", status="resubmitted", line=9)
    enter(first, again, third)  # in rows of their own
    assert scripts_of(record, sitting.code, "first") == (first, again, third)


def test_a_resubmission_may_be_put_right(record, sitting, enter, written) -> None:
    enter(written(sitting.papers[0], "910"))
    enter(written(sitting.papers[0], "1152", status="resubmitted"))
    right = written(sitting.papers[0], "1125", status="resubmitted")
    assert [change.after for change in enter(right).changed] == ["1125"]
    assert scripts_of(record, sitting.code, "first")[1:] == (right,)


def test_a_paper_in_two_rows_is_refused_whole(record, sitting, enter, written) -> None:
    with pytest.raises(RecordRefuses, match="stands in two rows"):
        enter(written(sitting.papers[1], "1"), written(sitting.papers[0], "1"), written(sitting.papers[0], "2"))
    assert rows(record, SCRIPT) == 0


def test_a_paper_of_no_sitting_is_refused_whole(record, sitting, enter, written) -> None:
    strange = Script(code="AAAA-AAAA-A", cells={"1a": "1"})
    with pytest.raises(RecordRefuses, match="has no paper AAAA-AAAA-A"):
        enter(written(sitting.papers[0], "1"), strange)
    assert rows(record, SCRIPT) == 0


def decision(sitting, marks: int | None = 1, reason: str = "method shown", comment: str = "", label: str = "1a"):
    return Decision(code=sitting.papers[0].code, label=label, marks=marks, reason=reason, comment=comment)


def test_a_decision_is_entered_once_and_replaced_by_the_next(record, sitting, enter) -> None:
    first, second = decision(sitting), decision(sitting, marks=2, reason="on a second look")
    assert enter(decisions=[first]).decided == (first,)
    assert enter(decisions=[first]).decided == ()
    enter(decisions=[second])
    assert decisions_of(record, sitting.code, "first").standing == (second,)
    assert rows(record, DECISION) == 2
    assert decisions_of(record, sitting.code, "second").standing == ()


def test_a_decision_that_left_the_sheet_stands(record, sitting, enter) -> None:
    enter(decisions=[decision(sitting)])
    enter()
    assert decisions_of(record, sitting.code, "first").standing == (decision(sitting),)


@pytest.mark.each_database
def test_an_old_copy_does_not_bring_back_what_another_assessor_replaced(record, sitting, enter) -> None:
    old, new = decision(sitting), decision(sitting, marks=0, reason="copied from the board")
    enter(decisions=[old], assessor="J. Marsh")
    enter(decisions=[new], assessor="P. Reed")
    assert enter(decisions=[old], assessor="J. Marsh").decided == ()
    assert decisions_of(record, sitting.code, "first").standing == (new,)


def test_a_comment_beside_a_decision_joins_it(record, sitting, enter) -> None:
    comment = decision(sitting, marks=None, reason="", comment="Show the joint.")
    enter(decisions=[decision(sitting), comment])
    assert decisions_of(record, sitting.code, "first").standing == (decision(sitting, comment="Show the joint."),)
    enter(decisions=[decision(sitting), comment])
    assert rows(record, DECISION) == 1
