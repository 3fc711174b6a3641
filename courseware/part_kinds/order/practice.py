"""An order as data of the practice page: its steps, one right order, and the pairs that bind."""

from __future__ import annotations

from collections.abc import Sequence

from courseware.banks.part import Solved
from courseware.papers.part_kind import Entries
from courseware.papers.sheets import AskedPart, KeyAnswer
from courseware.practice.part_kind import Before, Data, KindInPractice


def _data(asked: AskedPart, answers: Sequence[KeyAnswer], _: Solved, own: Entries, __: Before) -> Data:
    return {
        "options": [list(option) for option in asked.options],
        "right": own[0].answer,
        "before": [list(pair) for pair in own[0].before],
        "open": answers[0].open_order,
    }


KIND = KindInPractice(data=_data)
