"""Counts and lists in words, as every message and sheet says them."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction


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
