"""Sittings' folders found and read, by folder or by sitting.json; what cannot be read is told, never guessed."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files import sitting_folders
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import find_folders, folder_of, read_folder, sitting_folder, sitting_text
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import SittingFaulty, write_sitting


@pytest.fixture
def sitting(dealt) -> Sitting:
    return dealt(exercises=1)


@pytest.fixture
def folder(tmp_path, sitting) -> Path:
    made = tmp_path / "output" / "spring"
    made.mkdir(parents=True)
    (made / "sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    return made


def test_a_sitting_is_named_by_its_folder_or_by_its_file(folder, sitting) -> None:
    for named in (folder, folder / "sitting.json"):
        found = sitting_folder(str(named))
        assert (found.path, found.sitting, found.text) == (folder, sitting, write_sitting(sitting))


def test_its_papers_are_told_with_their_learners(folder, sitting) -> None:
    assert [(one.sitting, one.paper, one.name) for one in read_folder(folder).held] == [
        (sitting.code, paper.code, paper.learner.name) for paper in sitting.papers
    ]


def test_what_is_not_there_and_what_is_no_sitting_are_told_apart(tmp_path) -> None:
    with pytest.raises(NotFound, match="there is no sitting nowhere; name its folder"):
        sitting_folder("nowhere")
    with pytest.raises(SittingFaulty, match=r"sitting\.json cannot be read"):
        sitting_folder(str(tmp_path))


@pytest.mark.parametrize("data", [b"\xff\xfe", b"caf\xe9"])
def test_a_file_that_is_not_utf_8_cannot_be_read(tmp_path, data: bytes) -> None:
    (tmp_path / "sitting.json").write_bytes(data)
    with pytest.raises(SittingFaulty, match="cannot be read"):
        sitting_text(tmp_path / "sitting.json")


def test_a_file_larger_than_any_sitting_is_not_read(tmp_path, monkeypatch) -> None:
    file = tmp_path / "sitting.json"
    file.write_bytes(b"x" * 100)
    monkeypatch.setattr(sitting_folders, "_LARGEST", 100)
    assert sitting_text(file) == "x" * 100
    monkeypatch.setattr(sitting_folders, "_LARGEST", 99)
    with pytest.raises(SittingFaulty, match="is larger than any sitting"):
        sitting_text(file)


def test_all_folders_of_a_place_are_found_those_of_stopped_runs_too_and_each_once(folder, tmp_path) -> None:
    out = folder.parent
    stopped = out / ".summer.unfinished"
    stopped.mkdir()
    (stopped / "sitting.json").write_bytes((folder / "sitting.json").read_bytes())
    (out / "notes").mkdir()
    (out / "notes" / "plan.txt").write_text("x", encoding="utf-8")
    found, faulty = find_folders([out, out / ".." / "output", tmp_path / "nowhere"])
    assert [one.path for one in found] == [stopped.resolve(), folder.resolve()]
    assert faulty == ()


def test_folders_that_cannot_be_read_are_told_beside_those_that_can(folder) -> None:
    broken = folder.parent / "broken"
    broken.mkdir()
    (broken / "sitting.json").write_text("{}", encoding="utf-8")
    found, faulty = find_folders([folder.parent])
    assert [one.path for one in found] == [folder.resolve()]
    assert faulty == (broken.resolve(),)


def test_a_sitting_is_found_by_its_code_however_it_is_typed(folder, sitting) -> None:
    for typed in (sitting.code, sitting.code.lower().replace("-", "")):
        assert folder_of(folder.parent, typed).path == folder


def test_of_several_folders_of_a_sitting_the_fullest_is_the_one_at_work(folder, sitting) -> None:
    again = folder.parent / "a-again"
    again.mkdir()
    (again / "sitting.json").write_text((folder / "sitting.json").read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "paper.pdf").write_bytes(b"")
    assert folder_of(folder.parent, sitting.code).path == folder


@pytest.mark.parametrize("code", ["", "../spring", "AAAA-AAAA-A", "KTRA-WGHM-B"])
def test_a_code_that_no_sitting_has_is_not_found(folder, code: str) -> None:
    (folder.parent / "broken").mkdir()
    (folder.parent / "broken" / "sitting.json").write_text('{"KTRA-WGHM-B": 1}', encoding="utf-8")
    with pytest.raises(NotFound, match="no sitting has the code"):
        folder_of(folder.parent, code)
