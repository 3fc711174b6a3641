"""What the tests of kinds share: a part of a paper as it was marked."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from courseware.feedback.marked_part import MarkedPart
from courseware.marking.marks import How, Mark, NamedSlip
from courseware.papers.sheets import AskedExercise, KeyExercise
from tests.one_exercise import OnPaper


@pytest.fixture
def marked() -> Callable[..., MarkedPart]:
    """A part, or a row of it, marked so; `slips` are the places, from 1, of those that were named."""

    def part(on: OnPaper, how: How, marks: int = 0, written: str = "", slips: tuple[int, ...] = (), row: int = 0) -> MarkedPart:  # fmt: skip
        entry, item = on.entries[row], on.asked.rows[row] if on.asked.rows else on.asked
        named = tuple(NamedSlip(key=f"pier-length/{entry.name}/{n}", says=f"Slip {n}") for n in slips)
        asked = AskedExercise(
            number=1, topic="Piers", level=1, setting="", pose="", brick="", parts=(on.asked,), marks=on.asked.marks
        )
        return MarkedPart(
            number=1,
            place=0,
            exercise=KeyExercise(asked=asked, answers=(on.key,)),
            asked=on.asked,
            ask=on.asked.ask,
            unit=item.unit,
            note=item.note,
            solved=on.solved.entries[row],
            answer=on.key[row],
            issued=entry,
            mark=Mark(label=entry.label, marks=marks, of=entry.marks, how=how, why="", written=written, slips=named),
        )

    return part
