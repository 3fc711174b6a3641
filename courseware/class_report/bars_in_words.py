"""The class picture's charts as lines of words with a bar each, for a screen too narrow for the charts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from courseware.class_report.figures import OutcomeFigures
from courseware.class_report.misconceptions import Misconception
from courseware.class_report.report import outcome_words
from courseware.class_report.slip_bars import capital, counted
from courseware.reports.words import share
from courseware.words import count

_BANDS = 10  # lines of the spread at most


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A line: what it is about, its figure in words, and how long its bar is, 0 to 1 (none: it has no figure)."""

    words: str
    figure: str
    part: float | None


def slips_in_words(found: Sequence[Misconception]) -> tuple[Bar, ...]:
    """What went wrong, each as long as it was seen, certain or not, against the one seen most."""
    most = max((one.times + len(one.perhaps) for one in found), default=1)
    return tuple(
        Bar(words=capital(one.words), figure=counted(one), part=(one.times + len(one.perhaps)) / most) for one in found
    )


def spread_in_words(totals: Sequence[int], of: int) -> tuple[Bar, ...]:
    """How many papers got how many marks, in bands of equal width where single marks would be too many lines.

    >>> [(one.words, one.figure) for one in spread_in_words((2, 3, 3), 3)]
    [('0 of 3', 'none'), ('1 of 3', 'none'), ('2 of 3', '1 paper'), ('3 of 3', '2 papers')]
    """
    wide = -(-(of + 1) // _BANDS)
    columns = Counter(total // wide for total in totals)
    most = max(columns.values(), default=1)
    return tuple(
        Bar(
            words=f"{_band(first, min(first + wide - 1, of))} of {of}",
            figure=count(columns[first // wide], "paper") if columns[first // wide] else "none",
            part=columns[first // wide] / most,
        )
        for first in range(0, of + 1, wide)
    )


def outcomes_in_words(outcomes: Sequence[OutcomeFigures], questions: Mapping[str, str]) -> tuple[Bar, ...]:
    """The share of its marks that the class got of each exercise, with where that likely lies."""
    return tuple(
        Bar(
            words=outcome_words(one, questions),
            figure=share(one.facility),
            part=one.facility.value if one.facility else None,
        )
        for one in outcomes
    )


def _band(first: int, last: int) -> str:
    return str(first) if first == last else f"{first} to {last}"
