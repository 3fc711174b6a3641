"""What a marking sheet changes in a script that the record has: only what its assessor changed since last entering it.

Two assessors may each enter a copy of one sheet. A cell that stands in a copy as its assessor left it last time, blank
to begin with, says nothing about what the other has typed since, and leaves it alone. Neither does one that stands as
that sheet had it last, whoever entered it, nor a blank where that sheet never had anything: what was typed on the
screen, or came in another sheet, stays.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from courseware.marking.marks import Script

Role = Literal["first", "second"]
Cell = tuple[str, str]  # as written, and why it could not be read
STATUS = ""  # the label that a script's status goes by here
ON_SCREEN = "typed on the screen"  # in place of a sheet's name
_BLANK: Cell = ("", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptRow:
    """A script as one row of the record has it."""

    assessor: str
    cells: Mapping[str, Cell]  # by label, the status among them
    source: str = ""  # the sheet's name, or `ON_SCREEN`


@dataclass(frozen=True, slots=True, kw_only=True)
class CellChange:
    """A cell, or under the label '' the status, that is now another; `by` typed what stood there before."""

    code: str
    label: str
    before: str
    after: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """What a script is to be now, what that changes, and what it leaves as another assessor typed it."""

    cells: Mapping[str, Cell]
    changed: tuple[CellChange, ...]
    left: tuple[CellChange, ...]  # `before` stands in this sheet, `after` in the record


def cells_of(script: Script) -> dict[str, Cell]:
    """A script's cells, the status among them."""
    labels = dict.fromkeys((*script.cells, *script.unread))
    cells = {label: (script.cells.get(label, ""), script.unread.get(label, "")) for label in labels}
    return {STATUS: (script.status, ""), **cells}


def merge(rows: Sequence[ScriptRow], script: Script, assessor: str, source: str = "") -> Merged:
    """The script as it stands after `rows`, oldest first, with what `assessor` has changed in the sheet `source`."""
    now, authors = standing(rows)
    own = _said_last(rows, lambda row: row.assessor == assessor and row.source != ON_SCREEN)
    sheet = _said_last(rows, lambda row: row.source == source != "")
    cells = dict(now)
    changed: list[CellChange] = []
    left: list[CellChange] = []
    for label, typed in cells_of(script).items():
        stands, by = now.get(label, _BLANK), authors.get(label, "")
        if typed == stands:
            cells.setdefault(label, typed)
        elif typed == _BLANK and source and label not in sheet:
            if own.get(label, _BLANK) != _BLANK:
                left.append(CellChange(code=script.code, label=label, before="", after=stands[0], by=by))
        elif typed not in (own.get(label, _BLANK), sheet.get(label)):
            cells[label] = typed
            changed.append(CellChange(code=script.code, label=label, before=stands[0], after=typed[0], by=by))
        elif typed != _BLANK:
            left.append(CellChange(code=script.code, label=label, before=typed[0], after=stands[0], by=by))
    return Merged(cells=cells, changed=tuple(changed), left=tuple(left))


def changes(before: Mapping[str, Cell], after: Mapping[str, Cell]) -> Iterable[tuple[str, Cell, Cell]]:
    """The labels whose cells are not the same, with both."""
    for label in dict.fromkeys((*before, *after)):
        was, now = before.get(label, _BLANK), after.get(label, _BLANK)
        if was != now:
            yield label, was, now


def standing(rows: Sequence[ScriptRow]) -> tuple[Mapping[str, Cell], dict[str, str]]:
    """The cells of the newest row, and who typed each."""
    before: Mapping[str, Cell] = {}
    authors: dict[str, str] = {}
    for row in rows:
        authors |= {label: row.assessor for label, _, _ in changes(before, row.cells)}
        before = row.cells
    return before, authors


def _said_last(rows: Sequence[ScriptRow], whose: Callable[[ScriptRow], bool]) -> dict[str, Cell]:
    """What the rows of one assessor, or of one sheet, said last of each cell that they changed."""
    before: Mapping[str, Cell] = {}
    typed: dict[str, Cell] = {}
    for row in rows:
        if whose(row):
            typed |= {label: now for label, _, now in changes(before, row.cells)}
        before = row.cells
    return typed
