"""How far a figure found in a few learners may be from the truth: 95 % intervals, each by a published rule."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atanh, fsum, sqrt, tanh
from statistics import NormalDist

from courseware.statistics.f_distribution import f_quantile

LEVEL = 0.95
_TAIL = (1 - LEVEL) / 2
Z = NormalDist().inv_cdf(1 - _TAIL)  # 1.96


@dataclass(frozen=True, slots=True, kw_only=True)
class Interval:
    """From `low` to `high`."""

    low: float
    high: float

    def apart(self, other: Interval) -> bool:
        """Whether the two have no figure in common."""
        return self.high < other.low or other.high < self.low


@dataclass(frozen=True, slots=True, kw_only=True)
class Index:
    """A figure, in how many it was found, and its 95 % interval where there is one."""

    value: float
    n: int
    interval: Interval | None


def wilson(share: float, n: int) -> Interval | None:
    """Wilson's score interval for a `share` found in `n` learners; None without learners.

    Exact in Wilson's sense for parts that are right or wrong. Of a part with more marks the share is the mean of marks
    over most marks and the interval an approximation, never too narrow by that: marks between 0 and 1 spread
    no wider than right-or-wrong ones of the same mean. Source: wilson-interval.
    """
    if n < 1:
        return None
    square = Z * Z / n
    middle = (share + square / 2) / (1 + square)
    reach = Z * sqrt(share * (1 - share) / n + square / (4 * n)) / (1 + square)
    return Interval(
        low=max(0.0, middle - reach) if share > 0 else 0.0, high=min(1.0, middle + reach) if share < 1 else 1.0
    )


def newcombe(first: float, second: float, n: int) -> Interval | None:
    """The interval of `first − second`, two shares found in `n` learners each; None without learners.

    Newcombe's hybrid of two Wilson intervals (his method 10). Source: newcombe-difference.
    """
    one, other = wilson(first, n), wilson(second, n)
    if one is None or other is None:
        return None
    down = sqrt((first - one.low) ** 2 + (other.high - second) ** 2)
    up = sqrt((one.high - first) ** 2 + (second - other.low) ** 2)
    return Interval(low=first - second - down, high=first - second + up)


def fisher(correlation: float, n: int) -> Interval | None:
    """Fisher's interval of a correlation in `n` learners; None for fewer than four, or where they lie on one line.

    Made for measured figures; with marks it is an approximation. Source: fisher-z.
    """
    if n < 4 or abs(correlation) >= 1:
        return None
    reach = Z / sqrt(n - 3)
    return Interval(low=tanh(atanh(correlation) - reach), high=tanh(atanh(correlation) + reach))


def feldt(alpha: float, learners: int, parts: int) -> Interval | None:
    """Feldt's interval of alpha (and so of KR-20); None for fewer than two learners or two parts.

    (1 − α) / (1 − α found) follows F with n − 1 and (n − 1)(k − 1) degrees of freedom. Source: feldt-alpha.
    """
    if learners < 2 or parts < 2:
        return None
    above, below = learners - 1, (learners - 1) * (parts - 1)
    return Interval(
        low=1 - (1 - alpha) * f_quantile(1 - _TAIL, above, below),
        high=1 - (1 - alpha) * f_quantile(_TAIL, above, below),
    )


def mean_of(figures: Sequence[float]) -> Index | None:
    """The mean of figures, one a learner, with Student's interval; None without learners.

    No interval for fewer than two, or where all are alike: their spread then says nothing of other learners. t² with
    n − 1 degrees of freedom is F with 1 and n − 1. Source: iupac-confidence-limits.
    """
    n = len(figures)
    if not n:
        return None
    mean = fsum(figures) / n
    squares = fsum((figure - mean) ** 2 for figure in figures)
    if n < 2 or max(figures) == min(figures):
        return Index(value=mean, n=n, interval=None)
    reach = sqrt(f_quantile(LEVEL, 1, n - 1) * squares / (n - 1) / n)
    return Index(value=mean, n=n, interval=Interval(low=mean - reach, high=mean + reach))
