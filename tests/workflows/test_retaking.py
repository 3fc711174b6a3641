"""A retake: the same exercises in variants that a learner has never had."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import SittingFolder
from courseware.papers.group import Learner
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import write_sitting
from courseware.workflows.retaking import banks_of, had_in_group, learners_of, worksheet_on_a_job
from tests.piers_sitting import papers, run


@pytest.fixture
def sitting(piers_sitting: Path) -> Path:
    """The sitting on piers, just issued."""
    return piers_sitting


def test_a_retake_gives_the_same_exercises_in_variants_never_had(sitting) -> None:
    again = run(
        "issue", "--retake", str(sitting), "--for", "Amara Okafor", "--for", "A2", "--date", "2026-02-01", "--jobs", "1"
    )
    assert again.exit_code == 0, again.output
    [folder] = Path("output").glob("2026-02-01*")
    third = run("issue", "--retake", str(folder), "--date", "2026-03-01", "--jobs", "1")
    assert third.exit_code == 0, third.output
    [last] = Path("output").glob("2026-03-01*")
    for place in (0, 1):
        had = [papers(path)[place]["exercises"][0]["given"] for path in (sitting, folder, last)]
        assert len({json.dumps(given) for given in had}) == 3
        assert papers(sitting)[place]["learner"] == papers(last)[place]["learner"]
    head = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["sitting"]
    assert head["retake_of"] == json.loads((sitting / "sitting.json").read_text(encoding="utf-8"))["sitting"]["code"]
    assert head["title"] == "Retake: Piers"


def test_a_retake_is_in_the_record_as_soon_as_it_is_issued(sitting) -> None:
    again = ("issue", "--retake", str(sitting), "--jobs", "1", "--date")
    assert run(*again, "2026-02-01").exit_code == 0
    [folder] = Path("output").glob("2026-02-01*")
    code = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["sitting"]["code"]
    assert code in run("record", "list").output


def test_a_record_that_refuses_does_not_hide_that_the_retake_is_issued(sitting) -> None:
    Path("output/record.sqlite").write_text("no record", encoding="utf-8")
    done = run("issue", "--retake", str(sitting), "--jobs", "1", "--date", "2026-02-01")
    assert done.exit_code == 0, done.output
    assert "did not take them in" in done.output
    assert list(Path("output").glob("2026-02-01*/sitting.json"))


def test_a_retake_names_neither_banks_nor_a_group(sitting) -> None:
    done = run("issue", "piers.yaml", "--retake", str(sitting))
    assert done.exit_code == 2
    assert "name neither banks nor group" in done.output
    nobody = run("issue", "--retake", str(sitting), "--for", "Nobody")
    assert nobody.exit_code == 2
    assert "no learner of the sitting is called Nobody" in nobody.output


@pytest.fixture(scope="module")
def dealt_sitting(dealt) -> Sitting:
    """Three learners of whom the last two are namesakes; the second has a reference of their own."""
    plain = dealt("opening_sizes", 3)
    people = (
        Learner(name="Amara Okafor", reference=""),
        Learner(name="Jo Reed", reference="A2"),
        Learner(name="Jo Reed"),
    )
    papers = tuple(replace(paper, learner=who) for paper, who in zip(plain.papers, people, strict=True))
    return replace(plain, papers=papers)


def test_learners_are_named_by_name_reference_or_the_code_of_their_paper(dealt_sitting: Sitting) -> None:
    first, second, third = dealt_sitting.papers
    assert learners_of(dealt_sitting, []) == (first, second, third)
    assert learners_of(dealt_sitting, ["A2", "Amara Okafor"]) == (second, first)
    assert learners_of(dealt_sitting, [third.code.lower().replace("-", "")]) == (third,)
    assert learners_of(dealt_sitting, ["A2", second.code]) == (second,)  # named twice, issued once


@pytest.mark.parametrize(
    ("who", "told"),
    [("Jo Reed", "more than one learner is called Jo Reed; give the code"), ("Bo Ek", "no learner of the sitting is")],
)
def test_who_cannot_be_told_apart_or_is_not_there_is_asked_about(dealt_sitting: Sitting, who: str, told: str) -> None:
    with pytest.raises(NotFound, match=told):
        learners_of(dealt_sitting, [who])


def test_the_banks_of_a_sitting_come_from_its_file_alone(dealt_sitting: Sitting) -> None:
    banks, notes, chosen = banks_of(dealt_sitting)
    assert [bank.sha256 for bank in banks] == [source.sha256 for source in dealt_sitting.banks]
    assert notes is not None
    assert [exercise.name for _, exercise in chosen] == [one.exercise for one in dealt_sitting.papers[0].exercises]


@pytest.fixture
def had(dealt_sitting: Sitting, tmp_path: Path):
    """What some learners of another group have had, where the sitting stands in a folder."""
    folder = tmp_path / "output" / "sitting"
    folder.mkdir(parents=True)
    text = write_sitting(dealt_sitting)
    (folder / "sitting.json").write_text(text, encoding="utf-8")
    where = SittingFolder(path=folder, text=text, sitting=dealt_sitting)
    return lambda *learners: had_in_group(learners, where, tmp_path / "output")


def test_of_another_group_only_who_was_there_before_has_had_anything(had, dealt_sitting: Sitting) -> None:
    known, new, numbered = (Learner(name="Amara Okafor", reference=""), Learner(name="Bo Ek"), Learner(name=""))
    assert had(new, numbered) == ()
    found = had(known, new, numbered)
    assert [bool(one) for one in found] == [True, False, False]


def test_worksheets_on_a_job_are_known_by_their_givens(dealt_sitting: Sitting) -> None:
    """A sitting of any other bank is none, though all its papers were alike."""
    alike = replace(dealt_sitting, papers=(dealt_sitting.papers[0],) * 2)
    of_a_job = replace(alike, banks=(replace(alike.banks[0], file="worksheet.yaml"),))
    assert worksheet_on_a_job(of_a_job)
    assert not worksheet_on_a_job(alike)
    assert not worksheet_on_a_job(replace(of_a_job, papers=dealt_sitting.papers))
