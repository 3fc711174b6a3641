"""Where the centre's settings are found: the file named, else `centre.yaml` in the folder one works in, else nowhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.files.centre_file import find_settings
from courseware.settings.settings import DEFAULTS
from courseware.text_files.faults import FileFaulty


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_without_a_file_nothing_is_set() -> None:
    assert find_settings(None) == DEFAULTS


def test_the_file_in_the_folder_is_read_and_one_that_is_named_instead() -> None:
    Path("centre.yaml").write_text("name: Here\n", encoding="utf-8")
    Path("other.yaml").write_text("name: There\n", encoding="utf-8")
    assert (find_settings(None).name, find_settings(None).file) == ("Here", "centre.yaml")
    assert (find_settings("other.yaml").name, find_settings("other.yaml").file) == ("There", "other.yaml")


def test_what_is_named_and_not_there_or_faulty_is_told() -> None:
    with pytest.raises(NotFound, match=r"none\.yaml cannot be read"):
        find_settings("none.yaml")
    Path("centre.yaml").mkdir()
    with pytest.raises(NotFound, match=r"centre\.yaml cannot be read"):
        find_settings(None)
    Path("faulty.yaml").write_bytes(b"name: \xff\n")
    with pytest.raises(FileFaulty, match=r"faulty\.yaml:1:7: byte 0xff is not UTF-8"):
        find_settings("faulty.yaml")
