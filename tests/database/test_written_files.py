"""Files that the program wrote: known again by their hash, so that a tutor's own are never taken for them."""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path

import pytest

from courseware.database.connection import reading, writing
from courseware.database.errors import RecordFaulty
from courseware.database.opening import open_record
from courseware.database.written_files import WrittenFile, files_written, forget_files, hash_of, note_files


@pytest.fixture
def file(tmp_path: Path) -> Path:
    made = tmp_path / "plan.pdf"
    made.write_bytes(b"as written")
    return made


def test_a_file_is_noted_by_where_it_is_and_what_is_in_it(record, file: Path, tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    note_files(record, [Path("plan.pdf")], ["ABCD-EFGH-J"])
    [noted] = files_written(record)
    assert noted == WrittenFile(
        path=file.resolve(), sha256=hashlib.sha256(b"as written").hexdigest(), codes=("ABCD-EFGH-J",)
    )  # fmt: skip


@pytest.mark.each_database
def test_written_anew_the_newest_is_known_and_noted_once(record, file: Path) -> None:
    for text in (b"as written", b"as written", b"written again", b"written again"):
        file.write_bytes(text)
        note_files(record, [file])
    [noted] = files_written(record)
    assert noted.sha256 == hash_of(b"written again")
    with reading(record) as connection:
        assert connection.exec_driver_sql("SELECT count(*) FROM file").scalar() == 2


@pytest.mark.parametrize(
    ("since", "untouched"), [("nothing", True), ("edited", False), ("gone", False), ("a folder", False)]
)
def test_a_file_is_untouched_only_as_it_was_written(record, file: Path, since: str, untouched: bool) -> None:
    note_files(record, [file])
    if since == "edited":
        file.write_bytes(b"as writtem")
    elif since != "nothing":
        file.unlink()
    if since == "a folder":
        file.mkdir()
    [noted] = files_written(record)
    assert noted.is_untouched is untouched


def test_files_come_in_the_order_of_their_paths_and_can_be_forgotten(record, tmp_path: Path) -> None:
    made = [tmp_path / name for name in ("b", "a", "c")]
    for one in made:
        one.write_bytes(b"x")
    note_files(record, made)
    assert [one.path.name for one in files_written(record)] == ["a", "b", "c"]
    forget_files(record, [tmp_path / "b"])
    forget_files(record, [])
    assert [one.path.name for one in files_written(record)] == ["a", "c"]


@pytest.mark.parametrize("codes", ["", "{}", "ABCD"])
def test_codes_changed_by_hand_are_told(record, file: Path, codes: str) -> None:
    note_files(record, [file])
    with writing(record) as connection:
        connection.exec_driver_sql("UPDATE file SET codes = ?", (codes,))
    with pytest.raises(RecordFaulty, match="changed by hand"):
        files_written(record)


def test_a_copied_folder_knows_its_own_files_and_none_of_those_it_was_copied_from(record, file: Path, tmp_path) -> None:
    note_files(record, [file])
    copy = Path(shutil.copytree(tmp_path, tmp_path.with_name(f"{tmp_path.name}-copy")))
    copied = open_record(f"sqlite:///{copy / 'record.sqlite'}")
    assert [one.path for one in files_written(copied)] == [copy.resolve() / "plan.pdf"]
    forget_files(copied, [copy.resolve() / "plan.pdf"])
    assert (files_written(copied), [one.path for one in files_written(record)]) == ((), [file.resolve()])
    copied.dispose()


def test_a_file_elsewhere_is_known_by_its_whole_path(record, tmp_path: Path) -> None:
    apart = tmp_path.with_name(f"{tmp_path.name}-apart")
    apart.mkdir()
    (apart / "plan.pdf").write_bytes(b"as written")
    note_files(record, [apart / "plan.pdf"])
    with reading(record) as connection:
        assert connection.exec_driver_sql("SELECT path FROM file").scalar() == str((apart / "plan.pdf").resolve())


def test_a_note_that_leads_out_of_the_folder_was_changed_by_hand(record, file: Path) -> None:
    note_files(record, [file])
    with writing(record) as connection:
        connection.exec_driver_sql("UPDATE file SET path = '../plan.pdf'")
    with pytest.raises(RecordFaulty, match="cannot be its own"):
        files_written(record)
