"""The centre's own word for the upright joint, in texts that say perpend."""

from __future__ import annotations

import re

from courseware.settings.settings import PERPEND

_SAID = re.compile(r"\b(?:(?P<article>[Aa])n? )?(?P<first>[Pp])erpend(?P<many>s?)\b(?P<gloss> \(upright joints?\))?")
_UPRIGHT = "upright joint"  # how banks explain the word
_VOWELS = "aeiou"


def with_own_word(text: str, word: str) -> str:
    """The text as a centre that says `word` would have it; other words for the joint stay as they are.

    >>> with_own_word("Perpends (upright joints) are 10 mm.", "cross joint")
    'Cross joints (upright joints) are 10 mm.'
    >>> with_own_word("A perpend (upright joint) is 10 mm.", "upright joint")
    'An upright joint is 10 mm.'
    """
    return text if word == PERPEND else _SAID.sub(lambda found: _own(found, word), text)


def _own(found: re.Match[str], word: str) -> str:
    said = word + found["many"]
    if found["first"] == "P":
        said = said[:1].upper() + said[1:]
    article = "" if not found["article"] else f"{found['article']}{'n' if word[0].lower() in _VOWELS else ''} "
    gloss = "" if word.lower() == _UPRIGHT else found["gloss"] or ""
    return f"{article}{said}{gloss}"
