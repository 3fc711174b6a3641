"""An opening measured on site, and the brickwork nearest to it: sizes by Technical Information Sheet 9.

That a surround needs whole bricks, and a weave courses in threes, is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.jobs.near_sizes import heights_near, widths_near
from courseware.trade import AUSTRALIAN, UK_METRIC


@pytest.mark.parametrize(
    ("width", "near", "source"),
    [
        ("900", [(3, "685", "-215"), (4, "910", "10")], "Sheet 9, Table 1, CO + Joint, rows 3 and 4"),
        ("910", [(4, "910", "0")], "Sheet 9, Table 1, CO + Joint, row 4"),
        ("910.5", [(4, "910", "-0.5"), (5, "1135", "224.5")], "Sheet 9, Table 1, CO + Joint, rows 4 and 5"),
        ("100", [(2, "460", "360")], "Sheet 9, Table 1, CO + Joint, row 2"),
    ],
)
def test_the_nearest_widths_of_whole_bricks(width: str, near: list, source: str) -> None:
    found = widths_near(Fraction(width), UK_METRIC)
    assert [(one.count, one.size, one.more) for one in found] == [(n, Fraction(a), Fraction(b)) for n, a, b in near], (
        source
    )


def test_the_nearest_heights_in_which_the_weave_closes() -> None:
    """Courses of 75 mm and a bed: 12 are 910 mm and 15 are 1135 mm, Sheet 9."""
    assert [(one.count, one.size) for one in heights_near(Fraction(1000), UK_METRIC)] == [(12, 910), (15, 1135)]
    assert [one.count for one in heights_near(Fraction(10_000), UK_METRIC)] == [60]


def test_a_format_in_which_nothing_closes_has_none() -> None:
    assert widths_near(Fraction(900), AUSTRALIAN) == heights_near(Fraction(900), AUSTRALIAN) == ()
