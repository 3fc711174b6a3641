"""Where the F distribution has a given share below it: all that the interval of a reliability needs of it."""

from __future__ import annotations

from math import exp, lgamma, log

_TINY = 1e-300  # keeps a nought out of a denominator
_CLOSE = 1e-15
_TURNS = 10_000  # the fraction closes within about the square root of the larger degree of freedom


def f_quantile(share: float, above: int, below: int) -> float:
    """The value that an F with `above` and `below` degrees of freedom stays under with probability `share`.

    F = below·b / (above·(1 − b)), where b has the beta distribution of half those degrees of freedom; b is found by
    halving the interval down to neighbouring floats. Source: f-distribution.
    """
    if not 0 < share < 1 or above < 1 or below < 1:
        raise ValueError(f"no F quantile at {share} with {above} and {below} degrees of freedom")
    if share > 0.5:  # turned upside down, so that b does not come near 1, where a float has few digits left
        return 1 / f_quantile(1 - share, below, above)
    low, high = 0.0, 1.0
    while low < (middle := (low + high) / 2) < high:
        if beta_share(middle, above / 2, below / 2) < share:
            low = middle
        else:
            high = middle
    return below * high / (above * (1 - high))


def beta_share(x: float, a: float, b: float) -> float:
    """The share of a beta distribution of `a` and `b` below `x` (the regularised incomplete beta function)."""
    if x <= 0 or x >= 1:
        return float(x >= 1)
    if x > (a + 1) / (a + b + 2):  # the fraction closes fast on the other side only
        return 1 - beta_share(1 - x, b, a)
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log(1 - x))
    return front * _fraction(x, a, b) / a


def _fraction(x: float, a: float, b: float) -> float:
    """The continued fraction of the incomplete beta function, from the top down (Lentz's way)."""
    ahead, behind = 1.0, 1 / _kept(1 - (a + b) * x / (a + 1))
    value = behind
    for turn in range(1, _TURNS):
        even = turn * (b - turn) * x / ((a + 2 * turn - 1) * (a + 2 * turn))
        odd = -(a + turn) * (a + b + turn) * x / ((a + 2 * turn) * (a + 2 * turn + 1))
        for step in (even, odd):
            behind = 1 / _kept(1 + step * behind)
            ahead = _kept(1 + step / ahead)
            value *= ahead * behind
        if abs(ahead * behind - 1) < _CLOSE:
            break
    return value


def _kept(value: float) -> float:
    return value if abs(value) > _TINY else _TINY
