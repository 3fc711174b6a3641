"""Long texts in short, cut between words: what a question asks, as much of a sentence as a line takes."""

from __future__ import annotations

import re

_SENTENCE = re.compile(r"(?<=[.?!])\s+")
_LONGEST_ASK = 80  # characters
_MORE = " …"


def in_short(ask: str) -> str:
    """What a question asks: the sentence with the question mark, else its first, cut at a word where it is long.

    >>> in_short("The panel grows by 9 courses. How high may the uprights stand then?")
    'How high may the uprights stand then?'
    """
    said = _SENTENCE.split(ask.strip())
    short = next((sentence for sentence in reversed(said) if sentence.endswith("?")), said[0])
    return cut(short, _LONGEST_ASK)


def cut(text: str, most: int) -> str:
    """As much of a text as fits into about so many characters; an ellipsis says where there was more.

    >>> cut("The beds were left out", 40), cut("The beds were left out", 15), cut("B" * 20, 8)
    ('The beds were left out', 'The beds were …', 'BBBBBBBB …')
    """
    if len(text) <= most:
        return text
    head = text[: most + 1].rpartition(" ")[0] or text[:most]
    return head.rstrip(" ,;:") + _MORE
