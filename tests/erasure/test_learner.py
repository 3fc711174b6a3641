"""A learner deleted everywhere: what will go is found and told first; then folders, files beside them, the record last."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import update

from courseware.database.connection import connect, writing
from courseware.database.learners import held
from courseware.database.migrations import STEPS, bring_up_to_date
from courseware.database.opening import open_record
from courseware.database.sittings import take
from courseware.database.tables import FILE
from courseware.database.written_files import files_written, note_files
from courseware.erasure import learner as erasing
from courseware.erasure.learner import delete_everywhere, find_to_erase
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import read_folder
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import SittingFaulty, write_sitting

WHO = "Łukasz Wójcik"  # invented, as in the tests' own sittings
WHEN = datetime(2026, 1, 6, 9, 30, tzinfo=UTC)


@pytest.fixture
def record(tmp_path):
    engine = open_record(f"sqlite:///{tmp_path / 'record.sqlite'}")
    yield engine
    engine.dispose()


@pytest.fixture
def spring(dealt) -> Sitting:
    return dealt(exercises=1)


@pytest.fixture
def summer(dealt) -> Sitting:
    return replace(dealt(exercises=1, seed="another seed"), date="2026-06-01")


def shelved(sitting: Sitting, folder: Path) -> Path:
    """A folder as it is before anything is printed into it."""
    folder.mkdir(parents=True)
    (folder / "sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    return folder


def nobody() -> None:
    raise AssertionError("nobody else works in this folder")


def names(folder: Path) -> set[str]:
    return {paper.learner.name for paper in read_folder(folder).sitting.papers}


def test_a_learner_is_found_in_folders_alone(tmp_path, spring, summer) -> None:
    out = tmp_path / "output"
    folders = {shelved(spring, out / "spring").resolve(), shelved(summer, out / "summer").resolve()}
    found = find_to_erase(None, WHO, (), [out])
    assert {folder.path for folder in found.folders} == folders
    assert set(found.papers.codes) == {spring.papers[1].code, summer.papers[1].code}
    assert (found.in_record, found.not_found, found.faulty, found.untouched) == ((), (), (), ())
    done = delete_everywhere(None, found, nobody)
    assert done.record is None
    assert all(WHO not in names(folder) and len(names(folder)) == 2 for folder in folders)


def test_what_the_record_knows_elsewhere_is_listed_and_deleted_from_where_that_is_asked_for(
    tmp_path, record, spring, summer
) -> None:
    out, shelf = tmp_path / "output", tmp_path / "shelf"
    shelved(spring, out / "spring")
    elsewhere = shelved(summer, shelf / "summer")
    take(record, summer, write_sitting(summer), at=WHEN)
    export, others = shelf / "learner.json", shelf / "another.json"
    export.write_text("{}", encoding="utf-8")
    others.write_text("[]", encoding="utf-8")
    note_files(record, [elsewhere / "sitting.json"])
    note_files(record, [export], [summer.papers[1].code])
    note_files(record, [others], [summer.papers[0].code])
    found = find_to_erase(record, WHO, (), [out])
    assert {folder.path.name for folder in found.folders} == {"spring"}
    assert found.elsewhere == (elsewhere.resolve(), export.resolve())
    assert found.not_found == ()
    found = find_to_erase(record, WHO, (), [out], elsewhere=True)
    assert {folder.path.name for folder in found.folders} == {"spring", "summer"}
    assert found.in_record == (summer.papers[1].code,)
    done = delete_everywhere(record, found, nobody)
    assert done.record is not None
    assert done.record.papers == (summer.papers[1].code,)
    assert WHO not in {paper.name for paper in held(record)} | names(elsewhere)
    assert (export.exists(), others.exists()) == (False, True)


def test_in_a_folder_that_was_copied_with_its_record_only_the_copy_is_deleted_from(tmp_path, spring) -> None:
    """A record of the form before, with whole paths, and one of today."""
    for place, kept in enumerate((STEPS[:8], STEPS)):
        out, copy = tmp_path / f"{place}" / "output", tmp_path / f"{place}" / "copy"
        shelved(spring, out / "spring")
        engine = connect(f"sqlite:///{out / 'record.sqlite'}", make=True)
        bring_up_to_date(engine, WHEN, kept)
        take(engine, spring, write_sitting(spring), at=WHEN)
        export = out / "learner.json"
        export.write_text("{}", encoding="utf-8")
        note_files(engine, [out / "spring" / "sitting.json"])
        note_files(engine, [export], [spring.papers[1].code])
        if kept is not STEPS:
            with writing(engine) as connection:
                connection.execute(update(FILE).values(path=f"{out}/" + FILE.c.path))
        engine.dispose()
        shutil.copytree(out, copy)
        copied = open_record(f"sqlite:///{copy / 'record.sqlite'}")
        found = find_to_erase(copied, WHO, (), [copy])
        assert found.elsewhere == ()
        delete_everywhere(copied, found, nobody)
        copied.dispose()
        assert (WHO in names(out / "spring"), export.exists()) == (True, True)
        assert (WHO in names(copy / "spring"), (copy / "learner.json").exists()) == (False, False)


def test_a_sitting_of_the_record_whose_folder_nobody_knows_is_told(tmp_path, record, spring) -> None:
    take(record, spring, write_sitting(spring), at=WHEN)
    found = find_to_erase(record, WHO, (), [tmp_path / "output"])
    assert (found.folders, found.not_found) == ((), (spring.code,))


def test_a_folder_that_was_named_counts_wherever_it_is(tmp_path, spring) -> None:
    folder = shelved(spring, tmp_path / "shelf" / "spring")
    found = find_to_erase(None, spring.papers[0].code, [folder], [tmp_path / "output"])
    assert [one.path for one in found.folders] == [folder.resolve()]
    with pytest.raises(SittingFaulty):
        find_to_erase(None, WHO, [tmp_path], [])


def test_nobody_and_folders_that_cannot_be_read_are_told(tmp_path, spring) -> None:
    shelved(spring, tmp_path / "spring")
    (tmp_path / "broken").mkdir()
    (tmp_path / "broken/sitting.json").write_text("{}", encoding="utf-8")
    assert [path.name for path in find_to_erase(None, WHO, (), [tmp_path]).faulty] == ["broken"]
    with pytest.raises(NotFound, match="no learner goes by Nobody"):
        find_to_erase(None, "Nobody", (), [tmp_path])


def test_a_tutors_own_file_is_told_and_the_programs_own_is_removed_and_forgotten(tmp_path, record, spring) -> None:
    out = tmp_path / "output"
    shelved(spring, out / "spring")
    notes, export = out / "notes.txt", out / "learner.json"
    notes.write_text(f"{WHO} was late.", encoding="utf-8")
    export.write_text("{}", encoding="utf-8")
    note_files(record, [export], [spring.papers[1].code])
    found = find_to_erase(record, WHO, (), [out])
    assert found.untouched == (notes.resolve(),)
    done = delete_everywhere(record, found, nobody)
    assert [(one.removed, one.look) for one in done.beside] == [((str(export.resolve()),), (str(notes.resolve()),))]
    assert (notes.exists(), export.exists(), files_written(record)) == (True, False, ())


def test_a_table_that_was_cleaned_of_one_learner_is_still_the_programs_own_when_the_next_is_deleted(
    tmp_path, record, spring
) -> None:
    out = tmp_path / "output"
    shelved(spring, out / "spring")
    map_ = out / "criteria-map.csv"
    map_.write_text(
        "\n".join(["learner,state", *(f"{paper.code},secure" for paper in spring.papers)]) + "\n", encoding="utf-8"
    )
    note_files(record, [map_])
    for place, code in ((1, spring.papers[1].code), (0, spring.papers[0].code)):
        found = find_to_erase(record, spring.papers[place].learner.name, (), [out])
        assert found.untouched == ()
        delete_everywhere(record, found, nobody)
        assert code not in map_.read_text(encoding="utf-8")
    assert spring.papers[2].code in map_.read_text(encoding="utf-8")


def test_a_folder_asked_for_by_its_own_code_comes_last_since_it_alone_knows_the_code(tmp_path, spring, summer) -> None:
    shelved(spring, tmp_path / "a")
    shelved(summer, tmp_path / "b")
    for sitting, last in ((spring, "a"), (summer, "b")):
        found = find_to_erase(None, sitting.papers[1].code, (), [tmp_path])
        assert [folder.path.name for folder in found.folders][-1] == last


def test_the_record_forgets_last_so_that_a_stop_is_gone_on_with(tmp_path, record, spring, monkeypatch) -> None:
    folder = shelved(spring, tmp_path / "output" / "spring")
    take(record, spring, write_sitting(spring), at=WHEN)

    def stopped(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as full:
        full.setattr(erasing, "delete_papers", stopped)
        with pytest.raises(OSError, match="No space"):
            delete_everywhere(record, find_to_erase(record, WHO, (), [tmp_path / "output"]), nobody)
    assert WHO not in names(folder)
    assert WHO in {paper.name for paper in held(record)}
    delete_everywhere(record, find_to_erase(record, WHO, (), [tmp_path / "output"]), nobody)
    assert WHO not in {paper.name for paper in held(record)}
