"""Mark: a second marker's grid and plain form keep every mark by the same workflow as their sheet; two settle there."""

from __future__ import annotations

import json
import re
from html import unescape

import pytest

from courseware.files.sitting_folders import SittingFolder, read_folder
from tests.desk.conftest import Sitter, desk_over, words


@pytest.fixture
def where(client: Sitter) -> SittingFolder:
    [marked] = client.desk.out.glob("2026-01-05*")
    return read_folder(marked)


@pytest.fixture
def at(where: SittingFolder) -> str:
    return f"/sittings/{where.sitting.code}/second"


def as_who(client: Sitter, who: str) -> None:
    client.done("/settings/name", {"who": who})


def scripts(client: Sitter, at: str) -> list[str]:
    """The codes of the scripts in the grid."""
    return [line.split('"')[0] for line in client.get(at).text.split('<tr data-paper="')[1:]]


def give(client: Sitter, at: str, paper: str, part: str, text: str) -> dict:
    answer = client.fill(f"{at}/cell", {"paper": paper, "attempt": 1, "part": part, "text": text, "seen": ""})
    return {"status": answer.status_code, **json.loads(answer.text)}


def test_the_first_marker_is_told_that_the_second_is_another_person(client: Sitter, at: str, where) -> None:
    text = words(client.get(at).text)
    assert "J. Marsh marked" in text
    assert "the second marker is another person" in text
    assert scripts(client, at) == []
    told = give(client, at, where.sitting.papers[0].code, "1a", "1")
    assert (told["status"], "another person" in told["why"]) == (422, True)


def test_the_second_marker_sees_what_is_written_and_nobody_elses_marks(client: Sitter, at: str) -> None:
    as_who(client, "P. Dunn")
    code, *_ = scripts(client, at)
    assert give(client, at, code, "1a", "1 no unit")["stands"] == "1 no unit"
    beside = words(client.get(f"{at}/beside?paper={code}&attempt=1&part=1a").text)
    assert "How long is it?" in beside
    assert "Written" in beside
    assert "This script so far" not in beside
    assert ">1 no unit</td>" in client.get(at).text
    as_who(client, "R. Holt")
    assert "no unit" not in client.get(at).text.replace("1 no unit</span>", "")
    assert client.get(f"{at}/beside?paper={code}&attempt=1&part=9z").status_code == 404


@pytest.mark.parametrize(
    ("text", "told"),
    [("1 no unit", {"reading": "1 mark: no unit", "unclear": ""}), ("- wrong script", {"reading": "taken back: wrong script", "unclear": ""}), ("9", {"reading": "", "unclear": "`9` is not a mark; 1a takes whole marks from 0 to 2"}), ("", {"reading": "", "unclear": ""})],
)  # fmt: skip
def test_a_mark_is_read_while_it_is_typed(client: Sitter, at: str, text: str, told: dict) -> None:
    as_who(client, "P. Dunn")
    asked = {"paper": scripts(client, at)[0], "attempt": 1, "part": "1a", "text": text}
    assert json.loads(client.get(f"{at}/reading", params=asked).text) == told
    assert json.loads(client.get(f"{at}/events?since=0").text)["rows"] == [], "nothing is kept of it"


def test_another_window_of_the_same_marker_hears_of_it(client: Sitter, at: str) -> None:
    as_who(client, "P. Dunn")
    code, *_ = scripts(client, at)
    give(client, at, code, "1b", "1")
    told = json.loads(client.get(f"{at}/events?since=0").text)
    assert {"paper": code, "attempt": 1, "cells": ["", "1"]} in told["rows"]
    assert json.loads(client.get(f"{at}/events?since={told['newest']}").text)["rows"] == []


def test_the_second_marker_is_led_away_from_the_first_marks_in_one_line(client: Sitter, at: str, where) -> None:
    as_who(client, "P. Dunn")
    code, *_ = scripts(client, at)
    give(client, at, code, "1a", "1")
    sitting = f"/sittings/{where.sitting.code}"
    for page in ("grid", f"grid/{code}/1", f"grid/beside?paper={code}&attempt=1&part=1a", "waiting", "picture", f"learners/{code}"):  # fmt: skip
        told = client.get(f"{sitting}/{page}")
        assert (told.status_code, "not shown the first marks" in told.text) == (422, True), page
        assert f'href="{at}"' in told.text
        assert 'href="/settings#you"' in told.text
    as_who(client, "J. Marsh")
    assert client.get(f"{sitting}/grid").status_code == 200


def test_a_script_can_be_marked_by_a_plain_form(client: Sitter, at: str) -> None:
    as_who(client, "P. Dunn")
    first, second, *_ = scripts(client, at)
    page = f"{at}/{first}/1"
    assert "Marks for 1a, of 2" in words(client.get(page).text)
    told = client.done(
        f"{page}/save", {"cell-1a": "2", "seen-1a": "", "cell-1b": "", "seen-1b": "", "then": f"{second}/1"}
    )
    assert "1 mark saved." in told
    assert second in told
    told = client.done(f"{page}/save", {"cell-1a": "7", "seen-1a": "2"})
    assert "1a was not kept: `7` is not a mark" in told
    assert client.get(f"{at}/AAAA/1").status_code == 404


def test_two_who_differ_see_how_far_they_agree_and_settle_it_with_a_reason(client: Sitter, at: str) -> None:
    """The program alone marked first, which the centre does not count: two persons' marks are compared."""
    assert "No script is marked in full by a second marker yet" in words(client.get(f"{at}/differences").text)
    for who, marks in (("P. Dunn", "1"), ("R. Holt", "2")):
        as_who(client, who)
        code = scripts(client, at)[0]
        for part, text in (("1a", marks), ("1b", "1")):
            give(client, at, code, part, text)
    text = words(client.get(f"{at}/differences").text)
    assert "On 1 paper both have marked 2 parts: 1 part differently." in text
    assert "1 of 2 (P. Dunn)" in text
    asked = {"paper": code, "part": "1a", "marks": "2", "reason": ""}
    refused = client.fill(f"{at}/settle", asked)
    assert (refused.status_code, "needs its reason" in words(refused.text)) == (422, True)
    told = client.done(f"{at}/settle", {**asked, "reason": "The unit stands in the question"})
    assert f"Settled: {code}, 1a: 2 marks." in told
    assert "2 marks by R. Holt: The unit stands in the question" in told
    assert "1 part differently" in told, "agreement stays as it was found"
    stale = client.fill(f"{at}/settle", {**asked, "marks": "1", "reason": "No unit", "settled": ""})
    assert "settled meanwhile: 2 marks, The unit stands in the question" in words(stale.text), "a page loaded before"
    [seen] = re.findall(r'name="settled" value="([^"]+)"', stale.text)
    assert "1 mark by R. Holt" in client.done(
        f"{at}/settle", {**asked, "marks": "1", "reason": "No unit", "settled": unescape(seen)}
    )


def test_where_nothing_is_marked_the_page_says_what_to_do_first(client: Sitter) -> None:
    [issued] = client.desk.out.glob("2026-02-02*")
    text = words(client.get(f"/sittings/{read_folder(issued).sitting.code}/second").text)
    assert "No script is marked yet." in text
    assert Sitter(desk_over(client.desk.folder)).come_in().get("/sittings/AAAA-AAAA-A/second").status_code == 422
