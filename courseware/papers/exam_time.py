"""About how long a learner needs: as many minutes to a mark as school examinations in mathematics give."""

from __future__ import annotations

from math import ceil

_MINUTES, _MARKS = 90, 80  # GCSE Mathematics: a paper of 80 marks takes 1 hour and 30 minutes


def about_minutes(marks: int, extra_time: int = 0) -> int:
    """Minutes for so many marks, with so many per cent of extra time, made up to whole ones: a rough count.

    >>> about_minutes(80), about_minutes(80, 25), about_minutes(1)
    (90, 113, 2)
    """
    return ceil(marks * _MINUTES * (100 + extra_time) / (_MARKS * 100))
