"""A glossary and a card as finished text and pictures: what is printed, and what the practice page shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courseware.banks import SafetyNotes
from courseware.drawings.picture import Picture
from courseware.glossary.pictures import picture
from courseware.glossary.rules import Rule, rules
from courseware.glossary.second_language import SecondLanguage
from courseware.glossary.words_file import Word
from courseware.papers.compose import CAUTIONS
from courseware.papers.sheets import SafetyNote

CARD_ABOUT = "For UK metric bricks, 215 × 102.5 × 65 mm, with 10 mm joints. Other bricks have other figures."
_CARE = ("cutting", "dust", "lifting", "mortar")  # safety notes of what the rules lead to
_PAGES = (3, 4, 4)  # rules on the first three pages of the card; what is left stands on its back


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A word with its picture, and the word beside it in the second language, '' where there is none."""

    word: Word
    picture: Picture
    second: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Glossary:
    """The words in the order of the alphabet; `tag` and `right_to_left` are of the second language."""

    title: str
    entries: tuple[Entry, ...]
    tag: str = ""
    right_to_left: bool = False


def compose_glossary(words: Sequence[Word], second: SecondLanguage | None = None) -> Glossary:
    """The glossary of these words."""
    beside = second.words if second else {}
    return Glossary(
        title="Words of the trade",
        entries=tuple(
            Entry(word=word, picture=picture(word.picture, word.word), second=beside.get(word.word, ""))
            for word in words
        ),
        tag=second.tag if second else "",
        right_to_left=second.right_to_left if second else False,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """One sheet folded to four pages: rules on each, and on the back what to take care of."""

    title: str
    about: str
    pages: tuple[tuple[Rule, ...], ...]
    care: tuple[SafetyNote, ...]
    cautions: tuple[str, ...]


def compose_card(safety: SafetyNotes, arris_rule: str) -> Card:
    """The card of the shipped topics' rules, with the safety notes on cutting, dust, lifting and mortar.

    `arris_rule` is the centre's for projecting courses.
    """
    left = list(rules(arris_rule))
    pages: list[tuple[Rule, ...]] = []
    for count in (*_PAGES, len(left)):
        pages.append(tuple(left[:count]))
        left = left[count:]
    care = [safety.notes[name] for name in _CARE if name in safety.notes]
    return Card(
        title="The rules on a card",
        about=CARD_ABOUT,
        pages=tuple(pages),
        care=tuple(SafetyNote(title=title, lines=lines, source=source) for title, lines, source in care),
        cautions=CAUTIONS,
    )
