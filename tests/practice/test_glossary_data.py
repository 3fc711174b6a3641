"""The words and the card as the page has them: all of them, drawings whole, small to send."""

from __future__ import annotations

import json
import zlib

from courseware.glossary.rules import rules
from courseware.practice.glossary_data import glossary_data
from courseware.practice.lean_svg import lean_svg
from tests.practice.conftest import glossary


def test_every_word_is_there_with_its_drawing_line_for_line() -> None:
    made, data = glossary(), glossary_data(glossary(), "outline")
    lines = data["lines"]
    assert [(word["word"], word["says"], word["from"]) for word in data["words"]] == [
        (entry.word.word, entry.word.says, entry.word.source) for entry in made.entries
    ]
    for word, entry in zip(data["words"], made.entries, strict=True):
        assert "\n".join(lines[place] for place in word["drawing"]) == lean_svg(entry.picture).rstrip("\n")


def test_a_second_language_stands_where_there_is_one() -> None:
    data = glossary_data(glossary(), "outline")
    assert {word["word"]: word["second"] for word in data["words"] if "second" in word} == {
        "arris": "حافة",
        "bed": "مفصل",
    }
    assert (data["tag"], data["rtl"]) == ("ar", True)


def test_the_card_s_rules_are_those_of_the_sheet() -> None:
    data = glossary_data(glossary(), "outline")
    assert [(rule["topic"], rule["says"], rule.get("example", "")) for rule in data["rules"]] == [
        (rule.topic, rule.says, rule.example) for rule in rules("outline")
    ]


def test_it_is_small_beside_the_two_megabytes_of_a_page() -> None:
    """Under 100 kB packed, in base64: a twentieth."""
    packed = zlib.compress(json.dumps(glossary_data(glossary(), "outline"), ensure_ascii=False).encode(), 9)
    assert len(packed) * 4 / 3 < 100_000
