"""What a class's marks say of each part: how much of it was got, and whether it goes with the rest of the paper.

Marks are a row a learner, a column a part. Sums are whole numbers until the last step, so that the order of learners
cannot change a figure. Spread is over all learners (population variance, ÷ n) throughout.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from courseware.statistics.intervals import Index, fisher, newcombe, wilson

MarksTable = Sequence[Sequence[int]]
_END = Fraction(27, 100)  # of the class at either end


@dataclass(frozen=True, slots=True, kw_only=True)
class PartStatistics:
    """One part; None where a figure is undefined. `discrimination.n` is the size of each end of the class."""

    facility: Index | None
    discrimination: Index | None
    item_rest: Index | None


def part_statistics(marks: MarksTable, most: Sequence[int]) -> tuple[PartStatistics, ...]:
    """Every part, from the marks of each learner and the most that each part gives."""
    totals = [sum(row) for row in marks]
    columns = [[row[place] for row in marks] for place in range(len(most))]
    return tuple(
        PartStatistics(
            facility=facility(column, of),
            discrimination=discrimination(column, totals, of),
            item_rest=item_rest(column, totals),
        )
        for column, of in zip(columns, most, strict=True)
    )


def facility(part: Sequence[int], most: int) -> Index | None:
    """Σx / (N·max), the share of its marks that a part gave, with Wilson's interval.

    The interval is Wilson's own where a part is right or wrong; with more marks, an approximation (see `wilson`).
    None without learners or marks. Source: item-analysis.
    """
    n = len(part)
    if not n or not most:
        return None
    share = sum(part) / (n * most)
    return Index(value=share, n=n, interval=wilson(share, n))


def discrimination(part: Sequence[int], totals: Sequence[int], most: int) -> Index | None:
    """D = (ΣU − ΣL) / (n·max) on the top and bottom 27 % by total, n learners at each end, at least one.

    Where equal totals straddle a cut, each learner of the tie counts for the same fraction: the mean over all ways to
    break it. None for fewer than two learners or equal totals. The interval (Newcombe's) takes the two ends as drawn
    apart, which is a guide and no more. Source: item-analysis.
    """
    if len(part) < 2 or not most or len(set(totals)) < 2:
        return None
    n = max(1, int(_END * len(part) + Fraction(1, 2)))
    bottom = _end_sum(part, totals, n)
    top = _end_sum(part, [-total for total in totals], n)
    upper, lower = float(top / (n * most)), float(bottom / (n * most))
    return Index(value=float((top - bottom) / (n * most)), n=n, interval=newcombe(upper, lower, n))


def _end_sum(part: Sequence[int], totals: Sequence[int], n: int) -> Fraction:
    """What the `n` learners of the lowest totals got for the part, a tie at the cut counted by its mean."""
    cut = sorted(totals)[n - 1]
    below = [mark for mark, total in zip(part, totals, strict=True) if total < cut]
    tied = [mark for mark, total in zip(part, totals, strict=True) if total == cut]
    return sum(below) + Fraction((n - len(below)) * sum(tied), len(tied))


def item_rest(part: Sequence[int], totals: Sequence[int]) -> Index | None:
    """The correlation of a part with the rest of the paper (the total without it), with Fisher's interval.

    None where the part or the rest does not vary. Source: item-analysis.
    """
    rest = [total - mark for mark, total in zip(part, totals, strict=True)]
    spreads = _covered(part, part) * _covered(rest, rest)
    if not spreads:
        return None
    value = max(-1.0, min(1.0, _covered(part, rest) / sqrt(spreads)))
    return Index(value=value, n=len(part), interval=fisher(value, len(part)))


def _covered(one: Sequence[int], other: Sequence[int]) -> int:
    """n² times the covariance: whole, so exact."""
    return len(one) * sum(x * y for x, y in zip(one, other, strict=True)) - sum(one) * sum(other)


def variance(figures: Sequence[int]) -> Fraction:
    """The population variance, exactly. Raises `ValueError` without figures."""
    if not figures:
        raise ValueError("no figures to take the variance of")
    return Fraction(_covered(figures, figures), len(figures) ** 2)
