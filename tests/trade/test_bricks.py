"""Bricks for an area, against printed figures and worked examples."""

from fractions import Fraction

from courseware.trade import (
    Format,
    bricks_for_area,
    mortar_volume,
    order,
)

INCH = Fraction("25.4")


def test_bricks_for_an_area() -> None:
    """Source: brick-quantities; exactly 1/(0.225 × 0.075) and the site rule of 60 and 120."""
    assert bricks_for_area(1) == 1 / (Fraction("0.225") * Fraction("0.075"))
    assert (bricks_for_area(1, rate="site"), bricks_for_area(1, rate="site", thickness=1)) == (60, 120)


def test_round_up_once_at_the_end() -> None:
    """Arithmetic: 12.9045 m² at 60 and 5 % is 812.98, so 813; 2 m² is exactly 126, never 127."""
    assert order(bricks_for_area("12.9045", rate="site"), 5) == 813
    assert order(bricks_for_area(2, rate="site"), 5) == 126


def test_navedtra_brick_estimate() -> None:
    """Source: navedtra-14045: 6.16 bricks a square foot, 690 bricks, mortar 11.7 cubic feet per 1000."""
    standard = Format("US standard", 8 * INCH, Fraction(15, 4) * INCH, Fraction(9, 4) * INCH, INCH / 2, INCH / 2)
    square_foot = Fraction("0.3048") ** 2
    assert round(bricks_for_area(square_foot, standard), 2) == Fraction("6.16")
    assert order(bricks_for_area(112 * square_foot, standard)) == 690
    mortar = 1000 * mortar_volume(1, standard) / bricks_for_area(1, standard)
    assert round(mortar / Fraction("0.3048") ** 3, 1) == Fraction("11.7")
