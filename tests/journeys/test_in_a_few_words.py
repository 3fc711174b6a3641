"""A part answered in a few words goes all the way: proved, printed with lines, marked by ticked points, practised."""

from __future__ import annotations

import re
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from courseware.cli import main
from tests.practice.packed_kind import unpacked_kind

BANK = """\
topic: Joints
aim: Say why joints are as they are
exercises:
  - name: why-one-fewer
    level: 1
    given: {bricks: 5 to 40}
    pose: A pier is {{ bricks }} bricks long.
    drawing: {kind: pier, bricks: "least(bricks, 12)"}
    parts:
      - name: length
        ask: How long is it?
        answer: pier(bricks)
        unit: mm
        marks: 1
        working: [{say: One joint fewer than bricks, value: bricks * module - joint}]
      - name: why
        kind: words
        ask: Why has a pier one joint fewer than bricks?
        points: [Joints stand between bricks, Both ends are brick]
        lines: 4
        marks: 2
"""


@pytest.fixture(scope="module")
def issued(tmp_path_factory) -> Path:
    desk = tmp_path_factory.mktemp("words")
    (desk / "joints.yaml").write_text(BANK, encoding="utf-8")
    words = [
        "issue",
        str(desk / "joints.yaml"),
        "--learners",
        "2",
        "--date",
        "2026-01-05",
        "--out",
        str(desk / "output"),
    ]
    done = CliRunner().invoke(main, [*words, "--jobs", "1"])
    assert done.exit_code == 0, done.output
    [file] = desk.glob("output/*/sitting.json")
    return file.parent


def text_of(pdf: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(pdf).pages)


def test_the_paper_asks_for_words_and_gives_none_of_the_points(issued: Path) -> None:
    paper, key = (
        text_of(next(issued.glob(pattern))) for pattern in ("for-learners/paper-*.pdf", "for-tutor/key-*.pdf")
    )
    assert "in a few words" in paper
    assert "Both ends are brick" not in paper
    assert "Both ends are brick" in key
    assert "by eye against the points" in key


def test_it_is_marked_by_ticked_points_and_fed_back(issued: Path) -> None:
    sheet = issued / "for-tutor/marking-sheet.xlsx"
    book = openpyxl.load_workbook(sheet)
    columns = {cell.value: cell.column for cell in book.active[1]}
    book.active.cell(2, columns["1b"]).value = "yn"
    book.save(sheet)
    done = CliRunner().invoke(main, ["mark", str(issued), "--assessor", "J. Marsh", "--jobs", "1"])
    assert done.exit_code == 0, done.output
    [feedback] = issued.glob("marked/feedback-*.pdf")
    assert "1 out of 3" in text_of(feedback)


def test_it_is_practised_by_ticking_ones_own_points(issued: Path) -> None:
    page = issued.parent / "practice.html"
    done = CliRunner().invoke(main, ["practise", str(issued.parents[1] / "joints.yaml"), "--out", str(page)])
    assert done.exit_code == 0, done.output
    [packed] = re.findall(r'id="kind-0"[^>]*>([^<]+)<', page.read_text(encoding="utf-8"))
    kind = unpacked_kind(packed)
    part = kind["variants"][0]["parts"][1]
    assert part["points"] == ["Joints stand between bricks", "Both ends are brick"]
    assert (part["kind"], part["lines"]) == ("drawn", 4)
