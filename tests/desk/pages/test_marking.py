"""Mark: the grid and the plain form a learner keep every cell, by the same workflow; marking is the command's."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from courseware.database.kept_marks import marks_of
from courseware.database.opening import open_record
from courseware.database.scripts import scripts_of
from courseware.files.sitting_folders import SittingFolder, sitting_folder
from courseware.workflows.mark_sitting import MarkOptions, mark_sitting
from tests.desk.conftest import Sitter, desk_over, finished, words
from tests.piers_sitting import fill
from tests.workflows.conftest import Heard


@pytest.fixture
def blank(work: Path) -> SittingFolder:
    """The sitting of which nothing is typed in yet."""
    [folder] = work.glob("output/2026-02-02*")
    return sitting_folder(str(folder))


@pytest.fixture
def at(blank) -> str:
    return f"/sittings/{blank.sitting.code}/grid"


def type_in(client: Sitter, at: str, paper: str, part: str, text: str, seen: str = "") -> dict:
    answer = client.fill(f"{at}/cell", {"paper": paper, "attempt": 1, "part": part, "text": text, "seen": seen})
    return {"status": answer.status_code, **json.loads(answer.text)}


def test_every_sitting_can_be_marked_from_one_page(client: Sitter, work: Path) -> None:
    text = words(client.get("/mark").text)
    assert text.count("What waits for a look") == 2
    assert "not marked yet" in text


def test_where_nothing_was_issued_the_page_says_what_to_do_first(tmp_path: Path) -> None:
    desk = desk_over(tmp_path)
    assert "first make papers" in words(Sitter(desk).come_in().get("/mark").text)


def test_the_grid_has_a_row_for_each_learner_and_a_column_for_each_part(client: Sitter, at: str, blank) -> None:
    text = client.get(at).text
    assert text.count("<tr data-paper=") == len(blank.sitting.papers)
    assert 'data-part="1a"' in text
    assert "=1+1" in text
    assert "O&#39;Brien-Smythe" in text
    assert client.get("/sittings/AAAA-AAAA-A/grid").status_code == 422


def test_a_cell_is_kept_once_it_is_answered(client: Sitter, at: str, blank, work: Path) -> None:
    paper = blank.sitting.papers[0]
    assert type_in(client, at, paper.code, "1a", " 910 mm")["saved"] == "entered"
    engine = open_record(f"sqlite:///{work / 'output/record.sqlite'}")
    [script] = scripts_of(engine, blank.sitting.code, "first")
    assert (script.cells["1a"], script.status) == (" 910 mm", ""), "exactly as typed"
    engine.dispose()
    assert "<td> 910 mm</td>" in client.get(at).text


@pytest.mark.parametrize(
    ("paper", "part", "text", "why"),
    [("", "1a", "9" * 201, "201 characters"), ("", "9z", "1", "no part"), ("AAAA", "1a", "1", "no paper"), ("", "", "ill", "absent")],
)  # fmt: skip
def test_a_cell_that_cannot_be_kept_says_why(client: Sitter, at: str, blank, paper, part, text, why) -> None:
    told = type_in(client, at, paper or blank.sitting.papers[0].code, part, text)
    assert (told["status"], told["saved"]) == (422, "refused")
    assert why in told["why"]


def test_two_who_type_the_same_cell_differently_are_both_told_and_settle_it(client: Sitter, at: str, blank) -> None:
    code = blank.sitting.papers[0].code
    other = Sitter(client.desk).come_in()
    other.done("/settings/name", {"who": "A. Boateng"})
    assert type_in(client, at, code, "1a", "910")["saved"] == "entered"
    assert type_in(other, at, code, "1b", "5")["saved"] == "entered"
    told = type_in(other, at, code, "1a", "901")
    assert (told["saved"], told["stands"], told["by"]) == ("otherwise", "910", "J. Marsh")
    for one in (client, other):
        [both] = json.loads(one.get(f"{at}/events?since=0").text)["otherwise"]
        assert (both["stands_by"], both["text"], both["by"]) == ("J. Marsh", "901", "A. Boateng")
        assert "A. Boateng typed 901 without having seen it" in words(one.get(at).text)
        assert "901 is right" in words(one.get(f"{at}/beside?paper={code}&attempt=1&part=1a").text)
    settled = {"paper": code, "attempt": 1, "part": "1a", "text": "901", "seen": "910"}
    assert "Settled: 1a is 901." in client.done(f"{at}/settle", settled)
    assert json.loads(other.get(f"{at}/events?since=0").text)["otherwise"] == []
    assert "Not settled: J. Marsh typed 901 meanwhile" in other.done(f"{at}/settle", {**settled, "text": "7"})


def test_others_cells_are_heard_of_by_number(client: Sitter, at: str, blank) -> None:
    code = blank.sitting.papers[1].code
    type_in(client, at, code, "1b", "12")
    told = json.loads(client.get(f"{at}/events?since=0").text)
    assert told["rows"] == [{"paper": code, "attempt": 1, "cells": ["", "", "12"]}]
    assert json.loads(client.get(f"{at}/events?since={told['newest']}").text)["rows"] == []


def test_beside_a_cell_stand_question_key_slips_and_drawing(client: Sitter, at: str, blank) -> None:
    paper = blank.sitting.papers[0]
    text = words(client.get(f"{at}/beside?paper={paper.code}&attempt=1&part=1a").text)
    assert "How long is it?" in text
    assert f"{paper.parts[0].answer} mm" in text
    assert "The joint at the end was left on (1 mark)" in text
    assert client.get(f"{at}/beside?paper={paper.code}&attempt=1&part=9z").status_code == 404


@pytest.mark.parametrize(
    ("text", "told"),
    [("0.91 m", {"reading": "0.91 m = 910 mm", "unclear": ""}), ("see back", {"reading": "", "unclear": "it does not read as one figure"})],
)  # fmt: skip
def test_a_cell_is_read_while_it_is_typed(client: Sitter, at: str, blank, text: str, told: dict) -> None:
    code = blank.sitting.papers[0].code
    read = json.loads(
        client.get(f"{at}/reading", params={"paper": code, "attempt": 1, "part": "1a", "text": text}).text
    )
    assert told.items() <= read.items()
    assert json.loads(client.get(f"{at}/events?since=0").text)["rows"] == [], "nothing is kept of it"


def test_a_learners_script_can_be_typed_in_by_a_plain_form(client: Sitter, at: str, blank) -> None:
    first, second, *_ = blank.sitting.papers
    page = f"{at}/{first.code}/1"
    text = words(client.get(page).text)
    assert "How long is it?" in text
    cells = {
        "cell-": "late",
        "seen-": "",
        "cell-1a": first.parts[0].answer,
        "seen-1a": "",
        "cell-1b": "",
        "seen-1b": "",
    }
    told = client.done(f"{page}/save", {**cells, "then": second.code})
    assert "2 cells saved." in told
    assert second.learner.name in told
    assert f"{first.parts[0].answer} mm ✓ 2 of 2: Right." in words(client.get(page).text)
    told = client.done(f"{page}/save", {"cell-1a": "7", "seen-1a": "", "cell-1b": "9" * 201, "seen-1b": ""})
    assert "1a: J. Marsh typed" in told
    assert "1b was not kept: it has 201 characters" in told
    assert client.get(f"{at}/AAAA/1").status_code == 404


def test_a_script_handed_in_again_has_a_page_of_its_own(client: Sitter, at: str, blank) -> None:
    code = blank.sitting.papers[0].code
    type_in(client, at, code, "1a", "7")
    assert "It was handed in again" in words(client.get(f"{at}/{code}/1").text)
    client.done(f"{at}/{code}/2/save", {"cell-1a": "8", "seen-1a": ""})
    assert "handed in again" in words(client.get(at).text)
    assert "First handed in" in words(client.get(f"{at}/{code}/2").text)


def test_marking_by_the_desk_is_the_commands(client: Sitter, at: str, blank, work: Path, tmp_path, monkeypatch) -> None:
    """Typed cell by cell and marked at the desk, or typed into a sheet and marked by the command: the same marks."""
    sheet = [{"1a": "9", "1b": "nr"}, {"1a": blank.sitting.papers[1].parts[0].answer, "1b": "8 mm"}, {"status": "absent", "1a": "", "1b": ""}]  # fmt: skip
    for paper, row in zip(blank.sitting.papers, sheet, strict=False):
        for part in ("1a", "1b", ""):
            if row.get(part or "status"):
                type_in(client, at, paper.code, part, row[part or "status"])
    told = finished(client, client.fill(f"/sittings/{blank.sitting.code}/mark", {}))
    assert "2 scripts marked, 1 absent." in told
    assert "all-feedback.pdf" in told
    monkeypatch.chdir(tmp_path)
    by_sheet = tmp_path / "by-sheet.sqlite"
    options = MarkOptions(assessor="J. Marsh", record=str(by_sheet))
    mark_sitting(blank, fill(blank.path, "a.csv", *sheet), (), options, Heard(), when_marked=lambda *_: None)
    one, other = (open_record(f"sqlite:///{file}") for file in (work / "output/record.sqlite", by_sheet))
    code = blank.sitting.code
    assert marks_of(one, code, "first") == marks_of(other, code, "first")
    plain = [[(s.code, s.status, dict(s.cells)) for s in scripts_of(engine, code, "first")] for engine in (one, other)]
    assert plain[0] == plain[1]
    one.dispose()
    other.dispose()


def test_where_nothing_is_typed_in_marking_says_so(client: Sitter, blank) -> None:
    told = finished(client, client.fill(f"/sittings/{blank.sitting.code}/mark", {}))
    assert "Nothing is typed in yet" in told
    assert "Type answers in" in told
