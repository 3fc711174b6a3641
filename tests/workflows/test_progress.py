"""A class's saved practices made into one sheet and its workbook."""

from __future__ import annotations

import pytest

from courseware.database.opening import open_record
from courseware.database.written_files import files_written
from courseware.files.bank_files import NotFound
from courseware.files.record_location import opened, record_url
from courseware.practice.saved_file import PracticeFaulty
from courseware.workflows.progress import class_progress
from tests.practice.saved_practices import as_bytes, saved


def test_sheet_and_workbook_are_written_for_their_owner_alone(tmp_path) -> None:
    given = [("a.json", as_bytes(saved())), ("b.json", as_bytes(saved("Zoë", 2, seal="0")))]
    found = class_progress(given, "Brookfield College", tmp_path, "2026-04-01")
    assert [file.name for file in found.files] == ["progress-2026-04-01.pdf", "progress-2026-04-01.xlsx"]
    assert {file.stat().st_mode & 0o777 for file in found.files} == {0o600}
    assert [one.name for one in found.learners] == ["Amira Khan", "Zoë"]
    assert found.notes == ("b.json is not to be relied on: it was changed since the page saved it.",)


def test_every_file_that_is_none_is_told_and_nothing_is_made(tmp_path) -> None:
    given = [("a.json", b"hello"), ("b.json", as_bytes(saved())), ("c.json", b"[]")]
    with pytest.raises(PracticeFaulty) as refused:
        class_progress(given, "", tmp_path / "out", "2026-04-01")
    assert [fault.file for fault in refused.value.faults] == ["a.json", "c.json"]
    assert not (tmp_path / "out").exists()


def test_no_file_is_told(tmp_path) -> None:
    with pytest.raises(NotFound):
        class_progress([], "", tmp_path, "2026-04-01")


def test_what_is_made_is_noted_in_the_record_as_other_class_sheets_are(tmp_path) -> None:
    """Of no paper: it is about a class."""
    at = record_url(None, tmp_path, {})
    open_record(at).dispose()
    found = class_progress([("a.json", as_bytes(saved()))], "", tmp_path / "out", "2026-04-01", at)
    with opened(at, make=False) as engine:
        noted = files_written(engine)
    assert [(one.path, one.codes, one.is_untouched) for one in noted] == [(file, (), True) for file in found.files]


def test_a_record_that_is_named_and_not_there_is_told_before_anything_is_written(tmp_path) -> None:
    with pytest.raises(NotFound):
        class_progress(
            [("a.json", as_bytes(saved()))], "", tmp_path / "out", "2026-04-01", record_url("x.sqlite", tmp_path, {})
        )
    assert not (tmp_path / "out").exists()
