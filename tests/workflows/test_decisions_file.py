"""Decisions kept in a file beside the sitting: written as they are made, read back row by row."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from tests.piers_sitting import copy_of, fill, kept, papers, run

BY = ("--assessor", "J. Marsh", "--jobs", "1")


@pytest.fixture
def sitting(piers_sitting: Path) -> Path:
    """The sitting on piers, just issued."""
    return piers_sitting


def test_the_kept_decisions_are_a_file_that_needs_no_record_to_be_read(sitting) -> None:
    code = papers(sitting)[0]["code"]
    decide = ("--decide", code, "1a", "1", "The method is shown")
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}), *decide, *BY)
    book = openpyxl.load_workbook(sitting / "for-tutor/decisions.xlsx")
    heads, row = book.active.iter_rows(values_only=True)
    assert heads == ("code", "part", "marks", "reason", "comment", "written", "attempt", "marker", "by", "source")
    assert row == (code, "1a", 1, "The method is shown", None, "7", 1, "first", "J. Marsh", "--decide")
    assert (sitting / "for-tutor/decisions.xlsx").stat().st_mode & 0o077 == 0


def test_decisions_kept_before_their_sheets_were_noted_are_read(sitting) -> None:
    code, file = papers(sitting)[0]["code"], sitting / "for-tutor/decisions.xlsx"
    sheet = fill(sitting, "a.csv", {"1a": "7"})
    run("mark", str(sitting), sheet, "--decide", code, "1a", "1", "The method is shown", *BY)
    book = openpyxl.load_workbook(file)
    book.active.delete_cols(10)
    book.save(file)
    Path("output/record.sqlite").unlink()
    assert run("mark", str(sitting), sheet, *BY).exit_code == 0
    assert kept()[code][0] == ("1a", 1, "decided")


def test_no_file_of_decisions_is_made_where_nothing_was_decided(sitting) -> None:
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}), *BY)
    assert not (sitting / "for-tutor/decisions.xlsx").exists()


@pytest.fixture(scope="module")
def decided_before(issued_piers, tmp_path_factory) -> Path:
    """The folder of work that `decided` is a copy of: look, do not touch."""
    own: Path = tmp_path_factory.mktemp("decided")
    with pytest.MonkeyPatch.context() as patch:
        sitting = copy_of(issued_piers, own, patch)
        code, sheet = papers(sitting)[0]["code"], fill(sitting, "a.csv", {"1a": "7"})
        run("mark", str(sitting), sheet, "--decide", code, "1a", "1", "The method is shown", *BY)
    return own


@pytest.fixture
def decided(decided_before, tmp_path, monkeypatch) -> Path:
    """The sitting, marked from `a.csv` with one decision."""
    return copy_of(decided_before, tmp_path, monkeypatch)


@pytest.mark.parametrize(
    ("column", "value", "told"),
    [
        (1, "QQQQ-QQQQ", "is not the code of a paper"), (2, "9z", "is not a part of the paper"), (3, "9", "is not a mark"),
        (7, "0", "the attempt"), (7, "²", "the attempt"), (7, "99999", "the attempt"), (8, "third", "the marker"),
        (9, "", "who decided it"), (9, "a\u200bb", "who decided it"), (6, "x" * 5000, "the answer"),
        (10, "a\u200bb", "a file's name"),
    ],
)  # fmt: skip
def test_a_kept_decision_changed_by_hand_is_told_by_its_row(decided, column: int, value: str, told: str) -> None:
    file = decided / "for-tutor/decisions.xlsx"
    book = openpyxl.load_workbook(file)
    book.active.cell(2, column).value = value
    book.save(file)
    done = run("mark", str(decided), "a.csv", *BY)
    assert done.exit_code == 2
    assert "decisions.xlsx:2:" in done.output
    assert told in done.output


def test_a_file_of_decisions_that_cannot_be_read_is_told(sitting) -> None:
    (sitting / "for-tutor/decisions.xlsx").write_bytes(b"PK\x03\x04 no workbook")
    done = run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}), *BY)
    assert done.exit_code == 2
    assert "decisions.xlsx" in done.output
