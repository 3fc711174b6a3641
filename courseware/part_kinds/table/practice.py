"""A table as data of the practice page: each row a figure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from courseware.banks.number_part import SolvedNumber
from courseware.banks.part import Solved
from courseware.papers.part_kind import Entries
from courseware.papers.sheets import AskedPart, AskedRow, KeyAnswer
from courseware.part_kinds.number.practice import figure_data
from courseware.part_kinds.table.bank import SolvedTable
from courseware.practice.part_kind import Before, Data, KindInPractice, own_label, without_blanks


def _data(asked: AskedPart, answers: Sequence[KeyAnswer], solved: Solved, _: Entries, before: Before) -> Data:
    rows = zip(asked.rows, answers, cast("SolvedTable", solved).rows, strict=True)
    return {"rows": [_row(row, answer, own, before) for row, answer, own in rows]}


def _row(asked: AskedRow, answer: KeyAnswer, solved: SolvedNumber, before: Before) -> Data:
    found: Data = {"name": solved.part.name, "label": own_label(asked.label), "kind": "number", "ask": asked.say}
    return without_blanks(found | {"marks": asked.marks, "note": asked.note} | figure_data(solved, answer, before))


KIND = KindInPractice(data=_data)
