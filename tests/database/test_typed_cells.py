"""Cells typed on the screen: each kept as it is typed; two windows and two assessors lose nothing to each other."""

from __future__ import annotations

from threading import Thread

import pytest
from sqlalchemy import func, select

from courseware.database.connection import reading
from courseware.database.errors import RecordRefuses
from courseware.database.history import history
from courseware.database.learner_lookup import whose
from courseware.database.learners import delete_papers, export_learner, held
from courseware.database.opening import open_record
from courseware.database.scripts import enter_scripts, scripts_of
from courseware.database.sittings import take
from courseware.database.tables import SCRIPT, TYPED_OTHERWISE
from courseware.database.typed_cells import TypedCell, on_screen, type_cell, typed_otherwise
from courseware.papers.sitting_file import write_sitting
from tests.database.conftest import labels


@pytest.fixture
def typing(record, sitting, later):
    """Types into the first paper's first part, or elsewhere, a minute after the last."""
    paper = sitting.papers[0]
    minute = iter(range(1, 1000))

    def go(text, seen="", *, label=None, by="J. Marsh", code=paper.code, attempt=1, settles=False, role="first"):
        own = labels(paper)
        cell = TypedCell(
            code=code, attempt=attempt, label=own[0] if label is None else label, text=text, seen=seen, settles=settles
        )
        return type_cell(record, sitting.code, cell, own, assessor=by, role=role, at=later(next(minute)))

    return go


def count(record, table) -> int:
    with reading(record) as connection:
        return connection.scalar(select(func.count()).select_from(table))


def test_a_cell_is_there_once_it_is_typed(record, sitting, typing) -> None:
    assert typing("910").saved == "entered"
    [script] = scripts_of(record, sitting.code, "first")
    assert script.cells == {**dict.fromkeys(labels(sitting.papers[0]), ""), labels(sitting.papers[0])[0]: "910"}


def test_it_makes_the_script_that_a_sheet_makes(record, sitting, typing, written, later, tmp_path) -> None:
    """The same cells in the same order, whichever way they came in."""
    first, second = labels(sitting.papers[0])[:2]
    typing("7", label=second)
    typing("910", label=first)
    typing("late", label="")
    by_sheet = open_record(f"sqlite:///{tmp_path / 'sheet.sqlite'}")
    take(by_sheet, sitting, write_sitting(sitting), at=later(0))
    script = written(sitting.papers[0], "910", "7", status="late", line=0)
    enter_scripts(by_sheet, sitting.code, [script], (), assessor="J. Marsh", role="first", source="s", at=later(1))
    assert scripts_of(record, sitting.code, "first") == scripts_of(by_sheet, sitting.code, "first")
    with reading(record) as one, reading(by_sheet) as other:
        newest = select(SCRIPT.c.cells, SCRIPT.c.status).order_by(SCRIPT.c.id.desc()).limit(1)
        assert one.execute(newest).one() == other.execute(newest).one()


def test_the_same_text_adds_no_row(record, typing) -> None:
    typing("910")
    assert typing("910", seen="").saved == "same"  # sent again, since its answer was lost
    assert typing("910", seen="910").saved == "same"
    assert count(record, SCRIPT) == 1


def test_what_was_seen_may_be_corrected_by_anybody(record, sitting, typing) -> None:
    typing("910")
    done = typing("901", seen="910", by="A. Boateng")
    assert (done.saved, done.stands, done.by) == ("entered", "901", "A. Boateng")
    assert not typed_otherwise(record, sitting.code, "first")


@pytest.mark.parametrize("other", ["A. Boateng", "J. Marsh"])
@pytest.mark.each_database
def test_where_two_typed_differently_both_are_kept_and_both_are_told(record, sitting, typing, other) -> None:
    """Another assessor, or the same one in a second window: neither had seen what the other typed."""
    typing("910")
    done = typing("901", seen="", by=other)
    assert (done.saved, done.stands, done.by) == ("otherwise", "910", "J. Marsh")
    [both] = typed_otherwise(record, sitting.code, "first")
    assert (both.stands, both.stands_by, both.text, both.by) == ("910", "J. Marsh", "901", other)
    typing("901", seen="", by=other)  # sent again
    assert len(typed_otherwise(record, sitting.code, "first")) == 1


