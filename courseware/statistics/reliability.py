"""How steady the total of a paper is: its mean and spread, alpha, KR-20 and the standard error of a mark.

Spread is over all learners (population variance, ÷ n) throughout, in alpha, KR-20 and SEM alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from courseware.statistics.intervals import Interval, feldt
from courseware.statistics.item_statistics import MarksTable, variance


@dataclass(frozen=True, slots=True, kw_only=True)
class Reliability:
    """The whole paper in `n` learners and `parts` parts; None where a figure is undefined."""

    n: int
    parts: int
    mean: float | None
    sd: float | None
    alpha: float | None
    kr20: float | None  # only where every part is right or wrong
    interval: Interval | None  # of alpha, and of KR-20, which is then the same
    sem: float | None  # SD·√(1 − alpha), in marks
    sem_interval: Interval | None  # from alpha's interval, the SD taken as found


def reliability(marks: MarksTable, most: Sequence[int]) -> Reliability:
    """The figures of the whole paper, from the marks of each learner and the most that each part gives."""
    totals = [sum(row) for row in marks]
    n, parts = len(marks), len(most)
    alpha = cronbach_alpha(marks, most)
    sd = sqrt(variance(totals)) if n > 1 else None
    interval = feldt(alpha, n, parts) if alpha is not None else None
    return Reliability(
        n=n,
        parts=parts,
        mean=sum(totals) / n if n else None,
        sd=sd,
        alpha=alpha,
        kr20=kr_20(marks, most),
        interval=interval,
        sem=_sem(sd, alpha),
        sem_interval=_sems(sd, interval),
    )


def cronbach_alpha(marks: MarksTable, most: Sequence[int]) -> float | None:
    """Cronbach's alpha, k/(k − 1)·(1 − Σs²/s_T²).

    None for fewer than two learners or parts, or where all totals are equal. Source: item-analysis.
    """
    k, whole = len(most), _of_totals(marks)
    if k < 2 or not whole:
        return None
    of_parts = sum(variance([row[place] for row in marks]) for place in range(k))
    return float(Fraction(k, k - 1) * (1 - of_parts / whole))


def kr_20(marks: MarksTable, most: Sequence[int]) -> float | None:
    """Kuder and Richardson's formula 20, k/(k − 1)·(1 − Σpq/σ²).

    None as alpha is, and where a part has more than one mark. Source: item-analysis.
    """
    k, whole = len(most), _of_totals(marks)
    if k < 2 or not whole or any(of != 1 for of in most):
        return None
    shares = [Fraction(sum(row[place] for row in marks), len(marks)) for place in range(k)]
    return float(Fraction(k, k - 1) * (1 - sum(p * (1 - p) for p in shares) / whole))


def _of_totals(marks: MarksTable) -> Fraction:
    return variance([sum(row) for row in marks]) if len(marks) > 1 else Fraction(0)


def _sem(sd: float | None, alpha: float | None) -> float | None:
    return sd * sqrt(max(0.0, 1 - alpha)) if sd is not None and alpha is not None else None


def _sems(sd: float | None, interval: Interval | None) -> Interval | None:
    if sd is None or interval is None:
        return None
    return Interval(low=sd * sqrt(max(0.0, 1 - interval.high)), high=sd * sqrt(max(0.0, 1 - interval.low)))
