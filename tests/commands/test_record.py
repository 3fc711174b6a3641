"""The record at the command line: taken in, listed, given out, deleted for good, kept so long and no longer."""

from __future__ import annotations

import json
import sqlite3
import stat
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner, Result

from courseware.cli import main
from courseware.database.kept_marks import keep_marks
from courseware.database.scripts import enter_scripts
from courseware.database.sittings import sitting_of
from courseware.files.record_location import VARIABLE, opened, record_url
from courseware.marking.marks import Decision, Mark, MarkedPaper, Script
from courseware.papers.group import Learner
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import write_sitting

WHO = "Łukasz Wójcik"


@pytest.fixture
def sittings(dealt) -> tuple[Sitting, Sitting]:
    """Two sittings of the same three learners."""
    return dealt(exercises=1), replace(dealt(exercises=1, seed="in spring"), title="Piers", date="2026-03-02")


@pytest.fixture
def desk(tmp_path, monkeypatch, sittings) -> Path:
    """An output folder with both sittings' folders in it; of their files the records alone."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv(VARIABLE, raising=False)
    for sitting in sittings:
        folder = Path("output", sitting.date)
        folder.mkdir(parents=True)
        (folder / "sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    return tmp_path


def run(*words: str, code: int = 0, typed: str | None = None) -> Result:
    done = CliRunner().invoke(main, ["record", *words], input=typed)
    if done.exception and not isinstance(done.exception, SystemExit):
        raise done.exception
    assert done.exit_code == code, done.output
    return done


def take_both() -> None:
    run("take", "output/2026-01-05", "output/2026-03-02/sitting.json")


def mark_all(sittings: tuple[Sitting, ...]) -> None:
    """A script with a mark and a remark for every paper."""
    common = {"role": "first", "at": datetime.now(UTC)}
    with opened(record_url(None, Path("output")), make=False) as engine:
        for sitting in sittings:
            scripts = [Script(code=paper.code, cells={"1a": "=910"}) for paper in sitting.papers]
            remarks = [
                Decision(code=paper.code, label="1a", marks=1, reason="method shown") for paper in sitting.papers
            ]
            enter_scripts(engine, sitting.code, scripts, remarks, assessor="J. Marsh", source="s.xlsx", **common)
            one = Mark(label="1a", marks=1, of=2, how="decided", why="method shown", written="=910")
            marks = [MarkedPaper(code=paper.code, status="", marks=(one,)) for paper in sitting.papers]
            keep_marks(engine, sitting.code, marks, by="J. Marsh", **common)


def bytes_with(word: str) -> list[str]:
    return [
        str(path) for path in sorted(Path("output").rglob("*")) if path.is_file() and word.encode() in path.read_bytes()
    ]


def test_sittings_are_taken_in_and_listed_without_names(desk, sittings) -> None:
    first, second = sittings
    told = run("take", "output/2026-01-05", "output/2026-03-02/sitting.json").output.splitlines()
    assert told[0] == f"Taken in: {first.code}, Setting out, 2026-01-05, 3 papers"
    assert run("take", "output/2026-01-05").output.startswith("There already: ")
    listed = run("list").output
    assert f"{second.code}  2026-03-02  Piers" in listed
    assert "3 papers, 0 with a script" in listed
    assert WHO not in listed
    assert stat.S_IMODE(Path("output/record.sqlite").stat().st_mode) == 0o600


def test_a_lost_record_is_made_anew_from_the_folders(desk, sittings) -> None:
    take_both()
    Path("output/record.sqlite").unlink()
    take_both()
    with opened(record_url(None, Path("output")), make=False) as engine:
        assert [sitting_of(engine, sitting.code) for sitting in sittings] == list(sittings)


def test_the_record_may_be_elsewhere(desk, monkeypatch) -> None:
    run("take", "output/2026-01-05", "--record", "sqlite:///elsewhere.sqlite")
    monkeypatch.setenv(VARIABLE, str(desk / "elsewhere.sqlite"))
    assert "Setting out" in run("list").output
    assert not Path("output/record.sqlite").exists()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["list"], "there is no record at output/record.sqlite yet; `courseware record take` makes one from sittings. Nothing"),
        (["take", "nowhere"], "The sitting cannot be used: nowhere cannot be read."),
        (["export", WHO], "there is no record at"),
        (["delete", "Nobody", "--yes"], "no learner goes by Nobody; give a paper code, the reference, or the name"),
        (["keep", "photos", "3"], "the kinds are names, scripts, marks, papers"),
        (["keep", "names"], "Give KIND with MONTHS"),
        (["keep", "names", "--", "-1"], "is not a number of months"),
        (["keep", "names", "soon"], "is not a number of months"),
        (["list", "--record", "nosuch://x"], "is not a database URL"),
        (["delete", WHO, "--sitting", "nowhere", "--yes"], "nowhere/sitting.json cannot be read"),
    ],
)  # fmt: skip
def test_what_goes_wrong_is_told_plainly_with_exit_code_2(desk, words, says) -> None:
    assert says in run(*words, code=2).output


@pytest.mark.parametrize(
    "words", [["list"], ["past"], ["export", WHO], ["keep", "names", "3"], ["delete", WHO, "--yes"]]
)
def test_a_record_changed_by_hand_is_told_with_exit_code_2(desk, words) -> None:
    take_both()
    other = sqlite3.connect("output/record.sqlite")
    other.executescript("UPDATE paper SET sitting = 'ZZZZ-ZZZZ'")
    other.close()
    told = run(*words, code=2).output
    assert "output/record.sqlite: a row of its table `paper` holds what this program did not write" in told
    assert "put a copy in its place, or make it again with `courseware record take`" in told


def test_a_changed_record_is_taken_in_by_none(desk) -> None:
    Path("output/2026-03-02/sitting.json").write_text("{}", encoding="utf-8")
    assert "changed by hand" in run("take", "output/2026-01-05", "output/2026-03-02", code=2).output
    assert not Path("output/record.sqlite").exists()


def test_an_export_is_a_folder_with_everything_of_the_learner(desk, sittings) -> None:
    take_both()
    mark_all(sittings)
    told = run("export", WHO).output
    assert told.startswith("Everything of this learner, 2 papers, in output/learner-")
    [folder] = [path for path in Path("output").iterdir() if path.name.startswith("learner-")]
    data = json.loads((folder / "learner.json").read_text(encoding="utf-8"))
    assert {paper["code"] for paper in data["papers"]} == {sitting.papers[1].code for sitting in sittings}
    assert stat.S_IMODE((folder / "learner.json").stat().st_mode) == 0o600
    book = openpyxl.load_workbook(folder / "learner.xlsx")
    assert book.sheetnames == ["Papers", "Questions", "As written", "Marks", "Decisions", "Observed", "History"]
    rows = {sheet.title: [[cell.value for cell in row] for row in sheet.iter_rows(min_row=2)] for sheet in book}
    assert [row[1] for row in rows["Papers"]] == [WHO, WHO]
    assert rows["As written"][0][3:5] == ["1a", "=910"]
    assert book["As written"].cell(2, 5).data_type == "s"  # text, not a sum
    assert rows["Marks"][0][3:8] == ["1a", 1, 2, "decided", "method shown"]
    assert rows["Decisions"][0][2:5] == ["1a", 1, "method shown"]
    assert [row[3] for row in rows["History"]][:2] == ["paper", "script"]
    assert len(rows["Questions"]) == sum(len(e.parts) for s in sittings for e in s.papers[1].exercises)
    for other in (sittings[0].papers[0], sittings[0].papers[2]):
        assert other.learner.name not in (folder / "learner.json").read_text(encoding="utf-8")


@pytest.mark.parametrize("by_code", [True, False])
def test_a_deleted_learner_is_gone_from_the_record_and_from_every_folder(desk, sittings, by_code) -> None:
    take_both()
    mark_all(sittings)
    run("export", WHO)
    codes = [sitting.papers[1].code for sitting in sittings]
    told = run("delete", codes[0] if by_code else WHO, "--yes").output
    assert "To be deleted: 2 papers" in told
    assert "Deleted in the record: 2 papers." in told
    for word in (WHO, *codes):
        assert bytes_with(word) == []
    assert bytes_with("Amara Okafor") == [
        "output/2026-01-05/sitting.json",
        "output/2026-03-02/sitting.json",
        "output/record.sqlite",
    ]
    run("take", "output/2026-01-05", "output/2026-03-02")  # folder and record agree
    assert "no learner goes by" in run("delete", WHO, "--yes", code=2).output


def test_nothing_is_deleted_without_a_yes(desk, sittings) -> None:
    take_both()
    before = bytes_with(WHO)
    told = run("delete", WHO, typed="n\n", code=1).output
    assert "Delete all of this for good?" in told
    assert bytes_with(WHO) == before
    assert "Deleted in the record" in run("delete", WHO, typed="y\n").output


def test_folders_are_cleaned_where_there_is_no_record(desk) -> None:
    told = run("delete", WHO, "--yes").output
    assert "in the record: nothing" in told
    assert bytes_with(WHO) == []
    assert not Path("output/record.sqlite").exists()


def test_a_folder_elsewhere_is_cleaned_when_it_is_named(desk, sittings) -> None:
    take_both()
    Path("shelf").mkdir()
    Path("output/2026-03-02").rename("shelf/spring")
    run("delete", WHO, "--yes", "--sitting", "shelf/spring")
    assert WHO not in Path("shelf/spring/sitting.json").read_text(encoding="utf-8")


def test_a_tutors_own_files_are_listed_before_the_question_and_after_it_and_left_alone(desk) -> None:
    take_both()
    notes = Path("output/criteria-notes.csv")
    notes.write_text(f"{WHO};good\n", encoding="utf-8")
    told = run("delete", WHO, typed="n\n", code=1).output
    assert told.index(str(notes.resolve())) < told.index("Delete all of this for good?")
    told = run("delete", WHO, typed="y\n").output
    assert told.rindex(str(notes.resolve())) > told.index("Deleted in the record")
    assert notes.read_text(encoding="utf-8") == f"{WHO};good\n"


def test_a_folder_elsewhere_that_the_record_knows_is_listed_and_cleaned_where_that_is_asked_for(desk, sittings) -> None:
    Path("shelf").mkdir()
    Path("output/2026-03-02").rename("shelf/spring")
    run("take", "output/2026-01-05", "shelf/spring")
    before = Path("shelf/spring/sitting.json").read_bytes()
    told = run("delete", WHO, typed="n\n", code=1).output
    assert "left as they are unless you ask for them too" in told
    assert str(Path("shelf/spring").resolve()) in told
    assert Path("shelf/spring/sitting.json").read_bytes() == before
    run("delete", WHO, "--yes", "--elsewhere")
    assert bytes_with(WHO) == []
    assert "Amara Okafor" in Path("shelf/spring/sitting.json").read_text(encoding="utf-8")


def test_a_sitting_whose_folder_nobody_knows_is_named(desk, sittings) -> None:
    take_both()
    Path("shelf").mkdir()
    Path("output/2026-03-02").rename("shelf/spring")
    told = run("delete", WHO, typed="n\n", code=1).output
    assert f"The folder of the sitting {sittings[1].code} was not found" in told


def test_a_stop_between_folder_and_record_is_gone_on_with(desk, sittings, monkeypatch) -> None:
    from courseware.erasure import learner

    take_both()
    code = sittings[0].papers[1].code
    with monkeypatch.context() as full:

        def stopped(*_: object) -> None:
            raise OSError(28, "No space left on device")

        full.setattr(learner, "delete_papers", stopped)
        assert "the disk is full" in run("delete", code, "--yes", code=3).output
    assert bytes_with(code) == ["output/record.sqlite"]
    run("delete", code, "--yes")
    assert bytes_with(code) == bytes_with(WHO) == []


def test_a_namesake_is_left_and_told(desk, dealt) -> None:
    plain = dealt(exercises=1, seed="namesakes")
    same = Learner(name="Sam Hill")
    sitting = replace(plain, papers=tuple(replace(paper, learner=same) for paper in plain.papers))
    Path("output/namesakes").mkdir()
    Path("output/namesakes/sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    run("take", "output/namesakes")
    assert "stands on two papers of one sitting" in run("delete", "Sam Hill", "--yes", code=2).output
    told = run("delete", sitting.papers[0].code, "--yes").output
    assert f"NOT, since they may be a namesake's: {sitting.papers[1].code}, {sitting.papers[2].code}" in told
    assert bytes_with(sitting.papers[0].code) == []
    assert len(bytes_with(sitting.papers[1].code)) == 2


def test_how_long_each_kind_is_kept_and_what_is_past_it(desk) -> None:
    assert "names: always\n" in run("keep", "scripts", "36", "--by", "Q. Lead").output
    assert "scripts: 36 months after the sitting" in run("keep").output
    assert "Nothing is past its time." in run("past").output
    run("keep", "scripts", "always", "--by", "Q. Lead")
    assert "No time is set" in run("past").output


def test_what_is_past_its_time_is_listed_and_stays(desk, dealt) -> None:
    sitting = replace(dealt(exercises=1), date="2020-01-31")
    Path("output/old").mkdir()
    Path("output/old/sitting.json").write_text(write_sitting(sitting), encoding="utf-8")
    run("take", "output/old")
    run("keep", "names", "1", "--by", "Q. Lead")
    told = run("past").output
    assert f"names of {sitting.code}, Setting out, 2020-01-31: kept until 2020-02-29; 3 papers" in told
    assert "`courseware record delete WHO`" in told
    assert "3 papers" in run("list").output
