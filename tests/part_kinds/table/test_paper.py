"""A table on a paper: an entry, an item and a key for each row, labelled by part and row."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.papers.part_kind import PAPER_KINDS
from courseware.papers.sitting_file import SittingFaulty

ROWS = [
    {"name": "net", "say": "Bricks for {{ bricks }} m²", "answer": "bricks * 60", "unit": "bricks", "marks": 1,
     "working": [{"say": "Sixty each", "value": "60 * bricks"}]},
    {"name": "share", "say": "A third", "answer": "net / 7", "round": 1, "marks": 2,
     "working": [{"say": "Share it", "value": "net / 7"}]},
]  # fmt: skip
TABLE = {"name": "order", "kind": "table", "ask": "Fill in the order.", "rows": ROWS}


def test_each_row_is_an_entry_of_its_own(on_paper) -> None:
    entries = on_paper(TABLE, bricks=4).entries
    assert [(e.label, e.name, e.kind, e.answer, e.unit, e.marks) for e in entries] == [
        ("1a(i)", "net", "table", "240", "bricks", 1),
        ("1a(ii)", "share", "table", "34.3", "", 2),
    ]


def test_each_row_is_asked_for_with_its_unit_marks_and_rounding(on_paper) -> None:
    asked = on_paper(TABLE, bricks=4).asked
    assert (asked.label, asked.ask, asked.marks) == ("1a", "Fill in the order.", 3)
    assert [(row.label, row.say, row.unit, row.marks, row.note) for row in asked.rows] == [
        ("1a(i)", "Bricks for 4 m²", "bricks", 1, ""),
        ("1a(ii)", "A third", "", 2, "to 1 decimal place"),
    ]


def test_each_row_has_its_key(on_paper) -> None:
    assert [(key.label, key.answer) for key in on_paper(TABLE, bricks=4).key] == [
        ("1a(i)", "240 bricks"),
        ("1a(ii)", "34.3"),
    ]


def test_another_answer_in_the_sitting_than_is_found_is_no_key(on_paper) -> None:
    on = on_paper(TABLE, bricks=4)
    changed = (on.entries[0], replace(on.entries[1], answer="34.2"))
    with pytest.raises(SittingFaulty, match=r"part 1a\(ii\): the sitting says 34.2"):
        PAPER_KINDS["table"].key(on.solved, changed, on.scope, {})
