"""Scripts that take no other answers, whichever way the answers come: on a sheet or typed on the screen."""

from __future__ import annotations

import pytest

from courseware.database.closed_scripts import Closed
from courseware.database.entering import CellChange
from courseware.database.errors import RecordRefuses
from courseware.database.register import enter_in_register
from courseware.database.states import confirm, release
from courseware.database.typed_cells import TypedCell, type_cell
from tests.database.conftest import labels

CLOSED = Closed(withdrawn={"W": "left the course"}, released=frozenset({("R", 1)}), appealed={"A": "2026-02-01"})


def change(code: str, after: str, label: str = "1a") -> CellChange:
    return CellChange(code=code, label=label, before="900", after=after, by="J. Marsh")


@pytest.mark.parametrize(
    ("attempt", "cell", "says"),
    [
        (1, change("R", "910"), "1a would change from `900` to `910`: decide the mark with its reason, or take"),
        (1, change("R", ""), "1a would change from `900` to ``"),
        (1, change("R", "late", ""), "its status would change"),
        (1, change("W", "910"), r"the paper W is withdrawn \(left the course\); take that back before it is marked"),
        (1, change("A", "910"), "the paper A is under appeal since 2026-02-01"),
        (2, change("A", ""), "until the outcome is entered"),
    ],
)  # fmt: skip
def test_a_change_that_cannot_be_is_refused(attempt: int, cell: CellChange, says: str) -> None:
    with pytest.raises(RecordRefuses, match=says):
        CLOSED.refuse(attempt, [change("other", "910"), cell])


def test_all_else_may_be_changed() -> None:
    CLOSED.refuse(2, [change("R", "910")])  # handed in again
    CLOSED.refuse(1, [change("W", ""), change("other", "910")])


def test_a_cell_typed_on_the_screen_is_refused_too(entered, sitting, later) -> None:
    first, second, _ = sitting.papers
    confirm(entered, sitting.code, by="J. Marsh", at=later(3))
    release(entered, sitting.code, by="J. Marsh", at=later(4))
    enter_in_register(entered, second.code, "withdrawn", reason="left", by="J. Marsh", at=later(5))
    for paper, seen, says in ((first, "1", "are released"), (second, "", "is withdrawn")):
        cell = TypedCell(code=paper.code, attempt=1, label=labels(paper)[0], text="910", seen=seen, settles=False)
        with pytest.raises(RecordRefuses, match=says):
            type_cell(entered, sitting.code, cell, labels(paper), assessor="A. B.", role="first", at=later(6))
