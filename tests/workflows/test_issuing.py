"""What decides a sitting, what a stopped run is gone on with for, and what made the sheets."""

from __future__ import annotations

import errno
import json
import secrets
from itertools import product
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from courseware.cli import main
from courseware.files.bank_files import find_banks, read_banks
from courseware.papers.deal import Choosing, choose
from courseware.printing.versions import versions
from courseware.workflows import issuing

ASKED = ("issue", "safe_cutting", "--exercises", "2", "--learners", "1", "--date", "2026-01-05", "--jobs", "1")


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


def stopped(*words: str) -> None:
    """A run that the disk stops once it has dealt."""

    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "full")

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(issuing, "print_sheets", full)
        done = run(*words)
    assert done.exit_code == 3, done.output
    assert len(list(Path("output").glob(".*.unfinished/sitting.json"))) == 1
    assert not list(Path("output").glob("[!.]*"))


def chosen(seed: str) -> list[str]:
    banks, _ = read_banks(find_banks(("safe_cutting",)))
    return [exercise.name for _, exercise in choose(banks, Choosing(exercises=2), seed)]


def test_without_a_seed_the_exercises_too_follow_from_the_secret_one(monkeypatch) -> None:
    first, second = next(
        (a, b) for a, b in product(map(str, range(10)), repeat=2) if set(chosen(a)) != set(chosen(b))
    )  # fmt: skip
    for out, seed in (("a", first), ("b", second)):
        monkeypatch.setattr(secrets, "token_hex", lambda _, seed=seed: seed)
        assert run(*ASKED, "--out", out).exit_code == 0
        assert names(record(out)) == chosen(seed)
        assert record(out)["sitting"]["seed"] == seed


def test_the_same_typed_seed_still_asks_the_same(monkeypatch) -> None:
    for out in ("a", "b"):
        assert run(*ASKED, "--seed", "wall", "--out", out).exit_code == 0
    assert names(record("a")) == names(record("b")) == chosen("wall")


def test_a_stopped_run_is_gone_on_with_in_the_exercises_and_the_seed_it_began_with() -> None:
    stopped(*ASKED)
    [begun] = Path("output").glob(".*.unfinished/sitting.json")
    before = begun.read_text(encoding="utf-8")
    done = run(*ASKED)
    assert done.exit_code == 0
    assert "Went on from a run that had been stopped" in done.output
    [after] = Path("output").glob("[!.]*/sitting.json")
    assert after.read_text(encoding="utf-8") == before


@pytest.mark.parametrize(
    "other",
    [
        ("--arris-rule", "near"),
        ("--level", "1"),
        ("--exercises", "3"),
        ("--seed", "typed"),
        ("--learners", "2"),
    ],
)
def test_another_request_does_not_go_on_from_a_stopped_run(other: tuple[str, ...]) -> None:
    stopped(*ASKED)
    [begun] = Path("output").glob(".*.unfinished/sitting.json")
    seed = json.loads(begun.read_text(encoding="utf-8"))["sitting"]["seed"]
    done = run(*ASKED, *other)
    assert done.exit_code == 0, done.output
    assert "Went on" not in done.output
    assert record()["sitting"]["seed"] != seed
    if other[0] == "--arris-rule":
        assert record()["sitting"]["arris_rule"] == "near"
    assert begun.exists()


def test_a_stopped_run_is_not_gone_on_with_in_other_versions(monkeypatch) -> None:
    stopped(*ASKED)
    monkeypatch.setattr(issuing, "versions", lambda: {**versions(), "pango": "9.9.9"})
    done = run(*ASKED)
    assert done.exit_code == 0
    assert "Went on" not in done.output
    assert record()["sitting"]["made_with"]["pango"] == "9.9.9"
