"""What stands on the glossary and on the card."""

from __future__ import annotations

from courseware.files.bank_files import read_banks, shipped_banks, shipped_notes
from courseware.glossary.second_language import SecondLanguage
from courseware.glossary.sheets import compose_card, compose_glossary
from courseware.glossary.words_file import Word
from courseware.papers.compose import CAUTIONS

WORDS = (
    Word(word="bed", says="A level joint.", picture="bed", source="common practice"),
    Word(word="perp", says="An upright joint.", picture="perp", source="common practice"),
)


def test_a_word_without_a_second_one_stands_alone() -> None:
    second = SecondLanguage(tag="pl", words={"bed": "spoina"}, right_to_left=False)
    made = compose_glossary(WORDS, second)
    assert [(entry.word.word, entry.second) for entry in made.entries] == [("bed", "spoina"), ("perp", "")]
    assert made.tag == "pl"
    assert made.entries[1].picture.alt == "A wall from the front: perp"
    assert [entry.second for entry in compose_glossary(WORDS).entries] == ["", ""]


def test_the_card_has_four_pages_and_a_rule_of_every_shipped_topic() -> None:
    card = compose_card(shipped_notes(), "outline")
    banks, _ = read_banks(shipped_banks())
    assert [len(page) for page in card.pages] == [3, 4, 4, 1]
    assert {rule.topic for page in card.pages for rule in page} == {bank.topic for bank in banks}


def test_the_card_says_what_to_take_care_of_and_whom_to_follow() -> None:
    card = compose_card(shipped_notes(), "outline")
    assert [note.title for note in card.care] == ["Cutting", "Silica dust", "Lifting", "Wet mortar"]
    assert card.cautions == CAUTIONS
    assert "local codes" in CAUTIONS[0]
