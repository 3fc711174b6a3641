"""A class list sent, seen as it was read, mended in place. Learners are invented."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from courseware.workflows.class_lists import open_list
from tests.desk.conftest import Sitter, words
from tests.desk.making import LIST, kept, newly_begun


@pytest.fixture
def key(work: Path) -> str:
    return newly_begun(work)


@pytest.fixture
def sent(client: Sitter, key: str) -> str:
    """What the page says once a list with a faulty row was sent."""
    return client.done(f"/papers/{key}/who/list", files={"list": ("Group A.csv", LIST)})


def mend(client: Sitter, key: str, place: int, do: str, was: tuple[str, str, str], now: tuple[str, str, str]) -> str:
    fields = {"place": str(place), "do": do}
    for before, cells in (("was-", was), ("", now)):
        fields |= {f"{before}{name}": cell for name, cell in zip(("name", "reference", "paper"), cells, strict=True)}
    return client.done(f"/papers/{key}/who/row", fields)


def test_without_a_list_there_are_three_ways_to_go_on(client: Sitter, key: str, work: Path) -> None:
    (work / "class-lists").mkdir()
    shown = client.get(f"/papers/{key}/who").text
    assert 'enctype="multipart/form-data"' in shown
    assert "No list at hand" in shown
    assert "A list from before" not in shown


def test_a_list_is_shown_as_it_was_read(sent: str) -> None:
    assert "Group a: 2 learners" in sent
    assert "1 row to be mended" in sent
    assert "2 Amara Okafor 0012 large-18" in sent
    assert "'huge' is not a word for a paper's format" in sent
    assert "Line 4 was left out, since no learner stands on it: Total and 2." in sent
    assert "On to the exercises" not in sent


def test_a_row_is_mended_in_its_place(client: Sitter, key: str, sent: str, work: Path) -> None:
    shown = client.get(f"/papers/{key}/who?mend=1").text
    assert 'name="name" value="Łukasz Wójcik" form="mend"' in shown
    was = ("Łukasz Wójcik", "0013", "huge")
    assert "On to the exercises" in mend(client, key, 1, "save", was, ("Łukasz Wójcik", "0013", "cream"))
    assert [row.paper for row in open_list(work, "group-a").rows] == ["large-18", "cream"]


def test_a_row_is_left_out_and_another_added(client: Sitter, key: str, sent: str) -> None:
    was = ("Łukasz Wójcik", "0013", "huge")
    assert "Group a: 1 learner" in mend(client, key, 1, "leave-out", was, was)
    assert "Zoë O'Brien-Smythe" in mend(client, key, 0, "add", ("", "", ""), ("Zoë O'Brien-Smythe", "", ""))


def test_a_row_that_another_window_mended_is_left_as_it_is(client: Sitter, key: str, sent: str) -> None:
    shown = mend(client, key, 1, "save", ("Somebody Else", "", ""), ("Łukasz Wójcik", "", ""))
    assert "That row has been changed meanwhile" in shown
    assert "huge" in shown


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "Choose a class list first"),
        (b"Colour,Size\nred,3\n", "line 1: no heading tells which column holds the names"),
        (b"PK\x03\x04 nothing", "this is a workbook or a ZIP archive"),
    ],
)
def test_what_is_no_class_list_is_told_and_nothing_kept(
    client: Sitter, key: str, data: bytes, says: str, work: Path
) -> None:
    refused = client.fill(f"/papers/{key}/who/list", files={"list": ("x<b>.csv", data)})
    assert refused.status_code == 422
    assert says in words(refused.text)
    assert "<b>" not in refused.text.replace("<b>Look", "")
    assert kept(work, key).class_list == ""


def test_a_list_from_before_is_taken_again(client: Sitter, key: str, sent: str, work: Path) -> None:
    other = newly_begun(work)
    assert "A list from before" in words(client.get(f"/papers/{other}/who").text)
    client.done(f"/papers/{other}/who/choose", {"kept": "group-a"})
    assert kept(work, other).class_list == "group-a"


@pytest.mark.parametrize("named", ["../group-a", "/etc/passwd", "nobody"])
def test_a_list_that_is_not_kept_is_not_taken(client: Sitter, key: str, named: str, work: Path) -> None:
    assert client.fill(f"/papers/{key}/who/choose", {"kept": named}).status_code == 422
    assert kept(work, key).class_list == ""


@pytest.mark.parametrize(
    ("typed", "status"), [("12", 303), ("1", 303), ("1000", 303), ("0", 422), ("1001", 422), ("²", 422)]
)
def test_papers_may_be_numbered(client: Sitter, key: str, typed: str, status: int, work: Path) -> None:
    answer = client.fill(f"/papers/{key}/who/choose", {"do": "numbered", "learners": typed})
    assert answer.status_code == status
    assert kept(work, key).learners == (int(typed) if status == 303 else 0)


def test_a_list_that_is_gone_is_told_and_another_can_be_given(client: Sitter, work: Path) -> None:
    shown = client.get(f"/papers/{newly_begun(work, class_list='gone')}/who")
    assert shown.status_code == 422
    assert "The class list cannot be read" in words(shown.text)
    assert "Read it" in words(shown.text)


def test_saving_a_row_leads_to_the_next_that_is_to_be_mended(client: Sitter, key: str) -> None:
    sent = b"Name,ID,Paper\nAmara Okafor,1,huge\nJo Wells,2,\nKit Low,3,vast\n"  # invented
    client.done(f"/papers/{key}/who/list", files={"list": ("group.csv", sent)})
    to = []
    for place, paper in ((2, "vast"), (0, "huge")):
        shown = client.get(f"/papers/{key}/who", params={"mend": str(place)}).text
        assert re.search(r'<input autofocus name="paper"', shown)
        was = dict(re.findall(r'name="(was-\w+)" value="([^"]*)"', shown))
        assert was["was-paper"] == paper
        fields = {**was, **{name.removeprefix("was-"): value for name, value in was.items()}, "paper": "large-18"}
        answer = client.fill(f"/papers/{key}/who/row", {**fields, "place": str(place), "do": "save"})
        to.append(answer.headers["location"].removeprefix(f"/papers/{key}/who"))
    assert to == ["?mend=0#row-0", "#list"]
