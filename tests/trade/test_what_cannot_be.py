"""What cannot be built, ordered or mixed is refused in words; what lies right at the limit is not.

Sizes are those of UK metric bricks: 215 × 102.5 × 65 mm with joints of 10 mm, so 225 a brick and 75 a course.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from courseware.trade import GERMAN_NF, UK_METRIC, Format, TradeError
from courseware.trade.arches import segmental_radius
from courseware.trade.batching import batch, parts_of
from courseware.trade.bricks import bricks_for_area, order
from courseware.trade.closers import queen_closer
from courseware.trade.decorative import dog_tooth, pieces_in, run_of, stack_bond
from courseware.trade.exact import whole
from courseware.trade.gauge import courses_in, courses_to_reach, whole_courses
from courseware.trade.herringbone import herringbone
from courseware.trade.mortar import mortar_volume
from courseware.trade.projecting import check_projection
from courseware.trade.regauging import regauge
from courseware.trade.sight import angle_of_sight, arris_to_level
from courseware.trade.squaring import diagonal
from courseware.trade.wall import wall_area_m2
from courseware.trade.weave import basket_weave
from courseware.trade.workable import (
    bricks_in_opening,
    bricks_in_pier,
    bricks_in_returned,
    is_workable_opening,
    workable_openings,
)

ABOVE_0 = "must be above 0"


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        # courses and beds
        (lambda: whole_courses("0.5"), "0.5 courses cannot be laid: courses are whole, and the least is 1 course"),
        (lambda: whole_courses(0), "and the least is 1 course"),
        (lambda: whole_courses("2.5"), "2.5 courses cannot be laid: courses are whole; the nearest are 2 and 3 courses"),
        (lambda: courses_to_reach(0), "a height of 0 mm takes no courses"),
        (lambda: courses_in(100), "the nearest are 75 mm (1 course) and 150 mm (2 courses)"),
        (lambda: courses_in(50), "the nearest is 75 mm (1 course)"),
        (lambda: courses_in(75, datum="top"), "no datum is called 'top'"),
        (lambda: regauge(0), "a height of 0 mm takes no courses"),
        (lambda: regauge(-75), "a height of -75 mm takes no courses"),
        (lambda: regauge(64), "leaves no room for a bed: one brick alone is 65 mm high"),
        (lambda: regauge(780, courses=12), "the bricks alone are 780 mm; it takes 11 courses at most"),  # 12 × 65
        (lambda: regauge(1560, courses=12), "beds of 65 mm, as thick as the brick or thicker: it takes 13 courses at least"),
        (lambda: regauge(900, courses=12, least_bed="10.1"), "thinner than the least, 10.1 mm"),
        (lambda: regauge(900, courses=12, most_bed="9.9"), "thicker than the most, 9.9 mm"),
        # sight and squaring
        (lambda: arris_to_level(1800, 1650, rule="far"), "no rule for the arris is called 'far'"),
        (lambda: angle_of_sight(1, 0), "a distance of 0 mm gives no angle of sight"),
        (lambda: diagonal(0, 1), "0 mm by 1 mm has no diagonal"),
        (lambda: diagonal(1, 0), "1 mm by 0 mm has no diagonal"),
        (lambda: segmental_radius(0, 1), "is not an arch: both must be above 0"),
        (lambda: segmental_radius(1, 0), "is not an arch: both must be above 0"),
        (lambda: segmental_radius(1000, 501), "more than a half circle over a span of 1000 mm: the most is 500 mm"),
        # panels
        (lambda: stack_bond("2.5", 3), "stack bond has no half bricks: 2.5 bricks"),
        (lambda: pieces_in(0, 100, 10), "pieces 0 mm wide"),
        (lambda: pieces_in(10, 100, "9.9"), "pieces 10 mm wide cannot stand every 9.9 mm"),
        (lambda: run_of(65, "135.9"), "a length of 135.9 mm takes no run of pieces 65 mm wide"),  # 2 × 65 + 6
        (lambda: run_of(65, "144.1"), "2 leave joints of 14.1 mm"),
        (lambda: run_of(65, "206.9"), "3 leave joints of 5.95 mm"),
        (lambda: dog_tooth(900, joint=0), "a joint of 0 mm leaves no room for mortar"),
        (lambda: dog_tooth(144), "a length of 144 mm takes no tooth"),  # 102.5 × √2 = 144.96
        (lambda: herringbone(235, 235, angle=30), "herringbone at 30 degrees is not known"),
        (lambda: herringbone(234, 235), "takes no herringbone"),
        (lambda: herringbone(235, 234), "takes no herringbone"),
        (lambda: basket_weave(3, 9, starts="header"), "a bay of 'header' is not known"),
        (lambda: basket_weave(0, 9), "a panel 0 bricks wide cannot be woven: the least is 1 brick"),
        (lambda: basket_weave(3, 4), "courses go in threes; nearest: 3 and 6 courses"),
        (lambda: basket_weave(3, 2), "courses go in threes; nearest: 3 courses"),
        (lambda: bricks_in_opening(10), "an opening of 10 mm cannot be built: the smallest is 122.5 mm, half a brick"),
        (lambda: bricks_in_returned(0), "a returned end of 0 mm cannot be built: the smallest is 112.5 mm, half a brick"),
        (lambda: bricks_in_pier(-10), "a pier of -10 mm cannot be built: the smallest is 102.5 mm, half a brick"),
        (lambda: workable_openings("122.4"), "the smallest is 122.5 mm, half a brick"),
        # walls, bricks, mortar
        (lambda: wall_area_m2(0, 1), "a wall 0 mm by 1 mm cannot be built"),
        (lambda: wall_area_m2(1, 0), "a wall 1 mm by 0 mm cannot be built"),
        (lambda: wall_area_m2(2000, 1000, [(0, 1)]), "an opening 0 mm by 1 mm cannot be built"),
        (lambda: wall_area_m2(2000, 1000, [(1, 0)]), "an opening 1 mm by 0 mm cannot be built"),
        (lambda: wall_area_m2(2000, 1000, [(2001, 1)]), "an opening 2001 mm by 1 mm is larger than its wall"),
        (lambda: wall_area_m2(2000, 1000, [(1, 1001)]), "an opening 1 mm by 1001 mm is larger than its wall"),
        (lambda: wall_area_m2(2000, 1000, [(1000, 1000), (1000, 1000)]), "the openings together leave nothing"),
        (lambda: bricks_for_area(0), "an area of 0 m² takes no bricks"),
        (lambda: bricks_for_area(1, rate="trade"), "no rate is called 'trade'"),
        (lambda: bricks_for_area(1, GERMAN_NF, rate="site"), f"there is no site rate for {GERMAN_NF.name} bricks"),
        (lambda: bricks_for_area(1, rate="site", thickness="1.5"), "there is no site rate for a wall of 1½ bricks"),
        (lambda: order(0), "a quantity of 0 is nothing to order"),
        (lambda: order(1, pack=0), "a pack of 0 cannot be ordered"),
        (lambda: order(1, waste_percent=-1), "waste of -1 per cent cannot be allowed"),
        (lambda: whole("1.5", what="packs are whole"), "1.5 will not do: packs are whole"),
        (lambda: mortar_volume(1, frog_percent=100), "frogs of 100 per cent"),
        (lambda: mortar_volume(1, frog_percent=-1), "frogs of -1 per cent"),
        (lambda: batch(0), f"a volume of 0 makes no mortar: it {ABOVE_0}"),
        (lambda: batch(1, dry_factor="0.9"), "a dry factor of 0.9 cannot be"),
        (lambda: batch(1, cement_density=0), f"a density of cement of 0 makes no mortar: it {ABOVE_0}"),
        (lambda: batch(1, sand_density=0), f"a density of sand of 0 makes no mortar: it {ABOVE_0}"),
        (lambda: batch(1, bag_kg=0), f"a bag's mass of 0 makes no mortar: it {ABOVE_0}"),
        *((lambda mix=mix: parts_of(mix), f"{mix!r} is not a mix")
          for mix in ("5", "0:5", "1:0", "1:-1:6", "1:1:0", "1:1:6:1", "one to five", "")),
        # bricks that cannot be
        (lambda: Format("odd", 0, 102, 65, 10, 10), "odd: a brick's length of 0 mm cannot be"),
        (lambda: Format("odd", 215, 102, 65, 10, -1), "odd: a bed of -1 mm cannot be laid"),
        (lambda: queen_closer(Format("thin", 215, 10, 65, 10, 10)), "no queen closer can be cut: the header, 10 mm"),
    ],
)  # fmt: skip
def test_it_is_refused_in_words(ask: Callable[[], object], says: str) -> None:
    with pytest.raises(TradeError) as told:
        ask()
    assert says in str(told.value)


@pytest.mark.parametrize(
    ("found", "by_hand"),
    [
        (lambda: whole_courses(1), 1),
        (lambda: courses_to_reach(75), 1),
        (lambda: courses_to_reach("75.1"), 2),
        (lambda: courses_in(75), 1),
        (lambda: regauge(1012).courses, 13),
        (lambda: regauge("1012.5").courses, 14),  # half way: one more
        (lambda: regauge(781, courses=12).bed, Fraction(1, 12)),  # 12 × 65 = 780
        (lambda: regauge(1559, courses=12).bed, Fraction(779, 12)),  # 12 × 130 = 1560
        (lambda: regauge(900, courses=12, least_bed=10, most_bed=10).bed, 10),
        (lambda: angle_of_sight(0, 1), 0),
        (lambda: angle_of_sight(-5, 5), -45),
        (lambda: segmental_radius(1000, 500), 500),  # a half circle
        (lambda: pieces_in(10, 100, 10), 10),
        (lambda: pieces_in(65, 64, 75), 0),
        (lambda: pieces_in(65, 65, 75), 1),
        (lambda: pieces_in(65, 139, 75), 1),
        (lambda: pieces_in(65, 140, 75), 2),
        (lambda: [run_of(65, mm).joint for mm in (136, 140, 144, 207)], [6, 10, 14, 6]),  # 10 mm eased by two fifths
        (lambda: dog_tooth(145).teeth, 1),
        (lambda: (basket_weave(3, 9).stretchers, basket_weave(3, 9).soldiers), (15, 12)),  # five bays of nine, four
        (
            lambda: (basket_weave(3, 9, starts="soldier").stretchers, basket_weave(3, 9, starts="soldier").soldiers),
            (12, 15),
        ),
        (lambda: basket_weave(1, 3).stretchers + basket_weave(1, 3).soldiers, 3),
        (lambda: workable_openings("122.5"), (Fraction("122.5"), Fraction("122.5"))),
        (lambda: [is_workable_opening(mm) for mm in (10, "122.5", 123, 235)], [False, True, False, True]),
        (lambda: wall_area_m2(2000, 1000, [(2000, 500)]), 1),
        (lambda: wall_area_m2(2000, 1000, [(1000, 1000)]), 1),
        (lambda: bricks_for_area(1, rate="site", thickness=1), 120),
        (lambda: order(100, waste_percent=0, pack=50), 2),
        (lambda: order(101, pack=50), 3),
        (lambda: parts_of("1:0:6"), (1, 0, 6)),
        (lambda: batch(7, "1:6").cement_m3, 1),  # a dry factor of one
        (lambda: Format("dry", 200, 100, 50, 0, 0).module, 200),
        (lambda: queen_closer(Format("thin", 215, 11, 65, 10, 10)), Fraction(1, 2)),
    ],
)
def test_at_the_limit_it_is_worked_out(found: Callable[[], object], by_hand: object) -> None:
    assert found() == by_hand


def test_herringbone_goes_into_an_opening_of_one_brick_and_its_joints_both_ways() -> None:
    assert herringbone(235, 235, UK_METRIC).pieces


@pytest.mark.parametrize("nothing", [0, -1, "-0.5"])
@pytest.mark.parametrize(
    "ask",
    [
        whole_courses,
        courses_to_reach,
        regauge,
        check_projection,
        bricks_for_area,
        order,
        batch,
        lambda none: angle_of_sight(1, none),
        lambda none: diagonal(none, 1),
        lambda none: diagonal(1, none),
        lambda none: segmental_radius(none, 1),
        lambda none: segmental_radius(100, none),
        lambda none: pieces_in(none, 100, 10),
        lambda none: dog_tooth(900, joint=none),
        lambda none: wall_area_m2(none, 1),
        lambda none: wall_area_m2(1, none),
        lambda none: wall_area_m2(2000, 1000, [(none, 1)]),
        lambda none: wall_area_m2(2000, 1000, [(1, none)]),
        lambda none: order(1, pack=none),
        lambda none: batch(1, cement_density=none),
        lambda none: batch(1, sand_density=none),
        lambda none: batch(1, bag_kg=none),
        lambda none: Format("odd", none, 102, 65, 10, 10),
        lambda none: Format("odd", 215, none, 65, 10, 10),
        lambda none: Format("odd", 215, 102, none, 10, 10),
    ],
)
def test_nothing_and_less_are_refused_alike(ask: Callable[[object], object], nothing: object) -> None:
    with pytest.raises(TradeError):
        ask(nothing)
