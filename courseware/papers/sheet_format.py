"""How a learner's sheets are set: size of type, sheet, face, ground, spacing, extra time; said in a few words.

The words stand in a class list's column `Paper`, after `--format`, and in a sitting's file. Never a reason with them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields

MOST_EXTRA_TIME = 100  # per cent
LONGEST_FORMAT = 100  # characters
_SPLIT = re.compile(r"[,;\s]+")
_EXTRA = re.compile(r"extra-?(?:time-?)?(\d{1,3})%?")
_SPACES_BEFORE_FIGURE = re.compile(
    r"\bextra(?:[ -]time)?[ -]*(\d+)(?: *%)?|\blarge[ -]+(\d+)(?:[ -]*(?:pt|point))?", re.I
)


class FormatUnknown(ValueError):
    """Words that say no format; the message says which are known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetFormat:
    """How a learner's sheets are set. `size` is the least type in points, `extra_time` per cent of the time given."""

    size: int = 11
    sheet: str = "A4"
    face: str = "atkinson"
    ground: str = "white"
    spaced: bool = False  # lines half as far apart again
    part_a_page: bool = False
    roomy: bool = False  # an exercise a page
    extra_time: int = 0


STANDARD = SheetFormat()
_WORDS: Mapping[str, Mapping[str, int | str | bool]] = {
    "large-14": {"size": 14},
    "large-18": {"size": 18},
    "large-24": {"size": 24},
    "a3": {"sheet": "A3"},
    "andika": {"face": "andika"},
    "cream": {"ground": "cream"},
    "blue": {"ground": "blue"},
    "green": {"ground": "green"},
    "pink": {"ground": "pink"},
    "yellow": {"ground": "yellow"},
    "spaced": {"spaced": True},
    "part-a-page": {"part_a_page": True},
    "roomy": {"roomy": True},
}
KNOWN_WORDS = (*_WORDS, "extra-25 (per cent more time, 1 to 100)")


def read_format(text: str) -> SheetFormat:
    """The format that these words say, in any order; none say the standard one. Raises `FormatUnknown`.

    >>> read_format("Large 18, Andika, extra time 25 %") == SheetFormat(size=18, face="andika", extra_time=25)
    True
    >>> read_format("") == STANDARD
    True
    """
    found: dict[str, int | str | bool] = {}
    for word in filter(None, _SPLIT.split(_SPACES_BEFORE_FIGURE.sub(_joined, text).lower())):
        said = _said(word)
        if twice := found.keys() & said.keys():
            raise FormatUnknown(f"`{word}` says again what another word has said of its {min(twice).replace('_', ' ')}")
        found |= said
    return SheetFormat(**found)  # type: ignore[arg-type]  # each word's value is of its field's type


def format_words(asked: SheetFormat) -> str:
    """The words that say a format, in one order; '' for the standard one. `read_format` reads them back.

    >>> format_words(SheetFormat(size=24, sheet="A3", extra_time=25))
    'large-24 a3 extra-25'
    """
    words = [
        word for word, said in _WORDS.items() if all(getattr(asked, name) == value for name, value in said.items())
    ]
    return " ".join([*words, *([f"extra-{asked.extra_time}"] if asked.extra_time else [])])


def beside(own: SheetFormat, everybodys: SheetFormat) -> SheetFormat:
    """A learner's own format, and everybody's where it says nothing."""
    return SheetFormat(
        **{
            field.name: getattr(everybodys if getattr(own, field.name) == field.default else own, field.name)
            for field in fields(SheetFormat)
        }
    )


def _said(word: str) -> Mapping[str, int | str | bool]:
    if word in _WORDS:
        return _WORDS[word]
    extra = _EXTRA.fullmatch(word)
    if extra and 1 <= int(extra.group(1)) <= MOST_EXTRA_TIME:
        return {"extra_time": int(extra.group(1))}
    raise FormatUnknown(f"`{word[:40]}` is not a word for a paper's format; known are {', '.join(KNOWN_WORDS)}")


def _joined(found: re.Match[str]) -> str:
    """`large 18 pt` and `extra time 25 %` as one word each."""
    extra, large = found.groups()
    return f"extra-{extra}" if extra else f"large-{large}"
