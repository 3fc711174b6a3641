"""A second marker's round: scripts out, marks in, differences settled by a third entry, agreement as it was found."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import openpyxl
import pytest

from courseware.database.opening import open_record
from courseware.files.bank_files import NotFound
from courseware.settings.settings import DEFAULTS, Settings
from courseware.spreadsheets.rows import TableFaulty
from courseware.workflows.mark_sitting import MarkOptions, mark_sitting
from courseware.workflows.quality import compare_markers
from courseware.workflows.second_marking import enter_second, scripts_to_mark, second_lines, write_second_sheet
from tests.marked_sitting import figure

PROGRAM = Settings(first_marker="program")


@pytest.fixture
def engine(place):
    engine = open_record("sqlite:///output/record.sqlite")
    yield engine
    engine.dispose()


def filled(engine, place, marks=None, rows=None) -> Path:
    """The second marker's sheet with what each part is worth as its mark, but for those given otherwise by row."""
    path, _ = write_second_sheet(engine, place)
    book = openpyxl.load_workbook(path)
    sheet = book["Marks"]
    for line in range(2, sheet.max_row + 1):
        if rows is None or line in rows:
            sheet.cell(
                line,
                9,
                (marks or {}).get((sheet.cell(line, 1).value, sheet.cell(line, 3).value), sheet.cell(line, 8).value),
            )
    written = BytesIO()
    book.save(written)
    Path("filled.xlsx").write_bytes(written.getvalue())
    return Path("filled.xlsx")


def entered(engine, place, sheet, settings=PROGRAM, marker="P. Dunn"):
    return enter_second(engine, place, sheet, settings, marker=marker, names=False)


def test_the_second_marker_gets_every_script_as_written_once(engine, place) -> None:
    first, second, _ = place.sitting.papers
    path, new = write_second_sheet(engine, place)
    assert (new, path.stat().st_mode & 0o777) == (True, 0o600)
    rows = list(openpyxl.load_workbook(path)["Marks"].values)
    assert {row[0] for row in rows[1:]} == {first.code, second.code}  # the third was absent
    wrong = next(row for row in rows if row[0] == second.code and row[2] == figure(first))
    assert (wrong[5], wrong[8]) == ("7", None)
    assert not any("showed the working aloud" in str(cell) for row in rows for cell in row)
    path.write_bytes(b"half filled in")
    assert write_second_sheet(engine, place) == (path, False)
    assert path.read_bytes() == b"half filled in"


def test_nothing_of_the_first_markers_is_written_before_the_second_has_finished(engine, place) -> None:
    done = entered(engine, place, filled(engine, place, rows={2, 3}))
    assert (done.added, done.files) == (2, ())
    assert list(second_lines(done, place)) == [
        f"Not finished yet, so nothing is shown of: {place.sitting.papers[0].code}."
    ]
    assert not list(place.path.rglob("two-markers*"))


@pytest.mark.parametrize("name", ["J. Marsh", "j marsh"])
def test_who_marked_first_is_refused_and_nothing_is_entered(engine, place, name: str) -> None:
    with pytest.raises(TableFaulty, match=f"{name} marked .* first; the second marker is another person"):
        entered(engine, place, filled(engine, place), marker=name)
    assert compare_markers(engine, place.sitting.code, PROGRAM).compared == ()


def test_only_an_assessors_own_marks_are_compared_unless_the_centre_counts_the_program(engine, place) -> None:
    """One part of the two papers was decided by the first marker; the program alone read the others."""
    sheet = filled(engine, place)
    done = entered(engine, place, sheet, DEFAULTS)
    parts = sum(len(script.parts) for script in scripts_to_mark(engine, place))
    assert (done.found.parts, done.found.alone) == (1, parts - 1)
    assert (len(done.found.compared), len(done.found.both)) == (2, 1)  # of two papers one has a part that both marked
    assert "on 1 paper." in "\n".join(second_lines(done, place))
    assert f"{parts - 1} parts have one person's mark alone and do not count" in "\n".join(second_lines(done, place))
    assert entered(engine, place, sheet).found.parts == parts


def test_differences_are_settled_by_a_third_entry_and_agreement_stays_as_it_was_found(engine, place, heard) -> None:
    second = place.sitting.papers[1]
    label = figure(place.sitting.papers[0])
    done = entered(engine, place, filled(engine, place, {(second.code, label): 0}))
    [one] = done.found.differences
    assert (one.code, one.label, one.first.marks, one.second.marks) == (second.code, label, 1, 0)
    before = done.found.agreement
    book = openpyxl.load_workbook(done.files[1])
    assert [cell.value for cell in book["Decisions"][2]][:2] == [second.code, label]
    book["Decisions"]["C2"], book["Decisions"]["D2"] = 0, "Agreed: no working on the paper"
    book.save("agreed at last.xlsx")
    options = MarkOptions(assessor="R. Holt")
    marked = mark_sitting(place, "agreed at last.xlsx", (), options, heard, when_marked=lambda *_: None)
    [own] = [
        mark
        for paper in marked.marked.papers
        for mark in paper.marks
        if (paper.code, mark.label) == (second.code, label)
    ]
    assert (own.marks, own.how) == (0, "decided")
    after = compare_markers(engine, place.sitting.code, PROGRAM)
    assert after.agreement == before
    assert [one.label for one in after.differences] == [label]


def test_a_sheet_without_marks_says_so(engine, place) -> None:
    path, _ = write_second_sheet(engine, place)
    with pytest.raises(NotFound, match="has no marks yet; fill in `marks`, then enter it again"):
        entered(engine, place, path)
