"""A table on the practice page: each row a figure with a label of its own."""

from __future__ import annotations

from courseware.part_kinds.number.practice import figure_data
from courseware.part_kinds.table.practice import KIND
from courseware.practice.part_kind import without_blanks

ROWS = [
    {
        "name": name,
        "say": f"How many {name}?",
        "answer": answer,
        "marks": 1,
        "working": [{"say": "So", "value": answer}],
    }
    for name, answer in (("net", "bricks * 60"), ("waste", "net / 20"))
]


def test_each_row_is_a_figure_labelled_by_its_row(on_paper) -> None:
    on = on_paper({"name": "order", "kind": "table", "ask": "Fill in.", "rows": ROWS}, bricks=4)
    rows = KIND.data(on.asked, on.key, on.solved, on.entries, {})["rows"]
    assert [(row["label"], row["kind"], row["name"], row["ask"], row["right"]) for row in rows] == [
        ("i", "number", "net", "How many net?", "240"),
        ("ii", "number", "waste", "How many waste?", "12"),
    ]
    own = without_blanks(figure_data(on.solved.rows[0], on.key[0], {}))
    assert own.items() <= rows[0].items()
