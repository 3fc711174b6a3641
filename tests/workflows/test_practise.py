"""Practice made: proved first, of variants that no paper is dealt."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.papers.unused_variants import CannotDeal
from courseware.settings.settings import DEFAULTS
from courseware.workflows.practise import ToPractise, to_practise
from tests.bank_of_piers import kinds, run


def test_the_same_bank_makes_the_same_bytes(piers_bank, tmp_path: Path) -> None:
    one, other = tmp_path / "one.html", tmp_path / "other.html"
    assert run(piers_bank(), "--out", str(one)).exit_code == run(piers_bank(), "--out", str(other)).exit_code == 0
    assert one.read_bytes() == other.read_bytes()


def test_a_bank_that_fails_its_proof_makes_no_page(piers_bank, tmp_path: Path) -> None:
    made = run(piers_bank(working="bricks * module"), "--out", str(tmp_path / "practice.html"))
    assert made.exit_code == 1
    assert "nothing was made" in made.output
    assert not (tmp_path / "practice.html").exists()


def test_an_exercise_too_small_to_share_is_kept_for_papers_and_named(piers_bank, tmp_path: Path) -> None:
    made = run(piers_bank(most=8), "--out", str(tmp_path / "practice.html"))
    assert "pier has 4 variants, all kept for papers" in made.output  # 5 to 8 bricks: lengths of four figures
    assert not (tmp_path / "practice.html").exists()


def test_a_job_brings_the_kinds_that_its_own_figures_fit(tmp_path: Path) -> None:
    file = tmp_path / "practice.html"
    made = run("--job", "porch-panel", "--out", str(file))
    assert made.exit_code == 0, made.output
    assert {kind["topic"] for kind in kinds(file)} == {"The figures of the job"}


def levels(found: ToPractise) -> set[int]:
    return {exercise.level for _, exercise in found.chosen}


@pytest.mark.parametrize(("level", "there"), [(1, {1}), (2, {2}), (None, {1, 2})])
def test_only_exercises_of_the_level_asked_are_practised(piers_bank, heard, tmp_path: Path, level, there) -> None:
    piers_bank(level=1, most=40)
    text = (tmp_path / "piers.yaml").read_text(encoding="utf-8")
    harder = text[text.index("  - name: pier") :].replace("name: pier", "name: harder").replace("level: 1", "level: 2")
    (tmp_path / "piers.yaml").write_text(text + harder, encoding="utf-8")
    assert levels(to_practise([str(tmp_path / "piers.yaml")], None, level, DEFAULTS, 1, heard)) == there


def test_a_level_that_no_exercise_has_is_told(piers_bank, heard) -> None:
    with pytest.raises(CannotDeal, match="these banks hold no exercise of that level"):
        to_practise([piers_bank(level=1)], None, 3, DEFAULTS, 1, heard)


@pytest.mark.parametrize(
    ("topics", "title"), [(1, "Piers"), (3, "Piers, piers 2 and piers 3"), (4, "Bricklaying calculations")]
)
def test_three_topics_are_named_in_the_title_and_more_are_not(
    piers_bank, heard, tmp_path: Path, topics: int, title: str
) -> None:
    own = Path(piers_bank())
    files = [own, *(tmp_path / f"piers{n}.yaml" for n in range(2, topics + 1))]
    for n, file in enumerate(files[1:], 2):
        file.write_text(own.read_text(encoding="utf-8").replace("topic: Piers", f"topic: Piers {n}"), encoding="utf-8")
    assert to_practise([str(file) for file in files], None, None, DEFAULTS, 1, heard).title == title


@pytest.mark.parametrize(("asked", "there"), [((), False), (("--print",), True)])
def test_a_site_has_the_booklet_beside_it_where_it_is_asked_for(
    piers_bank, few_questions, tmp_path, asked, there
) -> None:
    site = tmp_path / "site"
    assert run(piers_bank(), "--site", str(site), *asked).exit_code == 0
    assert (site / "booklet.pdf").exists() is there
    assert ('href="booklet.pdf"' in (site / "index.html").read_text(encoding="utf-8")) is there


def test_a_site_is_not_one_file(piers_bank, tmp_path) -> None:
    made = run(piers_bank(), "--site", str(tmp_path / "site"), "--out", str(tmp_path / "practice.html"))
    assert made.exit_code == 2
    assert not (tmp_path / "site").exists()
