"""Practice, the whiteboard and the words at the desk: the files that the commands make, with what each is for."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from courseware.cli import main
from courseware.files.sitting_folders import find_folders
from courseware.workflows.own_banks import begin_bank
from tests.desk.conftest import Sitter, finished, words


def test_a_page_of_ones_own_topic_is_the_commands_own(client: Sitter, tmp_path: Path) -> None:
    name = begin_bank(client.desk.folder, "Piers")
    said = finished(client, client.fill("/practise/make", {"topic": f"own/{name}", "make": "page"}))
    assert "A page to practise, with 1 kind of question" in said
    assert "it opens in any browser on a phone and needs no network" in said
    bank = client.desk.folder / "banks" / f"{name}.yaml"
    made = CliRunner().invoke(main, ["practise", str(bank), "--out", str(tmp_path / "practice.html")])
    assert made.exit_code == 0
    assert (client.desk.out / "practice.html").read_bytes() == (tmp_path / "practice.html").read_bytes()


def test_a_booklet_is_made_of_one_level(client: Sitter) -> None:
    name = begin_bank(client.desk.folder, "Piers")
    asked = {"topic": f"own/{name}", "level": "1", "make": "booklet"}
    said = finished(client, client.fill("/practise/make", asked))
    assert "practice.pdf Print it on both sides" in said
    assert (client.desk.out / "practice.pdf").read_bytes().startswith(b"%PDF-")
    said = finished(client, client.fill("/practise/make", {**asked, "level": "3"}))
    assert "these banks hold no exercise of that level" in said


def test_topics_are_chosen_by_key_and_no_path_is_taken(client: Sitter) -> None:
    """What is no key of a topic is as if it were not chosen."""
    answer = client.fill("/practise/board", {"topic": ["/etc/passwd", "own/../../x", "shipped/jobs/worksheet"]})
    assert answer.headers["location"] == "/practise#board"
    assert "First choose a topic or a sitting" in words(client.get("/practise").text)


@pytest.mark.parametrize(("marked", "says"), [(True, "for the whiteboard"), (False, "no paper of Piers is marked yet")])
def test_a_sitting_is_put_on_the_whiteboard_by_one_click(client: Sitter, marked: bool, says: str) -> None:
    sittings, _ = find_folders([client.desk.out])
    group = "Group A" if marked else "Group B"
    [code] = [one.sitting.code for one in sittings if one.sitting.group == group]
    page = client.get("/practise").text
    assert f'name="sitting" value="{code}"' in page
    said = finished(client, client.fill("/practise/board", {"sitting": code}))
    assert says in said
    assert client.fill("/practise/board", {"sitting": "NOTHING"}).headers["location"] == "/practise#board"


def test_topics_are_put_on_the_whiteboard(client: Sitter) -> None:
    name = begin_bank(client.desk.folder, "Piers")
    said = finished(client, client.fill("/practise/board", {"topic": f"own/{name}"}))
    assert "pages for the whiteboard. Files board.pdf" in said


def test_the_card_is_made(client: Sitter) -> None:
    assert "card.pdf print it on both sides and fold it to A5" in finished(
        client, client.fill("/practise/words", {"make": "card"})
    )


def test_what_learners_saved_is_read_as_a_strangers(client: Sitter) -> None:
    assert client.fill("/practise/files").headers["location"] == "/practise#class"
    strange = [
        ("saved", ("amara.json", b"{}")),
        ("saved", ("../../x.json", json.dumps({"form": "courseware-practice"}).encode())),
        ("saved", ("<b>.json", b"[" * 100_000)),
    ]
    said = finished(client, client.fill("/practise/files", files=strange))
    assert "amara.json" in said
    assert "3 faults found" in said
    assert not list(client.desk.out.glob("progress-*"))


def test_a_second_language_stands_beside_the_words(client: Sitter) -> None:
    """Rows of an invented table: `spoina` is Polish for a joint."""
    table = [("second", ("polish.csv", b"word,pl\nperp,spoina\n"))]
    said = finished(client, client.fill("/practise/words", {"make": "glossary"}, files=table))
    assert "of the glossary have no second language" in said
    assert "glossary.pdf for the wall" in said
    faulty = [("second", ("../polish.csv", b"wort,pl\nperp,x\n"))]
    assert "polish.csv" in finished(client, client.fill("/practise/words", {"make": "glossary"}, files=faulty))
