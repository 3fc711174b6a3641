"""Cells under a merge: told by the merge's first cell, which keeps what the range shows; very many are refused."""

from __future__ import annotations

import pytest

from courseware.spreadsheets.merged_cells import MOST_MERGED, with_merges
from courseware.spreadsheets.rows import Row, TableFaulty

ROWS = [Row(line=line, cells=("a", "b", "c")) for line in (2, 3, 5, 6)]  # headings on line 2


def unread(*ranges: str) -> dict[int, dict[int, str]]:
    """What is told of each line's cells, with merges as a sheet's XML writes them."""
    xml = "<mergeCells>" + "".join(f'<mergeCell ref="{found}"/>' for found in ranges) + "</mergeCells>"
    return {row.line: dict(row.unread) for row in with_merges(ROWS, xml.encode(), "a.xlsx") if row.unread}


def told(first: str) -> str:
    return f"is merged with {first}; take the merge apart"


@pytest.mark.parametrize(
    ("merge", "covered"),
    [
        ("A3:A3", {}),
        ("A3:B3", {3: {1: told("A3")}}),
        ("A3:A5", {5: {0: told("A3")}}),
        ("B5:C6", {5: {2: told("B5")}, 6: {1: told("B5"), 2: told("B5")}}),
        ("A1:A3", {3: {0: told("A1")}}),  # from above the headings into the first row
        ("A1:C2", {}),  # titles and headings may be merged
        ("C6:Z9", {}),  # beyond the columns and rows read
        ("D3:E3", {}),
        ("AA3:AB3", {}),
    ],
)
def test_a_merge_covers_all_its_cells_but_the_first(merge: str, covered: dict) -> None:
    assert unread(merge) == covered


def test_merges_are_found_however_a_spreadsheet_writes_them() -> None:
    for xml in (
        b"<x:mergeCell ref='A3:B3'/>",
        b'<mergeCell foo="1" ref = "A3:B3" ></mergeCell>',
        b'<mergeCell\n ref="A3:B3"/>',
    ):
        assert with_merges(ROWS, xml, "a.xlsx")[1].unread == {1: told("A3")}


def test_what_a_row_said_already_stays_said() -> None:
    rows = [Row(line=1, cells=("a", "b")), Row(line=2, cells=("", ""), unread={0: "shows #REF!"})]
    [_, found] = with_merges(rows, b'<mergeCell ref="A2:B2"/>', "a.xlsx")
    assert found.unread == {0: "shows #REF!", 1: told("A2")}


def test_a_sheet_without_rows_has_no_merges() -> None:
    assert with_merges([], b'<mergeCell ref="A1:B2"/>', "a.xlsx") == []


def test_more_merged_cells_than_can_be_looked_at_are_refused() -> None:
    rows = [Row(line=1, cells=("code", "Q1")), Row(line=MOST_MERGED // 2 + 2, cells=("a", "b"))]

    def xml(last: int) -> bytes:
        return f'<mergeCells><mergeCell ref="A2:B{last}"/></mergeCells>'.encode()

    assert with_merges(rows, xml(MOST_MERGED // 2 + 1), "sheet.xlsx")[1].unread == {}
    with pytest.raises(TableFaulty, match="more than 100000 cells of the sheet are merged"):
        with_merges(rows, xml(MOST_MERGED // 2 + 2), "sheet.xlsx")
