"""Class lists as colleges export them: titles above, surnames first, totals and page feet below, headings again."""

from __future__ import annotations

from io import BytesIO

import openpyxl
import pytest

from courseware.papers.class_list import TableFaulty, read_class_list
from courseware.papers.not_learners import turned_round
from courseware.spreadsheets.rows import TITLES_WITHIN

# Common practice of exports, no source.
EXPORT = """\
Riverside College,,
Class list: Bricklaying L2 (evening),,
Printed: 05/01/2026 09:12,,

Ref,"Surname, Forename",Mode
0012,"Okafor, Amara",PT
0013,"Wójcik, Łukasz",PT
Page 1,,
Ref,"Surname, Forename",Mode
0014,"O'Brien-Smythe, Zoë",FT
Total learners: 3,,
"""


def names(text: str, file: str = "list.csv") -> list[str]:
    return [learner.name for learner in read_class_list(text.encode(), file).learners]


def book(*sheets: list[list[object]]) -> bytes:
    made = openpyxl.Workbook()
    made.remove(made.active)
    for rows in sheets:
        sheet = made.create_sheet()
        for row in rows:
            sheet.append(row)
    out = BytesIO()
    made.save(out)
    return out.getvalue()


def test_a_whole_export_is_read_and_what_was_left_out_is_told() -> None:
    found = read_class_list(EXPORT.encode(), "list.csv")
    assert [(one.reference, one.name) for one in found.learners] == [
        ("0012", "Amara Okafor"), ("0013", "Łukasz Wójcik"), ("0014", "Zoë O'Brien-Smythe"),
    ]  # fmt: skip
    assert "Not read: 3 rows above the headings." in found.notes
    assert "Left out, since no learner stands on lines 8, 9 and 11." in found.notes
    assert "Names stand surname first and were turned round, as `Amara Okafor`." in found.notes


def test_the_same_export_as_a_workbook() -> None:
    rows = [["Riverside College"], ["Class list"], ["No", "Learner", "Group"], [1, "Okafor, Amara", "A"],
            [2, "Wójcik, Łukasz", "A"], ["Total", 2]]  # fmt: skip
    found = read_class_list(book(rows), "list.xlsx")
    assert [one.name for one in found.learners] == ["Amara Okafor", "Łukasz Wójcik"]
    assert "Left out, since no learner stands on line 6." in found.notes


def test_of_two_sheets_the_one_with_the_headings_is_read_and_that_is_told() -> None:
    cover, group = [["Riverside College"], ["Bricklaying"]], [["Evening"], ["Name"], ["Amara Okafor"]]
    found = read_class_list(book(cover, group), "list.xlsx")
    assert [one.name for one in found.learners] == ["Amara Okafor"]
    assert any("of 2 in the workbook" in note for note in found.notes)


@pytest.mark.parametrize(
    ("titles", "read"), [(TITLES_WITHIN - 2, True), (TITLES_WITHIN - 1, True), (TITLES_WITHIN, False)]
)
def test_headings_are_looked_for_among_the_first_rows(titles: int, read: bool) -> None:
    text = "A title\n" * titles + "Name\nAmara Okafor\n"
    if read:
        assert names(text) == ["Amara Okafor"]
    else:
        with pytest.raises(TableFaulty, match="no heading tells"):
            names(text)


@pytest.mark.parametrize(
    "foot",
    [
        "Total learners: 14",
        "TOTAL,14",
        "Number of students: 2",
        "Count,2",
        "Page 2 of 2",
        "End of report",
        "Printed on 5/1/2026",
    ],
)
def test_a_foot_is_no_learner(foot: str) -> None:
    assert names(f"Name,Ref\nAmara Okafor,1\n{foot}\n") == ["Amara Okafor"]


@pytest.mark.parametrize("learner", ["Total Eclipse,7a", "Page Turner,A7", "Countess Ada,x", "Reporter Jo,B"])
def test_a_learner_whose_name_begins_like_a_foot_is_one(learner: str) -> None:
    assert names(f"Name,Ref\n{learner}\n") == [learner.split(",", maxsplit=1)[0]]


def test_a_row_that_may_be_a_learner_is_asked_about_by_its_line() -> None:
    with pytest.raises(TableFaulty, match=r"list\.csv:3:1: 1 cell under 2 headings"):
        names("Name,Ref\nAmara Okafor,1\nŁukasz Wójcik\n")


@pytest.mark.parametrize(
    ("name", "said"),
    [("Okafor, Amara", "Amara Okafor"), ("Okafor,Amara", "Amara Okafor"), ("Amara Okafor", "Amara Okafor"),
     ("Okafor,", "Okafor,"), (", Amara", ", Amara"), ("King, Jr., Lee", "King, Jr., Lee")],
)  # fmt: skip
def test_a_name_with_one_comma_in_its_middle_is_turned_round(name: str, said: str) -> None:
    assert turned_round(name) == said


@pytest.mark.parametrize(
    ("names_written", "read"),
    [
        (['"Okafor, Amara"'], ["Okafor, Amara"]),  # one may be anything
        (['"Okafor, Amara"', '"Hill, Sam"'], ["Amara Okafor", "Sam Hill"]),
        (['"Okafor, Amara"', "Sam Hill"], ["Okafor, Amara", "Sam Hill"]),
    ],
)
def test_surnames_first_are_known_by_all_having_a_comma(names_written: list[str], read: list[str]) -> None:
    assert names("Name\n" + "\n".join(names_written) + "\n") == read
