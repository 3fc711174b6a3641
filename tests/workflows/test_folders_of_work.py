"""Folders of work, in a place and from inside."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.workflows.folders_of_work import FolderRefused, folders_in, made_folder, overview


def test_folders_are_listed_by_name_and_those_worked_in_are_known(tmp_path: Path) -> None:
    for name in ("beta/output", "Alpha", ".hidden"):
        (tmp_path / name).mkdir(parents=True)
    (tmp_path / "file").write_text("")
    assert [(one.path.name, one.used) for one in folders_in(tmp_path)] == [("Alpha", False), ("beta", True)]
    assert folders_in(tmp_path / "file") == folders_in(tmp_path / "gone") == ()


@pytest.mark.parametrize("name", ["", " ", ".", "..", "a/b", "a\\b", "x.", "a\nb\x00", "\u202ea", "x" * 61])
def test_a_name_that_is_no_folders_makes_nothing(tmp_path: Path, name: str) -> None:
    with pytest.raises(FolderRefused):
        made_folder(tmp_path, name)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_of_sixty_letters_is_made_once(tmp_path: Path) -> None:
    assert made_folder(tmp_path, "x" * 60).is_dir()
    with pytest.raises(FolderRefused, match="is there already"):
        made_folder(tmp_path, "x" * 60)


def test_a_sitting_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    (tmp_path / "output" / "a").mkdir(parents=True)
    (tmp_path / "output" / "a" / "sitting.json").write_text("{")
    seen = overview(tmp_path)
    assert seen.sittings == ()
    assert [path.name for path in seen.faulty] == ["a"]


def test_a_folder_whose_name_has_bytes_that_are_no_letters_is_left_out(tmp_path: Path) -> None:
    try:
        (tmp_path / "w\udcff").mkdir()
    except OSError:  # the disk takes no such name
        pytest.skip("this disk refuses such a name itself")
    (tmp_path / "wände").mkdir()
    assert [one.path.name for one in folders_in(tmp_path)] == ["wände"]
