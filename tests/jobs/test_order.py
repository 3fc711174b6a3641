"""The stores' order against orders worked out by hand."""

from __future__ import annotations

import pytest

from courseware.jobs.order import half_bats, order_rows
from tests.jobs.a_panel import job


def test_one_bay_is_ordered_with_its_own_waste_and_its_half_bats_are_cuts() -> None:
    """Half bats of the job above by hand, 24 courses, of which 15 beside the opening, two bricks to each side of it.

    Odd courses of the straight wall start on a whole brick and have none. The 12 others have one at each end; the seven
    of them beside the opening have two more at its reveals: 24 + 14 = 38. A return of two bricks takes the 24 at the
    ends away, since its whole brick turns there, and ends on a half bat in each of the other 12 courses, at both ends:
    24 more, 38 in all, so 19 bricks are cut for them. The surround: 25 bricks halved, 8 mitres, 4 corners trimmed: 37.
    """
    lines = {what: (one, all_bays) for what, one, all_bays, _ in order_rows(job())}
    assert lines["Bricks to order, 10 % waste, rounded up once"] == (292, 875)
    assert lines["  half bats in them both, two to a brick"] == (38, 114)
    assert lines["Cuts, those for half bats among them"] == (37 + 19, 3 * (37 + 19))


@pytest.mark.parametrize(
    ("support", "halves"),
    [
        # 25 courses: one more that starts on a whole brick. A straight wall has no half bat in it, a return two, a pier none.
        ("returns", 40), ("piers", 38), ("props", 38),
    ],
)  # fmt: skip
def test_half_bats_go_by_what_turns_at_the_ends(support: str, halves: int) -> None:
    plan = job(("courses: 24", "courses: 25"), ("support: returns", f"support: {support}"))
    assert half_bats(plan) == halves


def test_cuts_for_the_class_are_rounded_up_once() -> None:
    """In a wall of 8½ bricks each of 25 courses has a half bat at one end, and two more at the reveals.

    Beside the opening lie 2 bricks to the left and 2½ to the right: in odd courses the right part ends on a half bat, in
    the others both parts have halves. What matters here: an odd number for a bay is not rounded up for each bay.
    """
    plan = job(
        ("wall: {bricks: 8, courses: 24", "wall: {bricks: 8.5, courses: 25"), ("support: returns", "support: props")
    )
    halves, of_surround = half_bats(plan), plan.surround.cuts
    assert halves % 2 == 1
    cut = {what: (one, all_bays) for what, one, all_bays, _ in order_rows(plan)}["Cuts, those for half bats among them"]
    assert cut == (of_surround + (halves + 1) // 2, 3 * of_surround + (3 * halves + 1) // 2)
    assert cut[1] < 3 * cut[0]


def test_props_are_in_the_order() -> None:
    """One to each side of both ends, four to a bay."""
    rows = {what: (one, all_bays) for what, one, all_bays, _ in order_rows(job(("support: returns", "support: props")))}
    assert rows["Raking props, each with its board"] == (4, 12)
    assert not any("props" in what.lower() for what, *_ in order_rows(job()))
