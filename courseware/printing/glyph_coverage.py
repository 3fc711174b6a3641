"""Which names and words the shipped fonts cannot print."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path

from courseware.papers.group import Learner
from courseware.words import listed

_FONTS = Path(__file__).parent / "fonts"


def unprintable_names(learners: Sequence[Learner]) -> Iterator[str]:
    """A note for the names with letters in neither font, if there are any."""
    names = [learner.name for learner in learners if not prints(learner.name)]
    if names:
        more = [f"{len(names) - 3} more"] if len(names) > 3 else []
        yield (
            f"the shipped fonts lack letters of {listed([*names[:3], *more])}: look at those papers. They print only "
            "where this computer has a font with them."
        )


def prints(text: str) -> bool:
    """Whether the shipped fonts have all letters of a text."""
    return all(ord(letter) in _letters() for letter in text)


@lru_cache(maxsize=1)
def _letters() -> frozenset[int]:
    from fontTools.ttLib import TTFont

    return frozenset(code for file in sorted(_FONTS.rglob("*.ttf")) for code in TTFont(file).getBestCmap())
