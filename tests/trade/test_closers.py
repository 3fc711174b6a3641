"""The queen closer, against the glossary."""

from fractions import Fraction

from courseware.trade import (
    queen_closer,
)


def test_queen_closer() -> None:
    """Source: livery-glossary."""
    assert queen_closer() == Fraction("46.25")
