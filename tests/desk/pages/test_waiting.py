"""What waits for a look: a list, then one after another, decided on the answer that was looked at."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest

from courseware.files.sitting_folders import SittingFolder, sitting_folder
from tests.desk.conftest import Sitter, words


@pytest.fixture
def where(work: Path) -> SittingFolder:
    [folder] = work.glob("output/2026-02-02*")
    return sitting_folder(str(folder))


@pytest.fixture
def at(client: Sitter, where) -> str:
    """Two answers of the first learner wait, and one of the second."""
    first, second, *_ = where.sitting.papers
    for paper, part, text in ((first, "1a", "7.5"), (first, "1b", "see back"), (second, "1a", "3")):
        cell = {"paper": paper.code, "attempt": 1, "part": part, "text": text, "seen": ""}
        assert client.fill(f"/sittings/{where.sitting.code}/grid/cell", cell).status_code == 200
    return f"/sittings/{where.sitting.code}/waiting"


def test_where_nothing_waits_the_page_says_so(client: Sitter, where) -> None:
    assert "Nothing waits" in words(client.get(f"/sittings/{where.sitting.code}/waiting").text)


def test_all_that_waits_stands_in_a_list_with_why(client: Sitter, at: str, where) -> None:
    text = words(client.get(at).text)
    assert "3 answers that no rule settles" in text
    assert "see back it does not read as one figure" in text
    assert text.index("7.5") < text.index("see back")


def test_one_is_decided_by_the_lines_seen_and_leads_to_the_next(client: Sitter, at: str, where) -> None:
    first, second, *_ = where.sitting.papers
    text = words(client.get(f"{at}/{first.code}/1a").text)
    assert "Lines seen in the working Bricks and joints" in text
    answer = client.fill(f"{at}/{first.code}/1a/decide", {"written": "7.5", "seen": ["0"]})
    assert answer.headers["location"] == f"{at}/{first.code}/1b"
    text = words(client.get(answer.headers["location"]).text)
    assert f"Decided: {first.learner.name}, 1a: 1 mark." in text
    answer = client.fill(f"{at}/{first.code}/1b/decide", {"written": "see back", "marks": "1", "reason": "On the back"})
    assert answer.headers["location"] == f"{at}/{second.code}/1a"
    told = client.done(f"{at}/{second.code}/1a/decide", {"written": "3", "marks": "0", "reason": "Nothing there"})
    assert "Nothing waits" in told
    assert "Decided already: 1 mark, On the back" in words(client.get(f"{at}/{first.code}/1b").text)


def test_two_who_decide_the_same_at_once_are_told_of_each_other(client: Sitter, at: str, where) -> None:
    """The second one's page was loaded before the first decided: nothing is put in its place unseen."""
    page = f"{at}/{where.sitting.papers[0].code}/1a"
    asked = {"written": "7.5", "decided": "", "marks": "1", "reason": "On the back"}
    assert 'name="decided" value=""' in client.get(page).text
    assert client.fill(f"{page}/decide", asked).status_code == 303
    other = {**asked, "marks": "0", "reason": "Nothing there"}
    refused = client.fill(f"{page}/decide", other)
    assert (refused.status_code, "decided it meanwhile: 1 mark, On the back." in words(refused.text)) == (422, True)
    [stands] = re.findall(r'name="decided" value="([^"]*)"', refused.text)
    assert client.fill(f"{page}/decide", {**other, "decided": unescape(stands)}).status_code == 303
    assert "Decided already: 0 marks, Nothing there" in words(client.get(page).text)


@pytest.mark.parametrize(
    ("fields", "why"),
    [
        ({"written": "8", "marks": "1", "reason": "so"}, "was `8` when you looked at it, now it is `7.5`: look again"),
        ({"written": "7.5", "marks": "1"}, "needs its reason"),
        ({"written": "7.5", "marks": "0", "reason": "so", "seen": ["0"]}, "leave one of them out"),
    ],
)
def test_what_cannot_stand_is_told_with_what_was_filled_in(client: Sitter, at: str, where, fields, why) -> None:
    code = where.sitting.papers[0].code
    answer = client.fill(f"{at}/{code}/1a/decide", fields)
    assert answer.status_code == 422
    assert why in words(answer.text)
    assert f'value="{fields["marks"]}"' in answer.text


def test_somebody_may_say_that_a_whole_row_is_its_learners(client: Sitter, at: str, where) -> None:
    """What is said of a whole paper is a comment without a mark; what is not of the sitting is not there."""
    assert client.get(f"{at}/{where.sitting.papers[0].code}/9z").status_code == 404
    assert client.get(f"{at}/AAAA/1a").status_code == 404
    paper = where.sitting.papers[0]
    told = client.done(f"{at}/{paper.code}/paper/decide", {"comment": "Seen in the hall"})
    assert f"This paper's answers are {paper.learner.name}'s." in told
