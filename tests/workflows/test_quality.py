"""Samples and two markers: what a quality assurer asks of the record."""

from __future__ import annotations

from io import BytesIO

import openpyxl

from courseware.database.opening import open_record
from courseware.marking.script_sheet import read_scripts
from courseware.workflows.quality import write_second
from tests.marked_sitting import enter, figure, script


def test_nothing_of_the_first_markers_is_written_before_the_second_has_finished(place) -> None:
    engine = open_record("sqlite:///output/record.sqlite")
    assert list(write_second(engine, place, names=False)) == [
        "No paper is marked in full by both yet, so nothing of the first marker's is shown."
    ]
    engine.dispose()
    assert not list(place.path.rglob("two-markers*"))


def test_differences_go_out_and_the_agreed_marks_come_back(place) -> None:
    first, second, _ = place.sitting.papers
    label = figure(first)
    enter(place, (script(first, 2), script(second, 3, **{f"_{label}": "7"})), (), "P. Dunn", "second")
    engine = open_record("sqlite:///output/record.sqlite")
    told = list(write_second(engine, place, names=False))
    assert told[0].startswith("1 of ")
    file = place.path / "marked" / "two-markers.xlsx"
    book = openpyxl.load_workbook(file)
    rows = list(book["Decisions"].values)
    assert rows[1][:2] == (second.code, label)
    book["Decisions"]["C2"] = 0
    book["Decisions"]["D2"] = "Agreed: no working on the paper"
    written = BytesIO()
    book.save(written)
    sheet = read_scripts(written.getvalue(), "two-markers.xlsx", place.sitting)
    assert sheet.scripts == ()
    (agreed,) = sheet.decisions
    assert (agreed.code, agreed.label, agreed.marks) == (second.code, label, 0)
    list(write_second(engine, place, names=False))
    engine.dispose()
    assert (place.path / "marked" / "two-markers-2.xlsx").exists()
