"""`courseware sides`: the table it prints of a sitting, and what it says of files that are missing or damaged."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from pikepdf import Pdf

from courseware.commands.sides import table
from tests.commands.conftest import issue, run


def pages(file: Path) -> int:
    with Pdf.open(file) as opened:
        return len(opened.pages)


def test_a_sittings_table_has_a_row_for_each_kind_of_file_and_one_for_all(desk) -> None:
    folder = issue("--jobs", "1")
    done = run("sides", folder, "--jobs", "1")
    assert done.exit_code == 0, done.output
    head, papers, keys, grid, in_all = done.output.splitlines()
    assert re.split(r" {2,}", head.strip()) == [
        "files", "sides each", "white", "drawings a paper", "sides in all", "sheets of paper",
    ]  # fmt: skip
    each, of_key = (pages(sorted(folder.glob(pattern))[0]) for pattern in ("*/paper-*.pdf", "*/key-*.pdf"))
    white = r"\d+ %"
    assert re.fullmatch(rf"papers +4 +{each} +{white} +0 +{4 * each} +{4 * -(-each // 2)}", papers)
    assert re.fullmatch(rf"keys +4 +{of_key} +{white} +{4 * of_key} +{4 * -(-of_key // 2)}", keys)
    assert re.fullmatch(rf"class grid +1 +1 +{white} +1 +1", grid)
    sides = 4 * each + 4 * of_key + 1
    assert re.fullmatch(rf"in all +9 +1( to \d+)? +{white} +{sides} +\d+", in_all)
    assert run("sides", folder / "sitting.json", "--jobs", "1").output == done.output


def test_a_missing_file_is_told_with_what_to_do_and_what_is_there_is_counted(desk) -> None:
    folder = issue("--jobs", "1")
    lost, torn = sorted(folder.glob("for-learners/paper-*.pdf"))[:2]
    lost.unlink()
    torn.write_bytes(torn.read_bytes()[:500])
    done = run("sides", folder, "--jobs", "1")
    assert done.exit_code == 2
    assert re.search(r"^papers +2 ", done.output, re.MULTILINE)
    assert f"for-learners/{lost.name} is not there." in done.output
    assert f"for-learners/{torn.name} cannot be read: damaged, or no sheet of this program." in done.output
    assert "`courseware again` makes papers, keys and class grid anew" in done.output
    assert "nan" not in done.output


def test_a_folder_with_nothing_printed_in_it_has_no_table(place) -> None:
    done = run("sides", place.path)
    assert done.exit_code == 2
    assert done.output.splitlines()[0] == "None of the sitting's PDFs is in output/sitting."


@pytest.mark.parametrize(("named", "says"), [("nowhere", "there is no sitting nowhere"), (".", "cannot be read")])
def test_what_is_no_sitting_is_said(desk, named: str, says: str) -> None:
    done = run("sides", named)
    assert done.exit_code == 2
    assert says in done.output


def test_a_table_begins_its_first_column_at_the_left_and_ends_the_others_at_the_right() -> None:
    assert table([("", "files", "white"), ("class grid", "1", "54 %"), ("keys", "12", "")]) == [
        "            files  white",
        "class grid      1   54 %",
        "keys           12",
    ]
