"""A retake: the same exercises in variants that a learner has never had."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.piers_sitting import answer, fill, papers, run


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
    assert not Path("output/record.sqlite").exists(), "a record is made by marking, not by a retake"
    first = papers(sitting)[0]
    assert run("mark", str(sitting), fill(sitting, "a.csv", {"1a": answer(first, "1a")}), "--jobs", "1").exit_code == 0
    assert run(*again, "2026-03-01").exit_code == 0
    [folder] = Path("output").glob("2026-03-01*")
    code = json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["sitting"]["code"]
    assert code in run("record", "list").output


def test_a_record_that_refuses_does_not_hide_that_the_retake_is_issued(sitting) -> None:
    Path("output/record.sqlite").write_text("no record", encoding="utf-8")
    done = run("issue", "--retake", str(sitting), "--jobs", "1", "--date", "2026-02-01")
    assert done.exit_code == 0, done.output
    assert "did not take it in" in done.output
    assert list(Path("output").glob("2026-02-01*/sitting.json"))


def test_a_retake_names_neither_banks_nor_a_group(sitting) -> None:
    done = run("issue", "piers.yaml", "--retake", str(sitting))
    assert done.exit_code == 2
    assert "name neither banks nor group" in done.output
    nobody = run("issue", "--retake", str(sitting), "--for", "Nobody")
    assert nobody.exit_code == 2
    assert "no learner of the sitting is called Nobody" in nobody.output
