"""`courseware practise`: what it makes, what it says, and what it refuses."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bank_of_piers import kinds, run


def test_one_file_and_where_it_is(piers_bank, tmp_path: Path) -> None:
    made = run(piers_bank(), "--out", str(tmp_path / "home" / "practice.html"))
    assert made.exit_code == 0, made.output
    assert "1 kind of question to practise" in made.output
    assert [path.name for path in (tmp_path / "home").iterdir()] == ["practice.html"]
    assert "<title>Practise: Piers</title>" in (tmp_path / "home" / "practice.html").read_text(encoding="utf-8")


def test_a_booklet_is_a_pdf(tmp_path: Path) -> None:
    made = run("opening_sizes", "--level", "1", "--print", "--out", str(tmp_path / "practice.pdf"))
    assert made.exit_code == 0, made.output
    assert (tmp_path / "practice.pdf").read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("opening_sizes", "--out", "."), "is a folder; name a file in it"),
        (("opening_sizes", "--level", "4"), "is not in the range"),
    ],
)
def test_what_cannot_be_is_said_before_any_work(arguments: tuple[str, ...], says: str) -> None:
    made = run(*arguments)
    assert made.exit_code == 2
    assert says in made.output


def test_without_a_bank_the_page_has_all_shipped_topics(tmp_path, few_questions) -> None:
    file = tmp_path / "all.html"
    made = run("--level", "3", "--out", str(file))
    assert made.exit_code == 0, made.output
    assert {kind["topic"] for kind in kinds(file)} >= {"Opening sizes", "Course gauge", "Safe cutting"}


def test_the_page_of_all_topics_is_under_two_megabytes_with_the_variants_that_a_month_is_simulated_with(
    tmp_path,
) -> None:
    file = tmp_path / "all.html"
    assert run("--out", str(file)).exit_code == 0
    assert file.stat().st_size <= 2_000_000
    assert min(kind["variants"] for kind in kinds(file)) >= 18  # FITS of tests/practice/test_page_month.py


def test_a_second_language_goes_onto_the_page_and_a_faulty_table_is_told_before_any_work(
    piers_bank, tmp_path: Path
) -> None:
    table, file = tmp_path / "pl.csv", tmp_path / "practice.html"
    table.write_text("word,pl\nbedd,spoina\n", encoding="utf-8")
    made = run(
        piers_bank(working="bricks * module"), "--second-language", str(table), "--out", str(file)
    )  # its proof fails
    assert made.exit_code == 2
    assert "pl.csv:2:1: `bedd` is no word of the glossary" in made.output
    table.write_text("word,pl\nbed,spoina\n", encoding="utf-8")
    made = run(piers_bank(), "--second-language", str(table), "--out", str(file))
    assert made.exit_code == 0, made.output
    assert "74 words of the glossary have no second language" in made.output


def test_a_booklet_takes_no_second_language(piers_bank) -> None:
    made = run(piers_bank(), "--print", "--second-language", "pl.csv")
    assert made.exit_code == 2
    assert "the booklet has no words" in made.output
