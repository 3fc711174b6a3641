"""A drawing that exists in these tests alone: what a bank may ask of it, and how it is drawn; nothing else knows it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from courseware import drawings
from courseware.banks import BankFaulty, read_bank
from courseware.banks.drawing_kind import DrawingKind
from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.cli import main
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.papers.sheets import DrawingCall

BANK = """\
topic: Plinths
aim: Work out a plinth
exercises:
  - name: plinth
    level: 1
    given: {steps: 3 to 9}
    pose: Each step of a plinth goes back a quarter brick, 56 mm.
    drawing: {kind: plinth, asks: {depth: back}}
    parts:
      - name: back
        ask: How far does it go back?
        answer: steps * 56
        unit: mm
        marks: 1
        working: [{say: A quarter brick to a step, value: 56 * steps}]
"""


def draw_plinth(call: DrawingCall) -> Picture:
    words = call.labels["depth"]
    marks = (
        Stroke(outlines=(((0.0, 0.0), (float(Fraction(call.figures["steps"])) * 5, 20.0)),), weight=0.4),
        Label(at=(10.0, 10.0), text=f"plinth {words}" if words else "plinth", size=3.0),
    )
    return Picture(width=60, height=25, marks=marks, alt=call.alt)


@pytest.fixture
def known(monkeypatch) -> Iterator[None]:
    kind = DrawingKind(
        arguments={"steps": (Fraction(1), Fraction(10))},
        optional={},
        dimensions={"depth": lambda figures, _: Fraction(figures["steps"]) * 56},
        says="a stepped plinth",
    )
    monkeypatch.setitem(DRAWING_KINDS, "plinth", kind)
    monkeypatch.setitem(drawings._DRAWN, "plinth", draw_plinth)
    yield
    read_bank.cache_clear()


def run(*words: object) -> str:
    done = CliRunner().invoke(main, [*map(str, words), "--jobs", "1"])
    assert done.exit_code == 0, done.output
    return done.output


def test_nobody_knows_it_without_its_two_entries() -> None:
    with pytest.raises(BankFaulty, match="no drawing is of kind `plinth`"):
        read_bank(BANK.encode(), "plinths.yaml")


def test_it_is_checked_issued_and_practised(known, tmp_path) -> None:
    bank = tmp_path / "plinths.yaml"
    bank.write_text(BANK, encoding="utf-8")
    assert "all 1 exercises proved: 7 variants walked" in run("check", bank)
    run("issue", bank, "--learners", 1, "--date", "2026-01-05", "--seed", "s", "--out", tmp_path / "output")
    [paper] = tmp_path.glob("output/*/for-learners/paper-*.pdf")
    [key] = tmp_path.glob("output/*/for-tutor/key-*.pdf")
    assert "plinth" in PdfReader(paper).pages[0].extract_text().split()
    assert re.search(r"\bplinth \d", PdfReader(key).pages[0].extract_text())  # beside the working, with its figure


def test_its_limits_and_its_dimensions_are_proved(known, tmp_path) -> None:
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text(BANK.replace("3 to 9", "3 to 12"), encoding="utf-8")
    done = CliRunner().invoke(main, ["check", str(wrong), "--jobs", "1"])
    assert "the drawing does not fit its box: steps is 11, and it takes 1 to 10" in done.output
    wrong.write_text(BANK.replace("steps * 56", "steps * 57").replace("56 * steps", "57 * steps"), encoding="utf-8")
    done = CliRunner().invoke(main, ["check", str(wrong), "--jobs", "1"])
    assert "the drawing's depth is 168 mm, the answer to back 171 mm" in done.output
