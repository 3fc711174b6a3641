"""What `check` and `topics` print: a line an exercise, with its space, its answers and what was left out."""

from __future__ import annotations

import pytest

from courseware.banks import Bank, prove, read_bank
from courseware.commands import proof_report
from courseware.commands.proof_report import list_topics, report_proofs
from tests.commands.conftest import BANK

# 5 to 9 bricks by Technical Information Sheet 9, Table 1, "CO - Joint": 1115 to 2015 mm, all of four figures.


def bank(text: str = BANK) -> Bank:
    return read_bank(text.encode(), "piers.yaml")


def said(capsys, *banks: Bank) -> list[str]:
    report_proofs(banks, [prove(exercise) for one in banks for exercise in one.exercises])
    return capsys.readouterr().out.splitlines()


def test_an_exercise_is_told_with_its_space_its_answers_and_what_was_left_out(capsys) -> None:
    assert said(capsys, bank()) == [
        "piers.yaml: Piers",
        "  pier-length (level 1): 5 variants, none for practice",
        "    not practised: that takes 12 variants or more; give its givens more values",
        "    length: 1115 to 2015 mm; 1 slip",
        "    left out: 3 of another difficulty (digits, halves or rounding)",
        "all 1 exercises proved: 8 variants walked, 5 in the spaces.",
    ]


def test_several_banks_are_told_one_after_another_and_counted_together(capsys) -> None:
    lines = said(capsys, bank(), bank(BANK.replace("topic: Piers", "topic: Other piers")))
    assert [line for line in lines if line.startswith("piers.yaml")] == ["piers.yaml: Piers", "piers.yaml: Other piers"]
    assert lines[-1] == "all 2 exercises proved: 16 variants walked, 10 in the spaces."


def test_one_that_fails_is_told_in_its_line_and_in_the_verdict(capsys) -> None:
    wrong = bank(BANK.replace("bricks * module - joint,", "bricks * module - 2 * joint,"))
    lines = said(capsys, bank(), wrong)
    assert "  pier-length (level 1): FAILED" in lines
    assert lines[-1].startswith("1 of 2 exercises FAILED: ")


def test_an_answer_that_is_one_figure_throughout_is_told_as_one(capsys) -> None:
    """A single variant has no range."""
    lines = said(capsys, bank(BANK.replace("{bricks: 2 to 9}", "{bricks: [5]}")))
    assert "    length: 1115 mm; 1 slip" in lines


@pytest.mark.parametrize(("month", "told"), [(14, False), (15, False), (16, True)])
def test_fewer_variants_for_practice_than_a_month_asks_are_told(capsys, monkeypatch, month: int, told: bool) -> None:
    monkeypatch.setattr(proof_report, "OF_A_MONTH", month)
    lines = said(capsys, bank(BANK.replace("{bricks: 2 to 9}", "{bricks: 5 to 44}")))
    assert lines[1] == "  pier-length (level 1): 40 variants, 15 for practice"
    few = f"    under {month}: in a month of daily practice figures come again; give its givens more values"
    assert (few in lines) is told


@pytest.mark.parametrize(("format", "shown"), [("", ""), ("    format: AUSTRALIAN\n", "  [Australian]")])
def test_topics_are_listed_by_level_and_a_format_that_is_not_the_usual_is_named(
    capsys, tmp_path, format: str, shown: str
) -> None:
    own = bank(BANK.replace("    level: 1\n", f"    level: 1\n{format}"))
    list_topics([own], None, [tmp_path / "piers.yaml"])
    assert capsys.readouterr().out.splitlines() == [
        "piers: Piers", "  Work out the length of a pier", f"  level 1  pier-length  (2 marks){shown}", "",
    ]  # fmt: skip