@pytest.mark.parametrize("stands", ["910", "901", "915"])
def test_either_or_another_stands_once_it_is_settled(record, sitting, typing, stands) -> None:
    typing("910")
    typing("901", by="A. Boateng")
    typing(stands, seen="910", settles=True)
    assert not typed_otherwise(record, sitting.code, "first")
    [script] = scripts_of(record, sitting.code, "first")
    assert script.cells[labels(sitting.papers[0])[0]] == stands


def test_settling_what_has_changed_meanwhile_is_typed_otherwise_again(record, sitting, typing) -> None:
    typing("910")
    typing("901", by="A. Boateng")
    typing("912", seen="910")
    assert typing("901", seen="910", settles=True, by="A. Boateng").saved == "otherwise"
    assert {one.text for one in typed_otherwise(record, sitting.code, "first")} == {"901"}


def test_what_the_first_came_to_as_well_is_settled_by_that(record, sitting, typing) -> None:
    typing("910")
    typing("901", by="A. Boateng")
    typing("901", seen="910")
    assert not typed_otherwise(record, sitting.code, "first")


@pytest.mark.each_database
def test_cells_typed_at_the_same_moment_all_stand(record, sitting, later) -> None:
    """Two assessors in one script, each through a connection of their own."""
    paper = sitting.papers[0]
    own = labels(paper)

    def type_all(by: str, mine: list[str]) -> None:
        engine = open_record(record.url)
        for label in mine:
            cell = TypedCell(code=paper.code, attempt=1, label=label, text=f"{by} {label}", seen="")
            type_cell(engine, sitting.code, cell, own, assessor=by, role="first", at=later(1))
        engine.dispose()

    threads = [Thread(target=type_all, args=(by, own[start::2])) for start, by in enumerate(("J. Marsh", "A. Boateng"))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    [script] = scripts_of(record, sitting.code, "first")
    assert script.cells == {label: f"{('J. Marsh', 'A. Boateng')[n % 2]} {label}" for n, label in enumerate(own)}


def test_a_script_handed_in_again_says_so_from_its_first_cell_on(record, sitting, typing) -> None:
    typing("910")
    typing("912", attempt=2)
    assert [script.status for script in scripts_of(record, sitting.code, "first")] == ["", "resubmitted"]
    with pytest.raises(RecordRefuses, match="was not handed in 4 times"):
        typing("912", attempt=4)


@pytest.mark.parametrize(("wrong", "says"), [({"code": "AAAA-AAAA-A"}, "has no paper"), ({"label": "9z"}, "no part")])
def test_a_cell_that_is_not_there_is_refused(typing, wrong, says) -> None:
    with pytest.raises(RecordRefuses, match=says):
        typing("910", **wrong)


def test_the_screen_hears_only_of_what_is_new(record, sitting, typing) -> None:
    typing("910")
    first = on_screen(record, sitting.code, "first")
    assert list(first.scripts) == [(sitting.papers[0].code, 1)]
    assert not on_screen(record, sitting.code, "first", first.newest).scripts
    typing("12", code=sitting.papers[1].code, by="A. Boateng")
    later = on_screen(record, sitting.code, "first", first.newest)
    assert list(later.scripts) == [(sitting.papers[1].code, 1)]
    assert on_screen(record, sitting.code, "second").scripts == {}


def test_it_is_in_the_history_and_goes_with_its_learner(record, sitting, typing) -> None:
    paper = sitting.papers[0]
    typing("910")
    typing("901", by="A. Boateng")
    typing("901", seen="910", settles=True)
    told = [(event.by, event.what, event.before, event.after) for event in history(record, paper.code)]
    label = labels(paper)[0]
    assert ("A. Boateng", f"{label} typed otherwise", "910", "901") in told
    assert ("J. Marsh", f"{label} settled", "901", "901") in told
    [exported] = export_learner(record, paper.learner.name)["papers"]
    assert [row["text"] for row in exported["typed_otherwise"]] == ["901", "901"]
    delete_papers(record, whose(held(record), paper.learner.name))
    assert count(record, TYPED_OTHERWISE) == 0
