"""Papers issued from banks, like another sitting, and by level."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from courseware.cli import main
from courseware.files.bank_files import find_banks, read_banks
from courseware.settings.settings import DEFAULTS
from courseware.workflows.issue import IssueOptions, group_name, group_of, issue_sitting
from tests.workflows.conftest import Heard

ASKED = ("issue", "safe_cutting", "--exercises", "2", "--learners", "1", "--date", "2026-01-05", "--jobs", "1")
MIXED = "Name,Level,Ref\nAmara Okafor,2,A1\nBo Li,Level 1,A2\nZoë Smythe,L2,A3\n"  # invented


@pytest.fixture(autouse=True)
def desk(tmp_path, monkeypatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*words: str) -> Result:
    return CliRunner().invoke(main, list(words))


def record(out: str = "output") -> dict:
    [file] = Path(out).glob("[!.]*/sitting.json")
    return json.loads(file.read_text(encoding="utf-8"))


def names(of: dict) -> list[str]:
    return [exercise["exercise"] for exercise in of["papers"][0]["exercises"]]


def test_a_sitting_is_issued_to_another_group_in_one_step() -> None:
    Path("a.csv").write_text("Name\nAmara Okafor\nZoë Smythe\n", encoding="utf-8")
    Path("b.csv").write_text("Name\nŁukasz Wójcik\nAmara Okafor\nBo Li\n", encoding="utf-8")
    first = (*ASKED[:4], "--group", "a.csv", "--title", "Cutting", "--arris-rule", "near", "--jobs", "1")
    assert run(*first, "--date", "2026-01-05").exit_code == 0
    [old] = Path("output").glob("2026-01-05*")
    done = run("issue", "--like", str(old), "--group", "b.csv", "--date", "2027-01-05", "--jobs", "1")
    assert done.exit_code == 0, done.output
    [new] = Path("output").glob("2027-01-05*")
    before, after = (json.loads((folder / "sitting.json").read_text(encoding="utf-8")) for folder in (old, new))
    assert names(after) == names(before)
    assert [paper["learner"]["name"] for paper in after["papers"]] == ["Łukasz Wójcik", "Amara Okafor", "Bo Li"]
    kept = ("title", "arris_rule", "banks")
    assert {key: after["sitting"][key] for key in kept} == {key: before["sitting"][key] for key in kept}
    assert after["sitting"]["seed"] != before["sitting"]["seed"]
    assert after["sitting"]["group"] == "B"
    assert "retake_of" not in after["sitting"]
    assert not {p["code"] for p in after["papers"]} & {p["code"] for p in before["papers"]}
    for place in (0, 1):  # who repeats the year has none of last year's variants
        assert after["papers"][1]["exercises"][place]["given"] != before["papers"][0]["exercises"][place]["given"]


def test_a_sitting_is_issued_to_numbered_papers_too_and_from_its_record_alone() -> None:
    assert run(*ASKED).exit_code == 0
    [old] = Path("output").glob("[!.]*/sitting.json")
    Path("alone.json").write_bytes(old.read_bytes())
    done = run("issue", "--like", "alone.json", "--learners", "2", "--out", "next", "--title", "Again", "--jobs", "1")
    assert done.exit_code == 0, done.output
    assert names(record("next")) == names(record())
    assert len(record("next")["papers"]) == 2
    assert record("next")["sitting"]["title"] == "Again"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--like", "x"), "either --group"),
        (("--like", "x", "--learners", "2"), "there is no sitting x"),
        (("safe_cutting", "--like", "x", "--learners", "2"), "--like takes the"),
        (("--like", "x", "--learners", "2", "--pick", "y"), "--like takes the"),
        (("--like", "x", "--learners", "2", "--level", "1"), "--like takes the"),
        (("--like", "x", "--learners", "2", "--arris-rule", "outline"), "--like takes the"),
        (("--like", "x", "--retake", "y"), "name neither banks nor group"),
        (("--like", "x", "--learners", "2", "--for", "Bo"), "--for names learners of a retake"),
    ],
)
def test_what_does_not_go_with_another_sittings_exercises_is_told(words: tuple[str, ...], says: str) -> None:
    done = run("issue", *words)
    assert done.exit_code == 2
    assert says in done.output


def test_worksheets_on_a_job_are_made_from_the_job_not_from_their_sitting() -> None:
    done = run("job", "porch-panel", "--learners", "2", "--jobs", "1")
    assert done.exit_code == 0, done.output
    [old] = Path("output").glob("[!.]*/sitting.json")
    again = run("issue", "--like", str(old.parent), "--learners", "2")
    assert again.exit_code == 2
    assert "courseware job" in again.output


def test_a_mixed_group_gets_a_sitting_for_each_level_of_its_list() -> None:
    Path("mixed.csv").write_text(MIXED, encoding="utf-8")
    words = ("issue", "opening_sizes", "--group", "mixed.csv", "--levels", "--exercises", "2", "--jobs", "1")
    done = run(*words, "--date", "2026-01-05")
    assert done.exit_code == 0, done.output
    assert "Not used" not in done.output
    banks, _ = read_banks(find_banks(("opening_sizes",)))
    level = {exercise.name: exercise.level for bank in banks for exercise in bank.exercises}
    found = {}
    for file in Path("output").glob("[!.]*/sitting.json"):
        data = json.loads(file.read_text(encoding="utf-8"))
        asked = {level[exercise["exercise"]] for paper in data["papers"] for exercise in paper["exercises"]}
        found[data["sitting"]["group"]] = (asked, [paper["learner"]["name"] for paper in data["papers"]])
    assert found == {
        "Mixed, level 1": ({1}, ["Bo Li"]),
        "Mixed, level 2": ({2}, ["Amara Okafor", "Zoë Smythe"]),
    }


def test_nothing_is_made_where_the_banks_hold_too_little_of_one_level() -> None:
    Path("mixed.csv").write_text(MIXED, encoding="utf-8")
    done = run("issue", "opening_sizes", "--group", "mixed.csv", "--levels", "--exercises", "40")
    assert done.exit_code == 2
    assert not list(Path().glob("output/[!.]*"))


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("Name\nBo Li\n", "mixed.csv:1:1: no heading is `Level`"),
        ("Name,Level\nBo Li,\n", "mixed.csv:2:2: no level stands in this row"),
        ("Name,Level\nBo Li,0\n", "mixed.csv:2:2: `0` is not a level"),
        ("Name,Level\nBo Li,4\n", "mixed.csv:2:2: `4` is not a level"),
        ("Name,Level\nBo Li,Level 2 Diploma\n", "mixed.csv:2:2: `Level 2 Diploma` is not a level"),
    ],
)
def test_a_level_that_cannot_be_read_is_told_with_its_row(text: str, says: str) -> None:
    Path("mixed.csv").write_text(text, encoding="utf-8")
    done = run("issue", "opening_sizes", "--group", "mixed.csv", "--levels")
    assert done.exit_code == 2
    assert says in done.output


@pytest.mark.parametrize("more", [("--level", "1"), ("--pick", "x"), ("--like", "x"), ("--retake", "x")])
def test_what_does_not_go_with_levels_is_told(more: tuple[str, ...]) -> None:
    Path("mixed.csv").write_text(MIXED, encoding="utf-8")
    done = run("issue", "opening_sizes", "--group", "mixed.csv", "--levels", *more)
    assert done.exit_code == 2
    assert "--levels goes with" in done.output


def test_who_was_in_both_groups_gets_no_variant_again_even_from_the_same_seed() -> None:
    Path("a.csv").write_text("Name\nAmara Okafor\n", encoding="utf-8")
    given = []
    for out in ("a", "b"):
        words = ASKED[:4]
        if out == "b":
            [old] = Path("a").glob("[!.]*/")
            words = ("issue", "--like", str(old))
        assert run(*words, "--group", "a.csv", "--seed", "wall", "--out", out, "--jobs", "1").exit_code == 0
        given.append([exercise["given"] for exercise in record(out)["papers"][0]["exercises"]])
    assert all(before != after for before, after in zip(*given, strict=True))


@pytest.mark.parametrize(
    ("file", "name"),
    [("group-a.csv", "Group a"), ("level_2_monday.xlsx", "Level 2 monday"), ("B.csv", "B"), ("ÖBB-1.csv", "ÖBB 1")],
)
def test_a_group_is_named_by_its_class_list(file: str, name: str) -> None:
    assert group_name(Path(file)) == name


def test_who_looks_on_hears_that_a_typed_seed_can_be_guessed(heard: Heard, tmp_path: Path) -> None:
    options = IssueOptions(out=tmp_path / "output", settings=DEFAULTS, processes=1, seed="wall", exercises=1)
    issued = issue_sitting(("safe_cutting",), group_of(None, 1, None, heard), "2026-01-05", options, heard)
    assert any("a seed that was typed can be guessed" in note for note in heard.notes)
    assert (issued.papers, issued.resumed) == (1, False)
    assert heard.work["Printing"] == (2, 2)  # a paper and its key
