"""One sheet of what a class practised: in order of names, without ranks, doubtful files marked."""

from __future__ import annotations

import io
from datetime import date

import openpyxl

from courseware.practice.class_progress import common_slips, newest_of_each, progress_sheet, progress_workbook
from courseware.practice.saved_file import SavedPractice, read_practice
from tests.practice.saved_practices import SLIP, as_bytes, practised, saved

BEDS = "Beds were counted one too many"


def read(file: str = "a.json", **more) -> SavedPractice:
    return read_practice(as_bytes(saved(**more)), file, date(2026, 4, 1))


def rows(*files: SavedPractice) -> list[tuple[str, ...]]:
    sheet = progress_sheet(newest_of_each(files)[0], "2026-04-01", "Brookfield College")
    [table, _] = [block.table for block in sheet.blocks if block.table] + [None] * (not common_slips(files))
    return list(table.rows)


def test_learners_stand_in_order_of_names_and_those_without_last() -> None:
    found = rows(read("c.json", name=""), read(name="zoë", start=2), read(name="Amira", start=3))
    assert [row[0] for row in found] == ["Amira", "zoë", "no name (c.json)"]


def test_a_row_has_days_questions_what_is_secure_and_the_slips_that_still_come() -> None:
    kinds = [practised(secure=True), practised("Height of a lift", slips=(SLIP, BEDS, "A third"))]
    [row] = rows(read(days=3, kinds=kinds))
    assert row == ("Amira Khan", "3", "3 March 2026", "30", "21", "1 of 2", f"3: {SLIP}; {BEDS}; 1 more")


def test_a_learner_who_has_done_nothing_has_a_row_of_noughts() -> None:
    assert rows(read(days=0, kinds=[])) == [("Amira Khan", "0", "–", "0", "0", "0 of 0", "none")]


def test_slips_of_the_class_are_counted_by_learner_the_commonest_first() -> None:
    twice = read(kinds=[practised(slips=(BEDS, BEDS))])
    found = common_slips([twice, read(kinds=[practised(slips=(SLIP,))]), read(kinds=[practised(slips=(SLIP, ""))])])
    assert [(slip.says, slip.learners) for slip in found] == [(SLIP, 2), (BEDS, 1), ("", 1)]


def test_of_one_learners_files_from_one_phone_the_newest_counts() -> None:
    old, new = read("old.json", days=1), read("new.json", days=2)
    files, notes = newest_of_each([new, old])
    assert [one.file for one in files] == ["new.json"]
    assert notes == ("old.json is left out: new.json is newer, of the same learner and phone.",)
    assert len(newest_of_each([old, read("b.json", start=2)])[0]) == 2  # two of a name, two phones


def test_a_changed_file_is_marked_and_why_is_said() -> None:
    sheet = progress_sheet([read("b.json", name="Amira", seal="0")], "2026-04-01", "")
    [row] = next(block.table.rows for block in sheet.blocks if block.table)
    assert row[0] == "Amira *"
    assert "* b.json (Amira) is not to be relied on: it was changed since the page saved it." in [
        line for block in sheet.blocks for line in block.text
    ]


def test_the_workbook_has_all_of_it_and_no_formula() -> None:
    data = progress_workbook([read(name="=1+1", days=2, kinds=[practised(secure=True, slips=(SLIP,))])], "2026-04-01")
    book = openpyxl.load_workbook(io.BytesIO(data))
    assert book.sheetnames == ["Learners", "Slips", "Exercises", "Days", "About"]
    assert [cell.value for cell in book["Learners"][2]][:7] == ["=1+1", 2, "2026-03-02", 20, 14, 1, 1]
    assert book["Learners"]["A2"].data_type == "s"
    assert [cell.value for cell in book["Slips"][2]] == [SLIP, "Opening sizes", "Opening for a panel", 1]
    assert book["Days"].max_row == 3
