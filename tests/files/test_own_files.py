"""A tutor's own files: looked up by name, never reached by a path, saved whole, and not over another's changes."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.files.own_files import ChangedMeanwhile, mark_of, own_file, own_files, save_again, save_new
from courseware.text_files.decoding import MOST_BYTES


def test_a_new_file_takes_a_free_name_made_of_its_title(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    names = [
        save_new(folder, title, "a: 1\n").name for title in ("A low panel", "A low panel", "砖", "../../etc/passwd")
    ]
    assert names == ["a-low-panel.yaml", "a-low-panel-2.yaml", "jobs.yaml", "etc-passwd.yaml"]
    assert list(own_files(folder)) == ["a-low-panel", "a-low-panel-2", "etc-passwd", "jobs"]
    assert list(own_files(folder, frozenset({"jobs.yaml"}))) == ["a-low-panel", "a-low-panel-2", "etc-passwd"]
    assert list(own_files(tmp_path / "nowhere")) == []


@pytest.mark.parametrize("name", ["nothing", "../secret", "secret", "/etc/passwd", "", ".", "own.yaml"])
def test_no_name_leads_out_of_the_folder(tmp_path: Path, name: str) -> None:
    (tmp_path / "secret.yaml").write_text("a: 1\n", encoding="utf-8")
    folder = tmp_path / "banks"
    save_new(folder, "own", "a: 1\n")
    (folder / "secret.yaml").symlink_to(tmp_path / "secret.yaml")
    with pytest.raises(NotFound):
        own_file(folder, name)


def test_what_another_window_saved_is_not_written_over(tmp_path: Path) -> None:
    path = save_new(tmp_path, "own", "a: 1\r\n")
    was = mark_of(path.read_bytes())
    save_again(path, "a: 2\n", was)
    with pytest.raises(ChangedMeanwhile, match=r"own.yaml was changed in another window"):
        save_again(path, "a: 3\n", was)
    assert path.read_bytes() == b"a: 2\n"
    path.unlink()
    with pytest.raises(ChangedMeanwhile):
        save_again(path, "a: 3\n", mark_of(b"a: 2\n"))
    assert not path.exists()


@pytest.mark.parametrize(("size", "saved"), [(MOST_BYTES, True), (MOST_BYTES + 1, False)])
def test_a_text_that_no_reader_takes_is_not_saved(tmp_path: Path, size: int, saved: bool) -> None:
    path = save_new(tmp_path, "own", "a: 1\n")
    text = "#" * size
    if saved:
        save_again(path, text, mark_of(b"a: 1\n"))
        assert path.stat().st_size == size
        return
    with pytest.raises(NotFound, match=f"at most {MOST_BYTES} are saved"):
        save_again(path, text, mark_of(b"a: 1\n"))
    assert path.read_bytes() == b"a: 1\n"
