"""Class lists kept in a working folder. Learners are invented."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.papers.class_list_rows import TypedRow
from courseware.spreadsheets.rows import TableFaulty
from courseware.workflows.class_lists import LISTS, ListChanged, keep_list, kept_lists, mend_row, open_list
from courseware.workflows.issue import group_of

EXPORTED = "Name,ID,Paper\nAmara Okafor,0012,large-18\nŁukasz Wójcik,7,huge\n".encode()
AMARA = TypedRow(name="Amara Okafor", reference="0012", paper="large-18")
LUKASZ = TypedRow(name="Łukasz Wójcik", reference="7", paper="huge")


def test_a_list_is_kept_as_one_of_our_own(tmp_path: Path, heard) -> None:
    kept, notes = keep_list(tmp_path, b"Tutor,Name\nMrs Hill,Amara Okafor\n", "C:\\lists\\Group A (week 3).csv")
    assert [row.name for row in kept.rows] == ["Amara Okafor"]
    assert notes == ("Not used: the column `Tutor`.",)
    group = group_of(kept.file, 1, None, heard)
    assert [who.name for who in group.learners] == ["Amara Okafor"]
    assert (kept.key, group.name) == ("group-a-week-3", "Group a week 3")
    assert not heard.notes


def test_a_list_of_the_same_name_replaces_none(tmp_path: Path) -> None:
    first, _ = keep_list(tmp_path, EXPORTED, "group-a.csv")
    second, _ = keep_list(tmp_path, b"Name\nAmina Diallo\n", "group-a.csv")
    assert [first.key, second.key] == ["group-a", "group-a-2"]
    assert kept_lists(tmp_path) == ("group-a", "group-a-2")
    assert open_list(tmp_path, "group-a").rows == (AMARA, LUKASZ)


def test_what_is_no_list_leaves_nothing_behind(tmp_path: Path) -> None:
    with pytest.raises(TableFaulty):
        keep_list(tmp_path, b"Colour\nred\n", "colours.csv")
    assert kept_lists(tmp_path) == ()


@pytest.mark.parametrize("key", ["", "group-b", "../group-a", "/etc/passwd", ".courseware"])
def test_a_list_that_is_not_kept_is_not_opened(tmp_path: Path, key: str) -> None:
    keep_list(tmp_path, EXPORTED, "group-a.csv")
    with pytest.raises(NotFound, match="no class list"):
        open_list(tmp_path, key)


def test_a_mended_row_makes_the_list_good(tmp_path: Path) -> None:
    kept, _ = keep_list(tmp_path, EXPORTED, "group-a.csv")
    assert sorted(kept.checked.wrong) == [1]
    right = TypedRow(name="Łukasz Wójcik", reference="7")
    found = mend_row(tmp_path, "group-a", 1, LUKASZ, right).checked.found
    assert found is not None
    assert [who.name for who in found.learners] == ["Amara Okafor", "Łukasz Wójcik"]


def test_a_row_is_left_out_and_another_added(tmp_path: Path) -> None:
    keep_list(tmp_path, EXPORTED, "group-a.csv")
    mend_row(tmp_path, "group-a", 1, LUKASZ, None)
    new = TypedRow(name="Amina Diallo")
    assert mend_row(tmp_path, "group-a", 0, None, new).rows == (AMARA, new)


def test_two_windows_do_not_mend_each_others_row(tmp_path: Path) -> None:
    keep_list(tmp_path, EXPORTED, "group-a.csv")
    mend_row(tmp_path, "group-a", 0, AMARA, None)
    with pytest.raises(ListChanged, match="changed meanwhile"):
        mend_row(tmp_path, "group-a", 0, AMARA, TypedRow(name="Amara O."))
    assert open_list(tmp_path, "group-a").rows == (LUKASZ,)


def test_names_are_for_the_owner_of_the_file_alone(tmp_path: Path) -> None:
    keep_list(tmp_path, EXPORTED, "group-a.csv")
    assert (tmp_path / LISTS / "group-a.xlsx").stat().st_mode & 0o077 == 0
