"""`courseware glossary`: what it prints, what it says, and what it refuses."""

from __future__ import annotations

from pathlib import Path

import pytest
from pikepdf import Pdf

from courseware.printing.leak_check import page_text
from tests.commands.conftest import run


def test_the_words_and_the_card_are_made_where_they_are_wanted(desk) -> None:
    assert run("glossary").output == "75 words with their pictures in output/glossary.pdf\n"
    assert run("glossary", "--card").output == "A card to print on both sides and fold in output/card.pdf\n"
    assert Path("output/card.pdf").read_bytes()[:5] == Path("output/glossary.pdf").read_bytes()[:5] == b"%PDF-"


def test_the_same_words_make_the_same_bytes(desk) -> None:
    Path("pl.csv").write_text("word,pl\nbed,spoina wsporna\n", encoding="utf-8")
    for file in ("one.pdf", "two.pdf"):
        done = run("glossary", "--second-language", "pl.csv", "--out", file)
        assert done.exit_code == 0, done.output
        assert "74 words of the glossary have no second language" in done.output
    assert Path("one.pdf").read_bytes() == Path("two.pdf").read_bytes()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--card", "own.yaml"), "--card has the rules alone"),
        (("--card", "--second-language", "pl.csv"), "--card has the rules alone"),
        (("--out", "."), "is a folder; name a file in it"),
        (("nowhere.yaml",), "there is no glossary nowhere.yaml"),
        (("--second-language", "nowhere.csv"), "there is no table nowhere.csv"),
        (("--second-language", "faulty.csv"), "faulty.csv:2:1: `bedd` is no word of the glossary; did you mean `bed`?"),
        (("faulty.yaml",), "faulty.yaml:1:1: the key `wrds` is not known"),
    ],
)
def test_what_cannot_be_is_said_and_nothing_is_made(desk, arguments: tuple[str, ...], says: str) -> None:
    Path("faulty.csv").write_text("word,pl\nbedd,spoina\n", encoding="utf-8")
    Path("faulty.yaml").write_text("wrds: []\n", encoding="utf-8")
    done = run("glossary", *arguments)
    assert done.exit_code == 2
    assert says in " ".join(done.output.split())
    assert not Path("output").exists()


def test_the_card_has_the_centre_s_own_rule(desk) -> None:
    Path("centre.yaml").write_text("arris_rule: near\n", encoding="utf-8")
    done = run("glossary", "--card")
    assert "The centre's settings in centre.yaml: arris_rule." in done.output
    with Pdf.open("output/card.pdf") as opened:
        said = " ".join(page_text(opened.pages[1]).split())
    assert "level the under-side arris, below it the top arris" in said.replace("\n", " ")
