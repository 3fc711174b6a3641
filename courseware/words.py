"""Counts and lists in words, as every message and sheet says them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

_ONES = {"teeth": "tooth", "pence": "penny", "feet": "foot", "halves": "half", "men": "man", "people": "person"}
_A_PLURAL = re.compile(r"[a-z]{2,}[a-rt-z]s", re.IGNORECASE)  # letters alone, no `glass`; mm, m², dB(A) are no words
_LIKE_PLURALS = {"gas", "plus", "minus", "less", "this", "thus", "bus", "lens"}


def plural(n: Fraction | int, one: str, many: str = "") -> str:
    """The word alone, where the figure is written elsewhere or otherwise.

    >>> plural(1, "paper"), plural(0, "paper"), plural(2, "copy", "copies")
    ('paper', 'papers', 'copies')
    """
    return one if n == 1 else many or one + "s"


def count(n: int, one: str, many: str = "") -> str:
    """How many of a thing.

    >>> count(1, "paper"), count(3, "paper"), count(2, "copy", "copies")
    ('1 paper', '3 papers', '2 copies')
    """
    return f"{n} {plural(n, one, many)}"


def listed(names: Sequence[str], last: str = "and") -> str:
    """Names one after another.

    >>> listed(["bricks", "sand", "lime"]), listed(["two", "three"], "or"), listed(["sand"])
    ('bricks, sand and lime', 'two or three', 'sand')
    """
    *first, end = names or [""]
    return f"{', '.join(first)} {last} {end}" if first else end


def of_one(unit: str) -> str:
    """A unit as it stands beside 1: the first of its words that is a plural becomes one of its kind.

    >>> [of_one(unit) for unit in ("bricks", "courses", "batches", "halves", "bats of a hand", "mm", "kg", "glass")]
    ['brick', 'course', 'batch', 'half', 'bat of a hand', 'mm', 'kg', 'glass']
    """
    words = unit.split(" ")
    for place, word in enumerate(words):
        if (one := _one(word)) != word:
            return " ".join((*words[:place], one, *words[place + 1 :]))
    return unit


def _one(word: str) -> str:
    low = word.lower()
    if low in _ONES:
        return _ONES[low]
    if not _A_PLURAL.fullmatch(word) or low in _LIKE_PLURALS:
        return word
    if low.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    return word[:-2] if low.endswith(("ches", "shes", "sses", "xes")) else word[:-1]
