"""What the practice page asks of a kind of part: its answer as plain data. How it is asked there is its `page.js`."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from courseware.banks.figures import Figure, exact_text
from courseware.banks.formulas import Value
from courseware.banks.part import Solved, WorkingLine
from courseware.banks.part_kinds import RoomKinds
from courseware.papers.part_kind import Entries
from courseware.papers.sheets import AskedPart, KeyAnswer

Data = dict[str, object]
Before = Mapping[str, Figure]  # by part, what its working comes to before it is rounded to a whole number


@dataclass(frozen=True, slots=True, kw_only=True)
class KindInPractice:
    """A kind of part on the practice page: what `page.js` needs beside its label, question, marks and note."""

    data: Callable[[AskedPart, Sequence[KeyAnswer], Solved, Entries, Before], Data]


PRACTICE_KINDS = RoomKinds("practice", KindInPractice)


def own_label(label: str) -> str:
    """`a` of `1a`, `ii` of `1a(ii)`: on the page an exercise stands alone."""
    row = label.partition("(")[2].removesuffix(")")
    return row or label[1:]


def without_blanks(data: Data) -> Data:
    """Leaves out what says nothing: '' , [] , {} and False."""
    return {name: value for name, value in data.items() if value is not False and value not in ("", [], {})}


def working_data(
    lines: Sequence[WorkingLine], values: Sequence[Value | None], answer: KeyAnswer, unit: str
) -> list[Data]:
    """Each line with its exact figure, where it has one: so that a learner can fill it in."""
    found: list[Data] = []
    for line, value, said in zip(lines, values, answer.working, strict=True):
        one: Data = {"say": said.say, "figure": said.figure}
        if value is not None and not isinstance(value, bool | str):
            one |= {"right": exact_text(value), "unit": unit if line.unit is None else line.unit}
        found.append(without_blanks(one))
    return found
