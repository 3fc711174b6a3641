"""A choice as data of the practice page: its choices, and why the wrong ones are wrong."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from courseware.banks.part import Solved
from courseware.papers.part_kind import Entries
from courseware.papers.sheets import AskedPart, KeyAnswer
from courseware.part_kinds.choice.bank import SolvedChoice
from courseware.part_kinds.choice.paper import why_wrong
from courseware.practice.part_kind import Before, Data, KindInPractice, working_data


def _data(asked: AskedPart, answers: Sequence[KeyAnswer], solved: Solved, own: Entries, _: Before) -> Data:
    choice = cast("SolvedChoice", solved)
    return {
        "options": [list(option) for option in asked.options],
        "right": own[0].answer,
        "several": choice.part.several,
        "wrong": why_wrong(answers[0]),
        "working": working_data(choice.part.working, choice.working, answers[0], ""),
    }


KIND = KindInPractice(data=_data)
