"""A drawing, or a few words, as data of the practice page: its points, which the learner ticks."""

from __future__ import annotations

from collections.abc import Sequence

from courseware.banks.part import Solved
from courseware.papers.part_kind import Entries
from courseware.papers.sheets import AskedPart, KeyAnswer
from courseware.part_kinds.drawn.paper import points_of
from courseware.practice.part_kind import Before, Data, KindInPractice


def _data(asked: AskedPart, answers: Sequence[KeyAnswer], _: Solved, __: Entries, ___: Before) -> Data:
    return {"lines": asked.lines, "points": points_of(answers[0])}


KIND = KindInPractice(data=_data)
