"""A glossary as somebody writes it: YAML read to its words, every fault at once with its line and column."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pydantic import Field

from courseware.glossary.pictures import PICTURES
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault, FileFaulty, harmless
from courseware.text_files.shapes import Path, Shape, shaped
from courseware.text_files.yaml_text import beside, read_on
from courseware.text_files.yaml_tree import place

PRACTICE = "common practice"
LONGEST_WORD, LONGEST_SAYS, LONGEST_SOURCE = 30, 160, 40
MOST_WORDS = 300
_STAND_IN: dict[str | int, object] = {
    "word": "x",
    "says": "x",
    "words": [{"word": "x", "says": "x", "picture": "perp"}],
}


class WordShape(Shape):
    """A word of the trade."""

    word: str = Field(description="the word as the trade says it, such as perp")
    says: str = Field(description="what it means, in a sentence")
    picture: str = Field(description="the picture that shows it, one of those listed below")
    also: list[str] = Field([], description="other names of it, such as perpend: on the practice page they lead to it")
    source: str = Field(PRACTICE, description=f"where that is said ({PRACTICE} unless given)")


class GlossaryShape(Shape):
    """A glossary."""

    words: list[WordShape] = Field(description="a list of words", min_length=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A word of the trade: what it means, the name of its picture, its source, and what else it is called."""

    word: str
    says: str
    picture: str
    source: str
    also: tuple[str, ...] = ()


def read_words(data: bytes, file: str) -> tuple[Word, ...]:
    """The words in a file's bytes, in the order of the alphabet. Raises `FileFaulty`."""
    node, told = read_on(data, file)
    shape, faults, repaired = shaped(GlossaryShape, node, file, _STAND_IN)
    if shape is None:
        raise FileFaulty(beside(told, faults))
    wrong = [one for one in _wrong(shape) if not any(one[0][: len(path)] == path for path in repaired)]
    faults += tuple(Fault(file, *place(node, path), what, expected) for path, what, expected in wrong)
    if told or faults:
        raise FileFaulty(beside(told, faults))
    words = (
        Word(
            word=_line(one.word),
            says=_line(one.says),
            picture=one.picture,
            source=_line(one.source),
            also=tuple(map(_line, one.also)),
        )
        for one in shape.words
    )
    return tuple(sorted(words, key=lambda word: word.word.casefold()))


def _line(text: str) -> str:
    """A text that may have been typed over several lines."""
    return " ".join(text.split())


def _wrong(shape: GlossaryShape) -> Iterator[tuple[Path, str, str]]:
    """What the shape alone does not show: where, what is wrong, what was expected."""
    if len(shape.words) > MOST_WORDS:
        yield ("words",), f"{len(shape.words)} words", f"at most {MOST_WORDS} to a glossary"
    told: set[str] = set()
    for index, one in enumerate(shape.words):
        for key, most in (("says", LONGEST_SAYS), ("source", LONGEST_SOURCE)):
            text = _line(getattr(one, key))
            if not 1 <= len(text) <= most:
                yield ("words", index, key), f"`{key}` has {len(text)} characters", f"expected 1 to {most}"
        if one.picture not in PICTURES:
            wrong = f"no picture is named `{harmless(one.picture)}`"
            yield ("words", index, "picture"), wrong, near(one.picture, list(PICTURES), "expected one of")
        for key, names in (("word", [one.word]), ("also", one.also)):
            for name in map(_line, names):
                if not 1 <= len(name) <= LONGEST_WORD:
                    wrong = f"`{key}` has {len(name)} characters"
                    yield ("words", index, key), wrong, f"expected 1 to {LONGEST_WORD}"
                if name.casefold() in told:
                    wrong = f"the word `{harmless(name)}` stands twice"
                    yield ("words", index, key), wrong, "expected each word once"
                told.add(name.casefold())
