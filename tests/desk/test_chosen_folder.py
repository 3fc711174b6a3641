"""The folder chosen last is remembered where the system keeps such things."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.desk.chosen_folder import last_folder, remember, remembered_in


@pytest.mark.parametrize(
    ("system", "environment", "ending"),
    [
        ("linux", {}, ".local/state/courseware/last-folder"),  # XDG Base Directory Specification 0.8: $XDG_STATE_HOME
        ("linux", {"XDG_STATE_HOME": "/elsewhere"}, "/elsewhere/courseware/last-folder"),
        ("darwin", {}, "Library/Application Support/courseware/last-folder"),
        ("win32", {"LOCALAPPDATA": "/local"}, "/local/courseware/last-folder"),
    ],
)
def test_each_system_has_its_place(system: str, environment: dict[str, str], ending: str) -> None:
    assert remembered_in(environment, system).as_posix().endswith(ending)


def test_a_folder_is_remembered_for_its_owner_alone(tmp_path: Path) -> None:
    file = tmp_path / "state" / "courseware" / "last-folder"
    remember(file, tmp_path)
    assert last_folder(file) == tmp_path
    assert file.stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("text", ["", "relative", "/no/such/folder", "/tmp\0/x", "x" * 5000])
def test_what_is_no_folder_any_more_is_none(tmp_path: Path, text: str) -> None:
    file = tmp_path / "last-folder"
    assert last_folder(file) is None
    file.write_text(text)
    assert last_folder(file) is None


def test_where_nothing_can_be_kept_the_next_start_asks(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    remember(tmp_path / "file" / "last-folder", tmp_path)
    assert last_folder(tmp_path / "file" / "last-folder") is None
