"""What people judged of a paper, in words."""

from __future__ import annotations

import pytest

from courseware.database.appeals import open_appeal
from courseware.database.connection import reading
from courseware.database.given_marks import keep_given
from courseware.database.judged_rows import OUTCOMES, PURPOSES, judged
from courseware.database.row_checks import _WORDS
from courseware.quality.marks_by_hand import HandMark


def test_there_are_words_for_every_purpose_and_outcome() -> None:
    assert (set(PURPOSES), set(OUTCOMES)) == (set(_WORDS["purpose"]), set(_WORDS["outcome"]))


@pytest.mark.parametrize(("attempt", "what"), [(1, "re-mark for 1a"), (2, "re-mark for 1a (attempt 2)")])
def test_each_row_is_told_with_its_reason(entered, sitting, later, attempt: int, what: str) -> None:
    code = sitting.papers[0].code
    mark = HandMark(code=code, attempt=attempt, label="1a", marks=1, note="method seen")
    keep_given(entered, sitting.code, [mark], "appeal", by="R. Holt", source="x.xlsx", at=later(3))
    open_appeal(entered, code, 12, reason="2b was right", by="J. Marsh", day="2026-02-01", at=later(4))
    with reading(entered) as connection:
        told = [row[1:] for row in judged(connection, code)]
    assert told == [(what, "1 mark", "method seen"), ("appeal", "opened; 12 marks stood", "2b was right")]
