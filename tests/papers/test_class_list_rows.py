"""A class list row by row: nothing that was typed is lost, every row says what is wrong with it. Learners are invented."""

from __future__ import annotations

import pytest

from courseware.papers.class_list import read_class_list
from courseware.papers.class_list_rows import TypedRow, check_rows, mended, own_workbook, read_rows
from courseware.papers.sheet_format import read_format
from courseware.spreadsheets.rows import TableFaulty

AMARA = TypedRow(name="Amara Okafor", reference="0012", level="2", paper="large-18")
LUKASZ = TypedRow(name="Łukasz Wójcik")


def rows(text: str) -> tuple[TypedRow, ...]:
    return read_rows(text.encode(), "group-a.csv").rows


def notes(text: str) -> list[str]:
    return list(read_rows(text.encode(), "group-a.csv").notes)


def test_every_column_that_is_read_is_kept_as_it_was_typed() -> None:
    assert rows("Name,ID,Level,Paper\nAmara Okafor,0012,2,large-18\nŁukasz Wójcik,,,\n") == (AMARA, LUKASZ)


def test_a_row_with_a_fault_stands_with_the_others() -> None:
    faulty = rows("Name,ID,Paper\nAmara Okafor,1,huge\n,2,\nŁukasz Wójcik,3,\n")
    checked = check_rows(faulty)
    assert [row.reference for row in faulty] == ["1", "2", "3"]
    assert checked.found is None
    assert sorted(checked.wrong) == [0, 1]
    assert "`huge` is not a word for a paper's format" in checked.wrong[0][0]
    assert checked.wrong[1][0].startswith("no name stands in this row")


def test_what_is_left_out_is_said_with_what_stood_there() -> None:
    told = notes("Group A\nName,Tutor\nAmara Okafor,Mrs Hill\nTotal,1\nŁukasz Wójcik,Mrs Hill\n")
    assert told == [
        "Not read: 1 row above the headings.",
        "Not used: the column `Tutor`.",
        "Line 4 was left out, since no learner stands on it: Total and 1.",
    ]


def test_a_row_of_another_width_is_read_and_told() -> None:
    text = "Name,ID,Level\nAmara Okafor,1\nŁukasz Wójcik,2,1,more\n"
    assert [row.name for row in rows(text)] == ["Amara Okafor", "Łukasz Wójcik"]
    assert notes(text) == [
        "Line 2 has 2 cells under 3 headings: look at it.",
        "Line 3 has 4 cells under 3 headings: look at it.",
    ]


def test_names_that_stand_surname_first_are_turned_round() -> None:
    text = 'Name\n"Okafor, Amara"\n"Wójcik, Łukasz"\n'
    assert [row.name for row in rows(text)] == ["Amara Okafor", "Łukasz Wójcik"]
    assert "turned round" in notes(text)[0]


@pytest.mark.parametrize("text", ["", "Colour,Size\nred,3\n"])
def test_what_is_no_class_list_is_refused(text: str) -> None:
    with pytest.raises(TableFaulty):
        read_rows(text.encode(), "group-a.csv")


def test_more_rows_than_a_list_may_have_are_left_out_and_told() -> None:
    told = read_rows(("Name\n" + "".join(f"Learner {n}\n" for n in range(1001))).encode(), "long.csv")
    assert len(told.rows) == 1000
    assert "goes on after 1000 learners" in told.notes[-1]


def test_our_own_list_is_one_that_every_command_reads() -> None:
    found = read_class_list(own_workbook([AMARA, LUKASZ], "2026-01-05"), "group-a.xlsx")
    assert [(who.name, who.reference, who.sheets) for who in found.learners] == [
        ("Amara Okafor", "0012", read_format("large-18")),
        ("Łukasz Wójcik", "", read_format("")),
    ]


def test_what_looks_like_a_formula_comes_back_as_it_was_typed() -> None:
    row = TypedRow(name="=1+1", reference="+44")
    assert read_rows(own_workbook([row], "2026-01-05"), "own.xlsx").rows == (row,)


def test_names_and_references_that_stand_twice_are_told_with_the_faults_of_other_rows() -> None:
    checked = check_rows(rows("Name,ID,Paper\nAmara Okafor,1,\nŁukasz Wójcik,1,huge\namara  OKAFOR,3,\n"))
    assert (checked.found, list(checked.wrong)) == (None, [1])
    assert checked.doubts == (
        "The name `Amara Okafor` stands on lines 2 and 4: the same person, or namesakes?",
        "The reference `1` stands on lines 2 and 3: whose is it?",
    )


def test_doubts_are_told_by_the_lines_of_our_own_list() -> None:
    checked = check_rows([LUKASZ, AMARA, LUKASZ])
    assert checked.found is not None
    assert checked.doubts == ("The name `Łukasz Wójcik` stands on lines 2 and 4: the same person, or namesakes?",)


def test_levels_count_only_where_every_learner_has_one() -> None:
    assert check_rows([AMARA, TypedRow(name="Zoë", level="L1")]).levels == (2, 1)
    assert check_rows([AMARA, LUKASZ]).levels == ()


def test_a_level_that_is_none_is_wrong_though_nobody_asked_for_levels() -> None:
    assert check_rows([AMARA, TypedRow(name="Zoë", level="4")]).wrong == {
        1: ("`4` is not a level; write 1, 2 or 3, or nothing",)
    }


def test_a_list_without_rows_says_what_it_wants() -> None:
    assert check_rows([]).doubts == ("no learner stands below the headings; one learner a row",)


@pytest.mark.parametrize(
    ("place", "row", "left"),
    [
        (0, LUKASZ, (LUKASZ, LUKASZ)),
        (0, None, (LUKASZ,)),
        (1, TypedRow(name=" "), (AMARA,)),
        (2, AMARA, (AMARA, LUKASZ, AMARA)),
    ],
)
def test_a_row_is_mended_left_out_or_added(place: int, row: TypedRow | None, left: tuple[TypedRow, ...]) -> None:
    assert mended([AMARA, LUKASZ], place, row) == left


@pytest.mark.parametrize("place", [-1, 3])
def test_a_row_that_is_not_there_cannot_be_mended(place: int) -> None:
    with pytest.raises(IndexError):
        mended([AMARA, LUKASZ], place, AMARA)


def test_what_is_typed_into_a_row_is_tidied_as_a_list_is() -> None:
    typed = TypedRow(name="  Amara \u200bOkafor ", reference="x" * 300)
    assert mended([], 0, typed) == (TypedRow(name="Amara Okafor", reference="x" * 200),)
