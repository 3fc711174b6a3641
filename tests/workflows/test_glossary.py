"""Which words are printed: a tutor's own, a second language as far as the shipped fonts have its letters."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.settings.settings import DEFAULTS
from courseware.workflows.glossary import find_glossary, write_card, write_glossary

OWN = "words:\n  - {word: perp, picture: perp, says: An upright joint.}\n  - {word: bed, picture: bed, says: A level joint.}\n"


class Told:
    """A watch that keeps its notes."""

    def __init__(self) -> None:
        self.notes: list[str] = []

    def note(self, text: str) -> None:
        self.notes.append(text)


@pytest.fixture
def own(tmp_path: Path) -> str:
    file = tmp_path / "own.yaml"
    file.write_text(OWN, encoding="utf-8")
    return str(file)


def test_letters_that_no_shipped_font_has_stay_off_the_sheet_and_are_told(own: str, tmp_path: Path) -> None:
    """Chinese is in neither font; Polish and Arabic are."""
    table, told = tmp_path / "zh.csv", Told()
    table.write_text("word,zh\nperp,竖缝\nbed,łata\n", encoding="utf-8")
    found = find_glossary(own, str(table), told)
    assert [entry.second for entry in found.entries] == ["łata", "竖缝"]
    write_glossary(tmp_path / "g.pdf", found, told)
    [note] = told.notes
    assert "cannot print 竖缝" in note
    assert "łata" not in note


def test_words_without_a_second_one_are_counted(own: str, tmp_path: Path) -> None:
    table, told = tmp_path / "pl.csv", Told()
    table.write_text("word,pl,more\nperp,spoina,x\n", encoding="utf-8")
    find_glossary(own, str(table), told)
    assert "1 word of the glossary has no second language." in told.notes


def test_the_shipped_words_are_taken_where_none_are_named(tmp_path: Path) -> None:
    assert len(find_glossary(None, None, Told()).entries) >= 60


@pytest.mark.parametrize(("words", "table"), [("nowhere.yaml", None), (None, "nowhere.csv")])
def test_a_file_that_is_not_there_is_told(words: str | None, table: str | None) -> None:
    with pytest.raises(NotFound, match="nowhere"):
        find_glossary(words, table, Told())


def test_a_card_is_a_pdf(tmp_path: Path) -> None:
    write_card(tmp_path / "sub" / "card.pdf", DEFAULTS)
    assert (tmp_path / "sub" / "card.pdf").read_bytes().startswith(b"%PDF-")
