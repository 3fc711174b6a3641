"""Papers begun in a folder of work: what was chosen is kept, and issued as the command does. Learners are invented."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from courseware.cli import main
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import read_folder
from courseware.papers.class_list_rows import TypedRow
from courseware.settings.settings import DEFAULTS
from courseware.workflows.class_lists import keep_list, mend_row
from courseware.workflows.exercises_at_hand import Pick
from courseware.workflows.papers_begun import (
    BEGUN,
    MOST_EXERCISES,
    NotReady,
    PapersBegun,
    begin_papers,
    begun,
    change_papers,
    entries_wrong,
    issue_begun,
    missing,
    move,
    papers_begun,
    pick,
    put_away,
    put_away_issued,
)
from tests.piers_sitting import BANK

LENGTH = Pick(bank="banks/piers.yaml", exercise="pier-length")
NOISE = Pick(bank="safe_cutting", exercise="noise-figures")
CUTTING = Pick(bank="safe_cutting", exercise="any")
LIST = "Name,ID,Level,Paper\nAmara Okafor,1,1,large-18\nŁukasz Wójcik,2,1,\n".encode()


@pytest.fixture
def work(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    (tmp_path / "banks").mkdir()
    (tmp_path / "banks" / "piers.yaml").write_text(BANK, encoding="utf-8")
    return tmp_path


def bytes_of(folder: Path) -> Iterator[tuple[str, bytes]]:
    for file in sorted(folder.rglob("*.*")):
        if file.is_file():
            yield file.relative_to(folder).as_posix(), file.read_bytes()


def test_what_was_chosen_is_kept(work: Path) -> None:
    key = begin_papers(work)
    change_papers(work, key, title="Piers", learners=3)
    pick(work, key, LENGTH, on=True)
    assert papers_begun(work, key) == PapersBegun(title="Piers", learners=3, picks=(LENGTH,))
    assert begun(work) == ((key, papers_begun(work, key)),)
    put_away(work, key)
    assert begun(work) == ()


@pytest.mark.parametrize("key", ["", "00000000", "../../x", "output"])
def test_what_was_never_begun_is_not_found(work: Path, key: str) -> None:
    with pytest.raises(NotFound):
        papers_begun(work, key)


def test_a_file_changed_by_hand_is_left_out_and_said_to_be_so(work: Path) -> None:
    key = begin_papers(work)
    (work / BEGUN / f"{key}.json").write_text('{"learners": "many"}', encoding="utf-8")
    assert begun(work) == ()
    with pytest.raises(NotFound, match="changed by hand"):
        papers_begun(work, key)


def test_exercises_stand_in_the_order_in_which_they_were_chosen_until_they_are_moved(work: Path) -> None:
    key = begin_papers(work)
    picks = [Pick(bank="b", exercise=name) for name in ("one", "two", "three")]
    for one in (*picks, picks[0]):  # chosen again: it goes to the end
        pick(work, key, one, on=True)
    assert [one.exercise for one in papers_begun(work, key).picks] == ["two", "three", "one"]
    assert [one.exercise for one in move(work, key, picks[0], -1).picks] == ["two", "one", "three"]
    assert [one.exercise for one in move(work, key, picks[0], -9).picks] == ["one", "two", "three"]
    assert [one.exercise for one in move(work, key, picks[0], 1).picks] == ["two", "one", "three"]
    assert [one.exercise for one in move(work, key, CUTTING, 1).picks] == ["two", "one", "three"]
    assert [one.exercise for one in pick(work, key, picks[0], on=False).picks] == ["two", "three"]


def test_a_paper_has_an_end(work: Path) -> None:
    full = tuple(Pick(bank="b", exercise=str(number)) for number in range(MOST_EXERCISES))
    key = begin_papers(work, PapersBegun(picks=full[:-1]))
    pick(work, key, full[-1], on=True)
    with pytest.raises(NotReady, match="at most 40"):
        pick(work, key, LENGTH, on=True)


def test_two_exercises_of_one_name_are_not_told_apart_on_a_paper(work: Path) -> None:
    key = begin_papers(work, PapersBegun(picks=(LENGTH,)))
    with pytest.raises(NotReady, match=r"banks/piers\.yaml"):
        pick(work, key, Pick(bank="other", exercise="pier-length"), on=True)


@pytest.mark.parametrize(
    ("name", "typed", "says"),
    [
        ("date", "tomorrow", "2026-11-25"),
        ("date", "20261125", "2026-11-25"),
        ("due", "2020-01-01", "before the day"),
        ("title", "x" * 101, "at most 100"),
        ("group_name", "A\u202e", "can be seen"),
        ("sheets", "huge", "not a word for a paper's format"),
    ],
)
def test_a_setting_that_cannot_be_is_refused_at_its_place(name: str, typed: str, says: str) -> None:
    assert says in entries_wrong({name: typed})[name]


def test_settings_that_can_be_are_not() -> None:
    assert (
        entries_wrong(
            {"date": "2026-01-05", "due": "2026-01-05", "title": "x" * 100, "sheets": "large-18 cream", "seed": ""}
        )
        == {}
    )


def test_what_is_missing_is_said_by_its_step(work: Path) -> None:
    assert sorted(missing(work, PapersBegun())) == ["exercises", "who"]
    kept, _ = keep_list(work, b"Name,Paper\nAmara Okafor,huge\n", "group-a.csv")
    ready = PapersBegun(class_list=kept.key, picks=(LENGTH,))
    assert missing(work, ready) == {"who": "The class list has rows to be mended first."}
    mend_row(work, kept.key, 0, kept.rows[0], TypedRow(name="Amara Okafor"))
    assert missing(work, ready) == {}
    assert sorted(missing(work, PapersBegun(class_list=kept.key, picks=(LENGTH,), by_level=True))) == ["settings"]
    assert sorted(missing(work, PapersBegun(class_list="gone", picks=(LENGTH,)))) == ["who"]


def test_papers_that_are_not_ready_are_not_issued(work: Path, heard) -> None:
    key = begin_papers(work, PapersBegun(learners=2))
    with pytest.raises(NotReady, match="Choose the exercises"):
        issue_begun(work, key, work / "output", DEFAULTS, 1, heard)
    assert not (work / "output").exists()
    assert papers_begun(work, key).learners == 2


def test_the_sitting_is_the_commands_own_byte_for_byte(work: Path, heard) -> None:
    """With the same class list, choices, seed and date."""
    kept, _ = keep_list(work, LIST, "group-a.csv")
    papers = PapersBegun(
        class_list=kept.key, picks=(LENGTH,), title="Piers", date="2026-01-05", group_name="Group A", seed="a seed",
        due="2026-01-12", sheets="cream", word=True,
    )  # fmt: skip
    [issued] = issue_begun(work, begin_papers(work, papers), work / "output", DEFAULTS, 1, heard)
    assert begun(work) == ()
    Path("group-a.csv").write_bytes(LIST)
    done = CliRunner().invoke(
        main,
        ["issue", "banks/piers.yaml", "--group", "group-a.csv", "--pick", "pier-length", "--title", "Piers", "--date",
         "2026-01-05", "--group-name", "Group A", "--seed", "a seed", "--format", "cream", "--word", "--due", "2026-01-12", "--out", "by-command",
         "--jobs", "1"],
    )  # fmt: skip
    assert done.exit_code == 0, done.output
    [by_command] = Path("by-command").glob("2026*")
    assert dict(bytes_of(issued.folder)) == dict(bytes_of(by_command))


def test_by_level_a_sitting_a_level_is_issued(work: Path, heard) -> None:
    (work / "banks" / "more.yaml").write_text(
        BANK.replace("topic: Piers", "topic: More piers").replace("level: 1", "level: 2"), encoding="utf-8"
    )
    kept, _ = keep_list(work, b"Name,Level\nAmara Okafor,2\nZoe Brown,1\n", "group-a.csv")
    picks = (LENGTH, Pick(bank="banks/more.yaml", exercise="pier-length"))
    papers = PapersBegun(class_list=kept.key, picks=picks, by_level=True, exercises=1, date="2026-01-05")
    issued = issue_begun(work, begin_papers(work, papers), work / "output", DEFAULTS, 1, heard)
    sittings = [read_folder(one.folder).sitting for one in issued]
    assert [[paper.learner.name for paper in one.papers] for one in sittings] == [["Zoe Brown"], ["Amara Okafor"]]
    assert [one.group for one in sittings] == ["Group a, level 1", "Group a, level 2"]


def test_numbered_papers_need_no_list(work: Path, heard) -> None:
    papers = PapersBegun(learners=2, picks=(LENGTH,), date="2026-01-05")
    [issued] = issue_begun(work, begin_papers(work, papers), work / "output", DEFAULTS, 1, heard)
    assert issued.papers == 2


def test_what_a_stopped_run_was_issuing_is_put_away_once_that_is_finished(work: Path, heard) -> None:
    papers = PapersBegun(learners=2, picks=(NOISE,), date="2026-01-05")
    [issued] = issue_begun(work, begin_papers(work, papers), work / "output", DEFAULTS, 1, heard)
    sitting = read_folder(issued.folder).sitting
    stopped, waits = (begin_papers(work, replace(papers, issuing=issuing)) for issuing in (True, False))
    others = [replace(papers, issuing=True, date="2026-01-06"), replace(papers, issuing=True, picks=(NOISE, LENGTH))]
    left = {waits, *(begin_papers(work, other) for other in others)}
    put_away_issued(work, sitting)
    assert {key for key, _ in begun(work)} == left, stopped
    assert not change_papers(work, begin_papers(work, replace(papers, issuing=True)), title="Other").issuing


def test_a_bank_that_is_gone_is_named(work: Path, heard) -> None:
    key = begin_papers(work, PapersBegun(learners=1, picks=(Pick(bank="../piers.yaml", exercise="pier-length"),)))
    with pytest.raises(NotFound, match="is not there any more"):
        issue_begun(work, key, work / "output", DEFAULTS, 1, heard)
