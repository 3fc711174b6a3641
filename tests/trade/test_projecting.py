"""How far courses may stand out: at each limit allowed, beyond it refused with the most that is allowed.

The limits differ between authorities: 56 mm, Ontario's and the US limit as in `authorities/projecting-courses.txt`; the wall's
thickness in all and 30 mm for an oversailing course are common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.trade import GERMAN_NF, PROJECTION_LIMITS, UK_METRIC, US_MODULAR, TradeError, check_projection
from courseware.trade.projecting import named_limit


@pytest.mark.parametrize(
    ("limit", "format", "most"),
    [
        ("uk_corbel", UK_METRIC, "56"),  # the livery glossary
        ("uk_oversail", UK_METRIC, "30"),  # common practice, no source
        ("us_corbel", UK_METRIC, "32.5"),  # R606.5.2: half of 65; a third of 102.5 is more
        ("us_corbel", GERMAN_NF, "35.5"),  # half of 71; a third of 115 is more
        ("ontario_corbel", UK_METRIC, "25"),  # Ontario Regulation 332/12
    ],
)
def test_a_course_may_stand_out_as_far_as_the_limit_and_no_further(limit, format, most) -> None:
    far = Fraction(most)
    assert check_projection(far, format, limit=limit) == far
    with pytest.raises(TradeError, match=f"too much: {named_limit(limit).name} allows {most} mm"):
        check_projection(far + Fraction(1, 10), format, limit=limit)


def test_a_third_of_the_depth_holds_where_it_is_less_than_half_the_height() -> None:
    """R606.5.2: of a tall unit the depth is the lesser."""
    tall = replace(US_MODULAR, name="tall", height=Fraction(100), width=Fraction(90))
    assert check_projection(30, tall, limit="us_corbel") == 30
    with pytest.raises(TradeError, match="allows 30 mm"):
        check_projection("30.1", tall, limit="us_corbel")


@pytest.mark.parametrize(
    ("limit", "courses", "thickness", "most"),
    [
        # common practice, no source: the wall's thickness in all; half a brick is 102.5 mm, one brick 215 mm, 1½ bricks 327.5 mm
        ("uk_corbel", 2, "1/2", Fraction("51.25")),
        ("uk_corbel", 4, 1, Fraction("53.75")),
        ("uk_corbel", 6, "3/2", Fraction("54.58")),
        # Ontario Regulation 332/12: a third of the wall in all
        ("ontario_corbel", 2, "1/2", Fraction("17.08")),
        ("ontario_corbel", 3, 1, Fraction("23.88")),
    ],
)
def test_all_courses_together_have_their_limit_by_the_walls_thickness(limit, courses, thickness, most) -> None:
    assert check_projection(most, limit=limit, courses=courses, thickness=thickness) == courses * most
    with pytest.raises(TradeError, match=f"^{courses} courses of .* mm together, too much"):
        check_projection(most + Fraction(1, 10), limit=limit, courses=courses, thickness=thickness)


@given(st.integers(1, 30), st.integers(1, 12))
def test_a_limit_without_a_figure_for_all_together_lets_any_number_of_courses_stand(mm, courses) -> None:
    assert check_projection(mm, limit="uk_oversail", courses=courses) == mm * courses


@pytest.mark.parametrize("limit", ["uk_oversail", "us_corbel"])
def test_a_reach_that_a_source_does_not_state_is_not_made_up(limit) -> None:
    with pytest.raises(TradeError, match="states no projection in all"):
        named_limit(limit).total()


@pytest.mark.parametrize("mm", [0, -1])
def test_what_does_not_stand_out_is_no_projection(mm) -> None:
    with pytest.raises(TradeError, match=f"a projection of {mm} mm does not stand out"):
        check_projection(mm)


def test_an_unknown_limit_is_told_with_those_there_are() -> None:
    with pytest.raises(TradeError) as told:
        named_limit("none")
    assert str(told.value) == (
        "no limit on a projection is called 'none': use uk_corbel, uk_oversail, us_corbel, ontario_corbel"
    )


@pytest.mark.parametrize("limit", PROJECTION_LIMITS.values(), ids=list(PROJECTION_LIMITS))
def test_every_limit_names_its_source(limit) -> None:
    assert limit.source
