"""A second language: tables as tutors have them, and every fault by file, line and column."""

from __future__ import annotations

import pytest

from courseware.glossary.second_language import SecondLanguage, read_second_language
from courseware.spreadsheets.rows import TableFaulty

WORDS = ["bed", "gauge rod", "perp"]


def read(text: str) -> SecondLanguage:
    return read_second_language(text.encode(), "pl.csv", WORDS)[0]


def test_words_stand_beside_those_of_the_glossary() -> None:
    found = read("word,pl\nPerp,spoina pionowa\nbed,\ngauge rod,łata\n")
    assert found.tag == "pl"
    assert found.words == {"perp": "spoina pionowa", "gauge rod": "łata"}
    assert not found.right_to_left


@pytest.mark.parametrize(
    "text", ["word;pl\nbed;spoina\n", "pl\tword\nspoina\tbed\n", "\ufeffword,pl\r\nbed,spoina\r\n"]
)
def test_any_separator_any_order_of_columns(text: str) -> None:
    assert read(text).words == {"bed": "spoina"}


@pytest.mark.parametrize(("heading", "tag"), [("pl", "pl"), ("pt-BR", "pt-BR"), ("translation", ""), ("Polski", "")])
def test_a_heading_that_is_a_tag_is_the_language(heading: str, tag: str) -> None:
    assert read(f"word,{heading}\nbed,x\n").tag == tag


@pytest.mark.parametrize(
    ("word", "turned"), [("مدماك", True), ("שכבה", True), ("(مدماك)", True), ("spoina", False), ("шов", False)]
)
def test_the_direction_is_that_of_the_letters(word: str, turned: bool) -> None:
    """Invented words and dictionary words alike: the classes R and AL of Unicode's bidirectional algorithm."""
    assert read(f"word,x\nbed,{word}\n").right_to_left is turned


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "pl.csv:1:1: the table is empty"),
        ("wort,pl\nbed,x\n", "pl.csv:1:1: the columns are `wort`, `pl`; expected a column `word`"),
        ("word\nbed\n", "pl.csv:1:1:"),
        ("word,pl\nbedd,x\n", "pl.csv:2:1: `bedd` is no word of the glossary; did you mean `bed`?"),
        ("word,pl\nbed,x\nbed,y\n", "pl.csv:3:1: `bed` stands twice"),
        ("word,pl\n,x\n", "pl.csv:2:1: `x` has no word beside it"),
        (f"word,pl\nbed,{'x' * 61}\n", "has 61 characters; expected at most 60"),
        ("word,pl\nbed,\n", "pl.csv:1:2: no word of the second language stands in it"),
        ('word,pl\nbed,"x\n', "pl.csv:2:1: a quotation mark opened in this row is never closed"),
    ],
)
def test_a_fault_is_told_with_its_place(text: str, says: str) -> None:
    with pytest.raises(TableFaulty) as faulty:
        read(text)
    assert says in str(faulty.value)


def test_a_word_of_just_so_many_characters_is_taken() -> None:
    assert read(f"word,pl\nbed,{'x' * 60}\n").words == {"bed": "x" * 60}


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(TableFaulty) as faulty:
        read("word,pl\nbedd,x\nperp,y\npurp,z\n")
    assert [fault.line for fault in faulty.value.faults] == [2, 4]
