"""An appeal's round: what stood is frozen, another person marks again, the outcome stands beside the first marking."""

from __future__ import annotations

from datetime import UTC, datetime

import openpyxl
import page
import pytest
from pypdf import PdfReader

from courseware.database.appeals import appeal_of
from courseware.database.errors import RecordRefuses
from courseware.database.given_marks import keep_given
from courseware.database.history import history
from courseware.database.kept_marks import marks_of
from courseware.database.opening import open_record
from courseware.database.written_files import files_written
from courseware.files.bank_files import NotFound
from courseware.quality.marks_by_hand import HandMark
from courseware.settings.settings import DEFAULTS, Settings
from courseware.spreadsheets.rows import TableFaulty
from courseware.workflows.appeal import begin_appeal, end_appeal
from courseware.workflows.quality import compare_markers
from tests.marked_sitting import enter, figure, script
from tests.workflows.filled_marks import fill

CHANGED = {"outcome": "changed", "date": "2026-02-09", "reason": "the working was sound"}


@pytest.fixture
def engine(place):
    engine = open_record("sqlite:///output/record.sqlite")
    yield engine
    engine.dispose()


@pytest.fixture
def code(place) -> str:
    """The second learner's paper: one part was answered with 7, and decided to be worth one mark."""
    return place.sitting.papers[1].code


@pytest.fixture
def begun(engine, place, code):
    return begin_appeal(engine, place, code, DEFAULTS, reason="1a was right", by="J. Marsh", day="2026-02-01")


def end(engine, place, code, sheet, heard, by: str = "R. Holt"):
    return end_appeal(engine, place, code, sheet, DEFAULTS, heard, by=by, names=False, processes=1)


def test_what_stood_is_bound_and_the_re_mark_shows_no_mark_of_the_first(engine, begun, code, place) -> None:
    assert (begun.appeal.code, begun.appeal.is_open) == (code, True)
    assert begun.frozen.name == f"audit-{code}.pdf"
    noted = {one.path for one in files_written(engine) if one.codes == (code,)}
    assert {begun.frozen.resolve(), begun.sheet.resolve()} <= noted
    rows = list(openpyxl.load_workbook(begun.sheet)["Marks"].values)
    assert {row[0] for row in rows[1:]} == {code}
    assert {row[8] for row in rows[1:]} == {None}
    with pytest.raises(RecordRefuses, match="is under appeal since 2026-02-01"):
        enter(place, (script(place.sitting.papers[1], 3),), (), "J. Marsh", "first")


def test_where_the_marks_change_each_is_a_decision_and_the_first_marking_stays_in_the_history(
    engine, place, begun, code, heard
) -> None:
    """The outcome's sheet by ISO 14289-1 (PDF/UA-1), as the package page-validation reads it."""
    label = figure(place.sitting.papers[0])
    worth = next(mark.of for mark in marks_of(engine, place.sitting.code, "first")[1].marks if mark.label == label)
    done = end(engine, place, code, fill(begun.sheet, "again.xlsx", outcome=CHANGED), heard)
    assert done.changed == 1
    [mark] = [one for one in marks_of(engine, place.sitting.code, "first")[1].marks if one.label == label]
    assert (mark.marks, mark.how) == (worth, "decided")
    assert mark.why.startswith("Appeal: the working was sound.")
    events = history(engine, code)
    assert any(event.what == f"mark for {label}" and event.after.startswith("1 of") for event in events)
    assert (appeal_of(engine, code).outcome, appeal_of(engine, code).marks) == ("changed", begun.appeal.marks)
    assert (place.path / "marked" / f"feedback-{code}.pdf").is_file()
    text = " ".join(one.extract_text() for one in PdfReader(done.files[0]).pages)
    assert "First marked by J. Marsh; marked again by R. Holt on 9 February 2026." in " ".join(text.split())
    assert done.files[0].parent == begun.frozen.parent
    report = page.validate_pdf_bytes(done.files[0].read_bytes(), profile="ua1")
    assert report.is_compliant, [failure.message for failure in report.failures]
    assert [file.name for file in done.files] == [f"appeal-outcome-{code}.pdf", f"appeal-outcome-{code}.xlsx"]


def test_a_mark_changed_on_appeal_is_no_agreement_of_two_markers(engine, place, begun, code, heard) -> None:
    own = marks_of(engine, place.sitting.code, "first")[1]
    given = [
        HandMark(code=code, attempt=1, label=mark.label, marks=mark.of, note="", written=mark.written, by="")
        for mark in own.marks
    ]
    at = datetime(2026, 2, 2, tzinfo=UTC)
    keep_given(engine, place.sitting.code, given, "second", by="P. Dunn", source="second.xlsx", at=at)
    before = compare_markers(engine, place.sitting.code, Settings(first_marker="program"))
    assert len(before.differences) == 1
    assert end(engine, place, code, fill(begun.sheet, "again.xlsx", outcome=CHANGED), heard).changed == 1
    assert compare_markers(engine, place.sitting.code, Settings(first_marker="program")) == before


def test_marks_that_stand_are_left_alone(engine, place, begun, code, heard) -> None:
    before = marks_of(engine, place.sitting.code, "first")
    stands = {**CHANGED, "outcome": "stands"}
    assert end(engine, place, code, fill(begun.sheet, "again.xlsx", outcome=stands), heard).changed == 0
    assert marks_of(engine, place.sitting.code, "first") == before
    assert appeal_of(engine, code).outcome == "stands"
    with pytest.raises(NotFound, match=f"no appeal on {code} is open"):
        end(engine, place, code, begun.sheet, heard)


def test_whoever_marked_it_before_does_not_mark_it_again_and_it_is_marked_whole(
    engine, place, begun, code, heard
) -> None:
    with pytest.raises(TableFaulty, match=r"j\.marsh marked .* first; the one who marks it again is another person"):
        end(engine, place, code, fill(begun.sheet, "again.xlsx", outcome=CHANGED), heard, by="j.marsh")
    book = openpyxl.load_workbook(fill(begun.sheet, "again.xlsx", outcome=CHANGED))
    book["Marks"]["I2"] = None
    book.save("again.xlsx")
    with pytest.raises(NotFound, match="has no mark yet for 1a; a re-mark is of the whole script"):
        end(engine, place, code, begun.sheet.parent.parent.parent / "again.xlsx", heard)
    assert appeal_of(engine, code).is_open


def test_there_must_be_something_to_appeal_against(engine, place) -> None:
    absent = place.sitting.papers[2].code
    for asked, says in ((absent, "is not marked"), ("AAAA-AAAA-A", "has no paper")):
        with pytest.raises(NotFound, match=says):
            begin_appeal(engine, place, asked, DEFAULTS, reason="x", by="J. Marsh", day="2026-02-01")
