"""A name that is not known, and what may be meant by it."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches


def near(name: str, known: Sequence[str], lead: str) -> str:
    """`did you mean …?` with the near miss where there is one, then the known names; the lead alone where none are."""
    if close := get_close_matches(name, known, n=1, cutoff=0.6):
        return f"did you mean `{close[0]}`? {lead} {', '.join(known)}"
    return f"{lead} {', '.join(known)}" if known else lead
