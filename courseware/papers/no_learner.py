"""What a college's export prints round a class list: titles above it, totals and page feet below, headings again."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from courseware.papers.table import Row, heading_key

TITLES_WITHIN = 20  # rows that are not blank, among which the headings must stand
_FOOT = re.compile(
    r"(grand )?totals?\b|(total )?(number|no\.?|count) of\b|count\b|page \d|printed\b|generated\b|exported\b|report\b|"
    r"run (on|at|date)\b|end of (list|report)\b|date:|prepared (by|on)\b",
    re.IGNORECASE,
)


def headings_at(rows: Sequence[Sequence[str]], wanted: Callable[[Sequence[str]], object]) -> int:
    """The place of the first row whose headings are wanted, among the first of `rows`; 0 where there is none."""
    near = rows[:TITLES_WITHIN]
    return next((place for place, cells in enumerate(near) if wanted(cells)), 0)


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
