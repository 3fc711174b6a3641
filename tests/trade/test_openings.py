"""Openings, returned lengths and piers against the printed tables."""

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import (
    AUSTRALIAN,
    GERMAN_NF,
    UK_METRIC,
    US_MODULAR,
    opening,
    pier,
    returned,
)
from courseware.trade.errors import in_bricks, in_courses
from courseware.trade.gauge import gauge_rod
from courseware.trade.sight import from_eye
from courseware.trade.wall import wall_thickness
from courseware.trade.workable import workable_piers, workable_returned

AUTHORITIES = Path(__file__).parents[1] / "authorities"


# bricks: opening / returned / pier, as printed
SHEET_9 = """
0.5: 122.5/112.5/102.5 · 1: 235/225/215 · 1.5: 347.5/337.5/327.5 · 2: 460/450/440 ·
2.5: 572.5/562.5/552.5 · 3: 685/675/665 · 3.5: 797.5/787.5/777.5 · 4: 910/900/890 · 4.5: 1022.5/1012.5/1002.5 ·
5: 1135/1125/1115 · 5.5: 1247.5/1237.5/1227.5 · 6: 1360/1350/1340 · 34: 7660/7650/7640 · 34.5: 7772.5/7762.5/7752.5 ·
35: 7885/7875/7865 · 35.5: 7997.5/7987.5/7977.5 · 36: 8110/8100/8090 · 36.5: 8222.5/8212.5/8202.5 ·
37: 8335/8325/8315 · 37.5: 8447.5/8437.5/8427.5 · 38: 8560/8550/8540 · 38.5: 8672.5/8662.5/8652.5 ·
39: 8785/8775/8765 · 67.5: 15197.5/15187.5/15177.5 · 68: 15310/15300/15290 · 68.5: 15422.5/15412.5/15402.5 ·
69: 15535/15525/15515 · 69.5: 15647.5/15637.5/15627.5 · 70: 15760/15750/15740 · 70.5: 15872.5/15862.5/15852.5 ·
71: 15985/15975/15965 · 71.5: 16097.5/16087.5/16077.5 · 72: 16210/16200/16190
"""


DIN_SAMPLE = """
1.00/1.01/0.99 · 1.125/1.135/1.115 · 1.25/1.26/1.24 · 1.50/1.51/1.49 · 1.625/1.635/1.615 · 1.75/1.76/1.74 ·
1.875/1.885/1.865 · 2.00/2.01/1.99
"""


def rows(text: str) -> list[list[str]]:
    return [row.replace(":", "/").replace(" ", "").split("/") for row in text.replace("\n", " ").split("·")]


@pytest.mark.parametrize(("bricks", "wide", "to_return", "pier_long"), rows(SHEET_9))
def test_sheet_9_table_1(bricks: str, wide: str, to_return: str, pier_long: str) -> None:
    """Source: sheet-9, Table 1."""
    assert (opening(bricks), returned(bricks), pier(bricks)) == tuple(map(Fraction, (wide, to_return, pier_long)))


@pytest.mark.parametrize(("grid", "clear", "outside"), rows(DIN_SAMPLE))
def test_german_octametric_order(grid: str, clear: str, outside: str) -> None:
    """Source: din-4172, printed sample, in m."""
    bricks = Fraction(grid) * 1000 / 250
    assert opening(bricks, GERMAN_NF) == Fraction(clear) * 1000
    assert pier(bricks, GERMAN_NF) == Fraction(outside) * 1000


@pytest.mark.parametrize(("bricks", "length"), [("1.5", 350), ("2", 470), ("2.5", 590), ("25", 5990)])
def test_australian_lengths(bricks: str, length: int) -> None:
    """Source: australian-charts."""
    assert pier(bricks, AUSTRALIAN) == length


@pytest.mark.parametrize(("bricks", "width"), [("2", 490), ("3", 730), ("25", 6010)])
def test_australian_openings(bricks: str, width: int) -> None:
    """Source: australian-charts."""
    assert opening(bricks, AUSTRALIAN) == width


def test_three_us_modular_bricks_are_23_and_five_eighths_inches() -> None:
    """Source: a maker's catalogue."""
    assert pier(3, US_MODULAR) / Fraction("25.4") == 23 + Fraction(5, 8)


halves = st.integers(1, 400).map(lambda n: Fraction(n, 2))


@given(halves, halves)
def test_two_piers_and_the_joint_between_make_one_pier(a: Fraction, b: Fraction) -> None:
    assert pier(a) + UK_METRIC.perpend + pier(b) == pier(a + b)


@pytest.mark.parametrize(
    ("bricks", "mm", "said"),
    [
        ("1/2", "102.5", "half a brick"),
        (1, 215, "1 brick"),
        ("3/2", "327.5", "1½ bricks"),  # 215 + 10 + 102.5
        (2, 440, "2 bricks"),
        ("5/2", "552.5", "2½ bricks"),
    ],
)
def test_a_wall_is_as_thick_as_its_bricks_and_the_joints_between(bricks: object, mm: object, said: str) -> None:
    """Geometry, of UK metric bricks."""
    assert wall_thickness(bricks) == Fraction(mm)
    assert in_bricks(Fraction(bricks)) == said


def test_sizes_either_side_of_a_returned_length_and_of_a_pier() -> None:
    """Source: sheet-9, Table 1: 4 and 4½ bricks."""
    assert workable_returned(950) == (900, Fraction("1012.5"))
    assert workable_piers(950) == (890, Fraction("1002.5"))
    assert workable_returned(900) == (900, 900)
    assert workable_piers(890) == (890, 890)


def test_a_gauge_rod_has_a_mark_for_each_course() -> None:
    assert gauge_rod(4) == (75, 150, 225, 300)  # sheet-9: 75 mm a course
    assert [in_courses(count) for count in (1, 2)] == ["1 course", "2 courses"]


@pytest.mark.parametrize(("course", "above"), [(24, 150), (22, 0), (20, -150)])
def test_a_course_above_or_below_the_eye(course: int, above: int) -> None:
    """24 × 75 = 1800, against an eye at 1650."""
    assert from_eye(course, 1650) == above


def test_every_source_named_here_is_kept() -> None:
    for name in ("sheet-9", "din-4172", "australian-charts", "livery-glossary", "navedtra-14045", "brick-quantities"):
        assert (AUTHORITIES / f"{name}.txt").is_file()
