"""What scale a drawing is made at: the largest usual drawing scale at which it fits its room on the page."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from fractions import Fraction

# 1 to each of these: ISO 5455 (5, 10, 20, 50, 100, 200) and the steps between that scale rules carry (common
# practice, no source).
SCALES = (5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200, 250, 300, 400, 500, 1000)

_SHARE: ContextVar[float] = ContextVar("share", default=1.0)  # of the room that a drawing asks for


@contextmanager
def in_a_share_of_its_room(share: float) -> Iterator[None]:
    """Has whatever is drawn within it fit so much of the room it asks for: a smaller scale, words and boxes as ever."""
    kept = _SHARE.set(share)
    try:
        yield
    finally:
        _SHARE.reset(kept)


def one_to(
    wide: Fraction | float,
    high: Fraction | float,
    room: tuple[float, float],
    least: int = 5,
    share: float | None = None,
) -> int:
    """The n of a scale of 1 to n at which `wide` by `high` mm of brickwork fit a room of that many mm of paper.

    No scale is larger than 1 to `least`, so that small pieces are not blown up. The room is the share of it that the
    drawing is made in, unless a drawing that needs more gives its own `share`. Raises `ValueError` for brickwork that
    fits at no usual scale, which the limits of `courseware.banks.drawing_kinds` do not let through.

    >>> one_to(1800, 1200, (140, 80))
    15
    """
    share = _SHARE.get() if share is None else share
    for n in SCALES:
        if n >= least and wide <= room[0] * share * n and high <= room[1] * share * n:
            return n
    size = " by ".join(f"{share * side:g}" for side in room)
    raise ValueError(f"{float(wide):g} by {float(high):g} mm fits no usual scale on {size} mm")
