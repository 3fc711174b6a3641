"""What a college's export prints round a class list: titles above it, totals and page feet below, headings again."""

from __future__ import annotations

import re

from courseware.spreadsheets.rows import Row, heading_key

_FOOT = re.compile(
    r"(grand )?totals?\b|(total )?(number|no\.?|count) of\b|count\b|page \d|printed\b|generated\b|exported\b|report\b|"
    r"run (on|at|date)\b|end of (list|report)\b|date:|prepared (by|on)\b",
    re.IGNORECASE,
)


def is_no_learner(row: Row, headings: Row) -> bool:
    """Whether a row is plainly no learner's: the headings again, or a total or foot of a page with figures alone."""
    if [heading_key(cell) for cell in row.cells if cell.strip()] == [
        heading_key(cell) for cell in headings.cells if cell.strip()
    ]:
        return True
    texts = [cell.strip() for cell in row.cells if cell.strip()]
    figures = all(re.fullmatch(r"[\d\s.,:/-]+", text) for text in texts[1:])
    return bool(texts) and not row.unread and figures and _FOOT.match(texts[0]) is not None


def turned_round(name: str) -> str:
    """A name written surname first, `Okafor, Amara`, as it is said; any other as it stands."""
    last, comma, first = (part.strip() for part in name.partition(","))
    return f"{first} {last}" if comma and last and first and "," not in first else name
