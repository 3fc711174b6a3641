"""The words of the trade and the rules of the card as plain data for the page, their drawings' lines shared."""

from __future__ import annotations

from courseware.drawings.picture import Picture
from courseware.glossary.rules import rules
from courseware.glossary.sheets import CARD_ABOUT, Glossary
from courseware.practice.lean_svg import lean_svg
from courseware.practice.part_kind import Data, without_blanks


def glossary_data(glossary: Glossary, arris_rule: str) -> Data:
    """Words with what they mean, their second language and drawings; the card's rules by the centre's arris rule."""
    lines: dict[str, int] = {}  # every line of every drawing, with its place in the list
    words = [
        without_blanks(
            {
                "word": entry.word.word,
                "also": list(entry.word.also),
                "second": entry.second,
                "says": entry.word.says,
                "from": entry.word.source,
                "drawing": _drawing(entry.picture, lines),
            }
        )
        for entry in glossary.entries
    ]
    card = [
        without_blanks(
            {
                "topic": rule.topic,
                "says": rule.says,
                "example": rule.example,
                "drawing": _drawing(rule.picture, lines),
            }
        )
        for rule in rules(arris_rule)
    ]
    told = {"words": words, "rules": card, "about": CARD_ABOUT, "tag": glossary.tag, "rtl": glossary.right_to_left}
    return without_blanks({**told, "lines": list(lines)})


def _drawing(picture: Picture, lines: dict[str, int]) -> list[int]:
    return [lines.setdefault(line, len(lines)) for line in lean_svg(picture).splitlines()]
