"""Cells that lie under a merged range of a sheet: what a row shows there is another cell's."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from courseware.spreadsheets.rows import Row, TableFaulty
from courseware.text_files.faults import Fault

MOST_MERGED = 100_000  # cells, as far as the rows and columns read go
_MERGE = re.compile(
    rb"""<(?:\w{1,20}:)?mergeCell\s[^>]{0,200}?\bref\s?=\s?["']([A-Z]{1,3})([0-9]{1,7}):([A-Z]{1,3})([0-9]{1,7})["']"""
)


def with_merges(rows: Sequence[Row], xml: bytes, file: str) -> list[Row]:
    """The rows, headings first, told of the cells below them that a merge covers. Raises `TableFaulty`.

    The first cell of a merged range holds what the range shows and is read as it stands.
    """
    by_line = {row.line: row for row in rows}
    covered: dict[int, dict[int, str]] = {}
    if rows:
        last, width = rows[-1].line, max(len(row.cells) for row in rows)
        for line, column, first in _covered(xml, rows[0].line + 1, last, width, file):
            covered.setdefault(line, {})[column] = f"is merged with {first}; take the merge apart"
    return [
        Row(line=line, cells=row.cells, unread={**row.unread, **covered.get(line, {})}) for line, row in by_line.items()
    ]


def _covered(xml: bytes, top: int, last: int, width: int, file: str) -> Iterator[tuple[int, int, str]]:
    """Line from 1 and column from 0 of each cell under a merge, with the name of the merge's first cell."""
    from openpyxl.utils import column_index_from_string as from_one  # slow to import, and most lists are CSV

    count = 0
    for left, upper, right, lower in _MERGE.findall(xml):
        leftmost = from_one(left.decode()) - 1
        lines = range(max(int(upper), top), min(int(lower), last) + 1)
        columns = range(leftmost, min(from_one(right.decode()), width))
        count += len(lines) * len(columns)
        if count > MOST_MERGED:
            wrong = f"more than {MOST_MERGED} cells of the sheet are merged"
            raise TableFaulty((Fault(file, 1, 1, wrong, "take the merges apart"),))
        first = f"{left.decode()}{int(upper)}"
        yield from (
            (line, column, first) for line in lines for column in columns if (line, column) != (int(upper), leftmost)
        )
