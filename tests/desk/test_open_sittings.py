"""Sittings and the record kept open: read once, anew where the file is another, and never made out of nothing."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from courseware.desk.open_sittings import record_open, sitting_open
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import find_folders
from tests.desk.conftest import desk_over


def test_a_sitting_is_read_once_and_anew_where_its_file_is_another(work: Path) -> None:
    desk = desk_over(work)
    [first, _] = find_folders([work / "output"])[0]
    code = first.sitting.code
    found = sitting_open(desk, code)
    assert found.sitting == first.sitting
    assert sitting_open(desk, code) is found
    file = found.path / "sitting.json"
    file.write_text(found.text.replace("Amara Okafor", "Amara Okafor-Hall"), encoding="utf-8")
    assert sitting_open(desk, code).sitting.papers[0].learner.name == "Amara Okafor-Hall"


def test_one_that_was_moved_is_found_and_one_that_is_gone_is_not(work: Path) -> None:
    desk = desk_over(work)
    [first, _] = find_folders([work / "output"])[0]
    code = first.sitting.code
    sitting_open(desk, code)
    moved = first.path.rename(first.path.with_name("moved"))
    assert sitting_open(desk, code).path == moved
    shutil.rmtree(moved)
    with pytest.raises(NotFound, match="no sitting has the code"):
        sitting_open(desk, code)


def test_the_record_is_opened_once_and_made_anew_where_its_file_was_taken_away(work: Path) -> None:
    desk = desk_over(work)
    engine = record_open(desk)
    assert record_open(desk) is engine
    file = work / "output/record.sqlite"
    file.unlink()
    assert record_open(desk) is not engine
    assert file.stat().st_mode & 0o777 == 0o600
