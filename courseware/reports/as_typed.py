"""What people typed, made fit for print: nothing unseen, nothing without end, no learner's name where codes count."""

from __future__ import annotations

import re

from courseware.text_files.faults import visible

_LONGEST = 1000  # characters: more is cut, and says so
_LONG_WORD = re.compile(r"\S{16}(?=\S)")
_MAY_BREAK = "\u200b"  # prints as nothing


def as_typed(text: str) -> str:
    """`text` with unseen characters named as <U+0007>, cut to 1000 characters, long words free to break."""
    told = visible(" ".join(text.splitlines()))
    cut = told if len(told) <= _LONGEST else f"{told[:_LONGEST]}… ({len(told) - _LONGEST} more characters)"
    return _LONG_WORD.sub(rf"\g<0>{_MAY_BREAK}", cut)


def by_code(text: str, name: str, code: str) -> str:
    """`text` with a learner's full name, in any case, given way to the paper's code."""
    return re.sub(re.escape(name), code, text, flags=re.IGNORECASE) if name else text
