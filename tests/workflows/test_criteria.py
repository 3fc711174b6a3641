"""A centre's criteria mapped over the record, over parts alone, and over a bank of one's own."""

from __future__ import annotations

from pathlib import Path

import openpyxl

from tests.a_centres_criteria import CRITERIA, NAMES, text_of
from tests.commands.conftest import run


def test_the_map_tells_who_has_secure_evidence_and_what_has_none(place) -> None:
    issued, other, _ = place.sitting.papers[0].exercises
    own = CRITERIA.replace("opening-for-a-panel", issued.exercise)
    own = own.replace("wall-between-two-wings, part: pier_length", f"{other.exercise}, part: {other.parts[0].name}")
    Path("centre.yaml").write_text(own, encoding="utf-8")
    done = run("criteria", "centre.yaml", "--names")
    assert done.exit_code == 0, done.output
    assert "Not secure yet, BRK-1.2: nobody was observed at its job yet." in done.output
    assert "Not secure yet, BRK-1.3: nothing serves it." in done.output
    (book,) = Path("output").glob("criteria-map-*.xlsx")
    rows = list(openpyxl.load_workbook(book)["Map"].values)
    states = {row[1]: row[3] for row in rows[1:]}
    assert states[NAMES[0]] == "secure (2 of 2)"
    assert states[NAMES[2]] == "nothing yet"  # absent
    (sheet,) = Path("output").glob("criteria-map-*.pdf")
    assert "BRK-1.1" in text_of(sheet)
    run("criteria", "centre.yaml", place.path)
    assert not any(name in text_of(sheet) for name in NAMES)


def test_without_a_record_criteria_are_mapped_to_parts_alone(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("centre.yaml").write_text(CRITERIA, encoding="utf-8")
    done = run("criteria", "centre.yaml")
    assert done.exit_code == 0, done.output
    assert "3 criteria, 0 learners" in done.output


def test_a_bank_of_ones_own_may_be_named(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    shipped = Path(__file__).parents[2] / "question_banks" / "opening_sizes.yaml"
    own = shipped.read_text(encoding="utf-8").replace("topic: Opening sizes", "topic: Our own openings")
    Path("own.yaml").write_text(own, encoding="utf-8")
    Path("centre.yaml").write_text(
        CRITERIA.replace("topic: Opening sizes", "topic: Our own openings"), encoding="utf-8"
    )
    assert "no topic is named `Our own openings`" in run("criteria", "centre.yaml").output
    assert run("criteria", "centre.yaml", "--bank", "own.yaml").exit_code == 0
