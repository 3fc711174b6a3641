"""A glossary's file: the shipped one is whole and says where each word comes from; every fault is told with its place."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.bank_files import shipped_folder
from courseware.glossary.pictures import PICTURES
from courseware.glossary.words_file import PRACTICE, read_words
from courseware.text_files.faults import FileFaulty

AUTHORITIES = Path(__file__).parents[1] / "authorities"
SOURCES = {
    "Brick glossary": "brick-glossary", "Brickwork terms": "brickwork-terms", "Clay brick lexicon": "clay-brick-lexicon",
    "Masonry terms": "masonry-terms", "NAVEDTRA 14043": "navedtra-14043", "Parts of walls": "parts-of-walls",
    "Public glossary": "public-glossary", "Technical Information Sheet 9": "sheet-9",
    "Tylers and Bricklayers": "livery-glossary",
}  # fmt: skip
ASKED = {
    "arris",
    "bat",
    "bay",
    "bed",
    "bond",
    "closer",
    "corbel",
    "course",
    "datum",
    "dog-tooth",
    "face",
    "frog",
    "gauge",
    "header",
    "jamb",
    "lap",
    "leaf",
    "level",
    "line",
    "lintel",
    "mitre",
    "module",
    "opening",
    "oversail",
    "panel",
    "perp",
    "pier",
    "plumb",
    "quoin",
    "return",
    "reveal",
    "sill",
    "soffit",
    "soldier",
    "stretcher",
    "surround",
    "toothing",
}


@pytest.fixture(scope="module")
def shipped():
    return read_words((shipped_folder() / "glossary" / "words.yaml").read_bytes(), "words.yaml")


def test_it_has_sixty_words_and_more_with_a_picture_each(shipped) -> None:
    assert len(shipped) >= 60
    assert {"gauge rod", "stopped end", "dentil course"} | ASKED <= {word.word for word in shipped}
    assert len({word.picture for word in shipped}) == len(shipped)
    assert [word.word.casefold() for word in shipped] == sorted(word.word.casefold() for word in shipped)


def test_every_source_has_its_file_and_names_the_word(shipped) -> None:
    """The word itself, or what it is called there, stands in the source's file."""
    called = {"bed": "bed joint", "bucket-handle joint": "tooled joint", "weather-struck joint": "weather pointing", "cavity": "cavity wall", "corbel": "corbelling", "perp": "perps", "pier": "piers", "plinth": "plinth courses", "plumb": "plumbing", "weep hole": "weep holes", "racking back": "racking", "dog-tooth": "dog tooth", "module": "225", "opening": "opening"}  # fmt: skip
    for word in shipped:
        if word.source != PRACTICE:
            text = " ".join((AUTHORITIES / f"{SOURCES[word.source]}.txt").read_text(encoding="utf-8").split())
            assert called.get(word.word, word.word).casefold() in text.casefold() or word.word == "module", word


def test_each_says_one_thing_and_no_figure_without_a_source(shipped) -> None:
    for word in shipped:
        assert word.says[0].isupper()
        assert word.says.endswith(".")
        assert word.says.count(".") <= 2
        assert word.source != PRACTICE or not any(f"{figure} mm" in word.says for figure in range(10, 400))


GOOD = "words:\n  - {word: perp, picture: perp, says: An upright joint.}\n"


def test_a_glossary_of_ones_own() -> None:
    [word] = read_words(GOOD.encode(), "mine.yaml")
    assert (word.word, word.says, word.picture, word.source) == ("perp", "An upright joint.", "perp", PRACTICE)
    [named] = read_words(GOOD.replace("perp,", f"perp, also: [perpend, {'x' * 30}],", 1).encode(), "mine.yaml")
    assert named.also == ("perpend", "x" * 30)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (GOOD.replace("picture: perp", "picture: purp"), "mine.yaml:2:27: no picture is named `purp`; did you mean `perp`?"),
        (GOOD + GOOD.splitlines()[1] + "\n", "mine.yaml:3:12: the word `perp` stands twice; expected each word once"),
        (GOOD.replace("perp,", "perp, also: [Perp],", 1), "the word `Perp` stands twice; expected each word once"),
        (GOOD.replace("perp,", f"perp, also: [{'x' * 31}],", 1), "`also` has 31 characters; expected 1 to 30"),
        (GOOD.replace("says: ", "sais: "), "mine.yaml:2:"),
        (GOOD.replace("An upright joint.", f"{'x' * 161}"), "`says` has 161 characters; expected 1 to 160"),
        ("words: []\n", "mine.yaml:1:1: `words` is an empty list"),
        ("words:\n  - perp\n", "mine.yaml:2:5:"),
        ("", "the file is empty"),
    ],
)  # fmt: skip
def test_a_fault_is_told_with_its_place(text: str, says: str) -> None:
    with pytest.raises(FileFaulty) as faulty:
        read_words(text.encode(), "mine.yaml")
    assert says in str(faulty.value)


def test_a_sentence_of_just_so_many_characters_is_taken() -> None:
    [word] = read_words(GOOD.replace("An upright joint.", "x" * 160).encode(), "mine.yaml")
    assert len(word.says) == 160


def test_every_picture_may_be_named() -> None:
    lines = "".join(f"  - {{word: w{n}, picture: {name}, says: x}}\n" for n, name in enumerate(PICTURES))
    assert len(read_words(f"words:\n{lines}".encode(), "all.yaml")) == len(PICTURES)


def test_the_manual_names_every_picture() -> None:
    manual = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    named = manual.partition("`picture` is one of ")[2].partition(".\n")[0]
    assert named.replace("`", "").split(", ") == sorted(PICTURES)
