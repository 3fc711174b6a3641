"""`courseware sample`: the papers that a quality assurer looks at."""

from __future__ import annotations

import re
import stat
from fractions import Fraction
from pathlib import Path

import openpyxl
import pytest
from pypdf import PdfReader

from courseware.cli import main
from courseware.database.opening import open_record
from courseware.database.sittings import take
from courseware.papers.sitting_file import write_sitting
from tests.commands.conftest import run
from tests.marked_sitting import WHEN

NAMES = ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe")  # as the shared fixture deals them; invented


def text_of(file: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(file).pages)


def test_a_sample_names_its_seed_and_gives_itself_again_from_it(place) -> None:
    done = run("sample", "--papers", "2", "--pass-line", "60", "--date", "2026-02-01")
    assert done.exit_code == 0, done.output
    seed = re.search(r"drawn with the seed (\w+)", done.output)[1]
    (file,) = Path("output").glob("sampling-plan-*.pdf")
    first = file.read_bytes()
    assert f"the seed {seed}" in text_of(file)
    assert "2026-02-01" in file.name
    run("sample", place.path, "--papers", "2", "--pass-line", "60", "--seed", seed, "--date", "2026-02-01")
    assert file.read_bytes() == first
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_absent_learners_are_not_sampled_and_names_are_asked_for(place, sitting) -> None:
    run("sample", "--share", "100", "--seed", "QX")
    (book,) = Path("output").glob("*.xlsx")
    rows = list(openpyxl.load_workbook(book)["Sample"].values)
    assert {row[0] for row in rows[1:]} == {paper.code for paper in sitting.papers[:2]}
    decided = next(row for row in rows if row[0] == sitting.papers[1].code)
    assert "assessor's own mark on 1 part" in decided[5]
    assert decided[2] == "J. Marsh"
    (sheet,) = Path("output").glob("*.pdf")
    assert not any(name in text_of(sheet) for name in NAMES)
    run("sample", "--share", "100", "--seed", "QX", "--names")
    assert NAMES[1] in text_of(sheet)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--papers", "2", "--share", "10"), "either --papers or --share"),
        (("--share", "0"), "in percent"),
        (("--share", "nan"), "in percent"),
        (("--share", "1/0"), "in percent"),
        (("--pass-line", "101"), "in percent"),
        (("--papers", "0"), "0 is not in the range"),
        (("--seed", ""), "1 to 100 characters"),
        (("NOWHERE",), "has no sitting NOWHERE"),
        (("--record", "nowhere.sqlite"), "no record at nowhere.sqlite"),
    ],
)
def test_what_cannot_be_sampled_is_said_plainly(place, words, says) -> None:
    done = run("sample", *words)
    assert done.exit_code == 2
    assert says in done.output
    assert not list(Path("output").glob("sampling-plan*"))


def test_nothing_marked_is_nothing_to_sample(tmp_path, monkeypatch, sitting) -> None:
    monkeypatch.chdir(tmp_path)
    engine = open_record("sqlite:///output/record.sqlite")
    take(engine, sitting, write_sitting(sitting), at=WHEN)
    engine.dispose()
    done = run("sample")
    assert (done.exit_code, "no marked papers" in done.output) == (2, True)


@pytest.mark.parametrize(("typed", "share"), [("10", "1/10"), ("62.5 %", "5/8"), ("100%", "1")])
def test_a_share_is_read_exactly(typed, share) -> None:
    [option] = [option for option in main.commands["sample"].params if option.name == "share"]
    assert option.type.convert(typed, None, None) == Fraction(share)


def test_results_are_entered_and_open_actions_listed_until_they_are_closed(place) -> None:
    run("sample", "--papers", "1", "--seed", "seed")
    [plan] = Path("output").glob("sampling-plan-*.xlsx")
    book = openpyxl.load_workbook(plan)
    columns = {cell.value: cell.column for cell in book["Sample"][1]}

    def enter(**texts: str):
        for heading, text in texts.items():
            book["Sample"].cell(2, columns[heading.replace("_", " ")], text)
        book.save("filled.xlsx")
        return run("sample", "--results", "filled.xlsx")

    assert "`agreed` is blank" in enter(by="A. Quinn", date="2026-02-01").output
    done = enter(agreed="no", action="Mark 1a again")
    assert done.exit_code == 0, done.output
    assert "1 result entered.\n0 results changed.\n1 action open:\n  2026-02-01" in done.output
    assert "Mark 1a again (A. Quinn, plan seed)" in run("sample", "--actions").output
    assert "1 result changed.\n0 actions open." in enter(action_closed="2026-02-09").output
    assert run("sample", "--actions", "--papers", "3").exit_code == 2
