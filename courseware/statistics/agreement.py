"""How far two markers of the same scripts agree: the same mark, within one, on average, and beyond chance."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from courseware.statistics.intervals import Index, Interval, Z, wilson

Weight = Callable[[int, int], int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """Two markers over `n` marks; None where a figure is undefined."""

    n: int
    exact: Index | None  # share of marks given alike
    within_one: Index | None  # share of marks at most one apart
    mean_difference: float | None  # second marker's less the first's, in marks
    kappa: Index | None
    kappa_linear: Index | None
    kappa_quadratic: Index | None


def agreement(first: Sequence[int], second: Sequence[int]) -> Agreement:
    """How two markers agree on the same marks, pair by pair. Raises `ValueError` where one has more than the other."""
    if len(first) != len(second):
        raise ValueError(f"one marker has {len(first)} marks, the other {len(second)}")
    apart = [b - a for a, b in zip(first, second, strict=True)]
    return Agreement(
        n=len(apart),
        exact=_share([d == 0 for d in apart]),
        within_one=_share([abs(d) <= 1 for d in apart]),
        mean_difference=sum(apart) / len(apart) if apart else None,
        kappa=kappa(first, second),
        kappa_linear=kappa(first, second, linear),
        kappa_quadratic=kappa(first, second, quadratic),
    )


def unlike(a: int, b: int) -> int:
    """Any two unlike marks count as equally far apart: plain kappa."""
    return int(a != b)


def linear(a: int, b: int) -> int:
    """Two marks count as far apart as they are."""
    return abs(a - b)


def quadratic(a: int, b: int) -> int:
    """Two marks count as the square of how far they are apart: large differences weigh most."""
    return (a - b) ** 2


def kappa(first: Sequence[int], second: Sequence[int], weight: Weight = unlike) -> Index | None:
    """Cohen's kappa, (po − pe)/(1 − pe), or weighted: one less the disagreement found over that by chance alone.

    None without marks, or where chance alone would bring no disagreement (both gave one and the same mark throughout).
    The interval is the large-sample one, made for many marks; None where agreement is complete.
    Sources: cohen-kappa, kappa-standard-error.
    """
    left, right = Counter(first), Counter(second)
    found = sum(weight(a, b) for a, b in zip(first, second, strict=True)) * len(first)
    by_chance = sum(weight(a, b) * m * n for a, m in left.items() for b, n in right.items())
    if not by_chance:
        return None
    value = 1 - Fraction(found, by_chance)
    reach = Z * _standard_error(first, second, weight, value)
    interval = Interval(low=float(value) - reach, high=min(1.0, float(value) + reach)) if reach else None
    return Index(value=float(value), n=len(first), interval=interval)


def _standard_error(first: Sequence[int], second: Sequence[int], weight: Weight, value: Fraction) -> float:
    """The standard error of kappa, in disagreement weights: the spread of each pair's part in it, over √n times pe."""
    n, left, right = len(first), Counter(first), Counter(second)
    across = {a: Fraction(sum(weight(a, b) * m for b, m in right.items()), n) for a in left}
    down = {b: Fraction(sum(weight(a, b) * m for a, m in left.items()), n) for b in right}
    by_chance = sum(across[a] * m for a, m in left.items()) / n
    shares = [weight(a, b) - (1 - value) * (across[a] + down[b]) for a, b in zip(first, second, strict=True)]
    spread = sum(share * share for share in shares) / n - (sum(shares) / n) ** 2
    return sqrt(spread / n) / float(by_chance)


def _share(alike: Sequence[bool]) -> Index | None:
    n = len(alike)
    return Index(value=sum(alike) / n, n=n, interval=wilson(sum(alike) / n, n)) if n else None
