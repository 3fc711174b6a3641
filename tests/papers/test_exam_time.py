"""Minutes to a mark."""

from __future__ import annotations

import pytest

from courseware.papers.exam_time import about_minutes

SOURCE = "gcse-time.txt, p. 21: 80 marks in 1 hour and 30 minutes"


@pytest.mark.parametrize(
    ("marks", "extra", "minutes"), [(80, 0, 90), (40, 0, 45), (8, 0, 9), (7, 0, 8), (80, 25, 113), (0, 0, 0)]
)
def test_a_mark_has_the_minutes_that_a_public_examination_gives_it(marks: int, extra: int, minutes: int) -> None:
    assert about_minutes(marks, extra) == minutes, SOURCE
