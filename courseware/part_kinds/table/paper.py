"""A table on a paper: an entry, an item and a key for each of its rows."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from courseware.banks.part import Solved
from courseware.papers.part_kind import Entries, KindOnPaper, Scope, Seal, Site, question
from courseware.papers.sheets import AskedPart, AskedRow, KeyAnswer
from courseware.papers.sitting import IssuedPart
from courseware.part_kinds.number.paper import how_to_write, issue_figure, key_figure
from courseware.part_kinds.table.bank import SolvedTable, TablePart


def _issue(solved: Solved, own: tuple[str, ...], scope: Scope, site: Site, _: Seal) -> list[IssuedPart]:
    rows = cast("SolvedTable", solved).rows
    return [issue_figure(row, label, "table", scope, site) for row, label in zip(rows, own, strict=True)]


def _asked(solved: Solved, own: Entries, scope: Scope, site: Site) -> AskedPart:
    part = cast("TablePart", solved.part)
    rows = tuple(
        AskedRow(
            label=entry.label,
            say=row.ask.render(scope, site),
            unit=row.unit,
            marks=row.marks,
            note=how_to_write(row),
        )
        for row, entry in zip(part.rows, own, strict=True)
    )
    return replace(question(part, own, scope, site), rows=rows)


def _key(solved: Solved, own: Entries, scope: Scope, site: Site) -> tuple[KeyAnswer, ...]:
    rows = cast("SolvedTable", solved).rows
    return tuple(key_figure(row, entry, scope, site) for row, entry in zip(rows, own, strict=True))


KIND = KindOnPaper(issue=_issue, asked=_asked, key=_key, figures=True)
