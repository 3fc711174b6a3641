"""Folders that are there whole or not at all, and files too."""

import os
from pathlib import Path

import pytest

from courseware.files.atomic import begin, finish, one_at_a_time, slug, write_whole


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("Opening sizes", "opening-sizes"),
        ('  Level 2: "piers" & openings ', "level-2-piers-openings"),
        ("Mörtel für Łódź", "mortel-fur-odz"),
        ("../../etc", "etc"),
        ("CON", "con"),
        ("砖", ""),
        ("a" * 99, "a" * 32),
        ("Levelling projecting courses and course gauge", "levelling-projecting-courses"),
    ],
)
def test_a_title_gives_a_plain_part_of_a_file_name(text, part) -> None:
    assert slug(text) == part


def test_a_finished_folder_takes_its_name_and_leaves_nothing_of_the_making(tmp_path) -> None:
    making = begin(tmp_path, "a", "asked")
    write_whole(making.path / "x.txt", b"x")
    (making.path / ".y.123.part").write_bytes(b"half")
    assert not (tmp_path / "a").exists()
    assert finish(making) == tmp_path / "a"
    assert [path.name for path in (tmp_path / "a").iterdir()] == ["x.txt"]
    assert [path.name for path in tmp_path.iterdir()] == ["a"]


def test_the_same_request_goes_on_and_another_starts_afresh(tmp_path) -> None:
    stopped = begin(tmp_path, "a", "asked")
    write_whole(stopped.path / "kept", b"k")
    assert begin(tmp_path, "a", "asked").resumed
    other = begin(tmp_path, "a", "asked otherwise")
    assert not other.resumed
    assert other.final == tmp_path / "a-2"


def test_a_name_that_is_taken_gets_a_number(tmp_path) -> None:
    for name in ("a", "a-2", "a-3"):
        assert finish(begin(tmp_path, "a", "asked")).name == name


def test_a_full_disk_leaves_the_file_as_it_was(tmp_path, monkeypatch) -> None:
    write_whole(tmp_path / "record", b"old")

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_whole(tmp_path / "record", b"new and longer")
    assert (tmp_path / "record").read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["record"]


def test_a_second_run_waits_and_says_so(tmp_path) -> None:
    told = []
    with one_at_a_time(tmp_path, lambda: told.append("first")):
        held = Path(tmp_path / ".courseware.lock")
        assert held.exists()
        import threading

        second = threading.Thread(target=_hold, args=(tmp_path, told))
        second.start()
        while "waiting" not in told:
            pass
        assert "held" not in told
    second.join(10)
    assert told == ["waiting", "held"]


def _hold(folder: Path, told: list[str]) -> None:
    with one_at_a_time(folder, lambda: told.append("waiting")):
        told.append("held")


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="a place where nobody can make a folder")
def test_a_place_where_no_folder_can_be_made_is_told_as_one_that_may_not_be_written_to() -> None:
    with (
        pytest.raises(PermissionError, match="no folder can be made here"),
        one_at_a_time(Path("/proc/nothing/here"), lambda: None),
    ):
        pass
