"""A learner's own level, from a class list's column `Level`, so that a mixed group gets papers of several levels."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from courseware.spreadsheets.rows import Row, heading_key
from courseware.text_files.faults import Fault, harmless

_HEADINGS = {"level", "learnerlevel", "studentlevel", "paperlevel"}
_LEVEL = re.compile(r"(?:l|lvl|level)?\s*([123])", re.IGNORECASE)


def level_column(headings: Sequence[str]) -> int | None:
    """The column, from 0, of the learners' levels, or None."""
    return next((place for place, heading in enumerate(headings) if heading_key(heading) in _HEADINGS), None)


def level_in(cell: str) -> int | None:
    """A level as a list has it, `2`, `L2` or `Level 2`; None where it is not a level.

    >>> level_in("Level 2"), level_in("4"), level_in("")
    (2, None, None)
    """
    found = _LEVEL.fullmatch(cell.strip())
    return int(found.group(1)) if found else None


def level_faults(row: Row, column: int, file: str) -> Iterator[Fault]:
    """What is wrong with the level in a row."""
    cell = row.cells[column].strip()
    if level_in(cell) is None:
        wrong = f"`{harmless(cell)}` is not a level" if cell else "no level stands in this row"
        yield Fault(file, row.line, column + 1, wrong, "expected 1, 2 or 3: a paper's level")
