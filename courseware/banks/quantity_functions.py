"""The formula functions of levelling, projections, walls, bricks and mortar, for one brick format."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import partial

from courseware import trade
from courseware.banks.figures import Figure
from courseware.banks.formulas import Function, Kind
from courseware.banks.kept_function import function
from courseware.trade import Format


def quantities(brick: Format, arris_rule: str) -> dict[str, Function]:
    """The functions by name; `arris_rule` is the centre's setting."""
    mix_words: Mapping[str, Kind] = {"mix": "word", "rate": "word", "limit": "word"}
    batch = "volume mix dry"
    return {
        "from_eye": function(
            lambda course, eye: trade.from_eye(course, eye, brick),
            "course eye_height",
            "how far the top of a course is above the eye line (below: less than 0)",
        ),
        "arris": function(
            lambda height, eye: trade.arris_to_level(height, eye, rule=arris_rule),
            "course_height eye_height",
            "`top` or `underside`: the arris to level for a course, by the centre's rule",
            result="word",
        ),
        "projection_per_course": function(
            partial(_limit, brick, "per_course"),
            "limit",
            "how far one course may project under a limit by its name",
            words=mix_words,
        ),
        "projection_total": function(
            partial(_limit, brick, "total"),
            "limit",
            "how far a wall may project in all under a limit by its name",
            words=mix_words,
        ),
        "wall_area": function(
            _wall_area,
            "length height opening_width opening_height",
            "m² of a wall of this length and height in mm, less an opening",
            needed=2,
        ),
        "bricks_for_area": function(
            lambda area, rate="exact", thickness=Fraction(1, 2): trade.bricks_for_area(
                area, brick, rate=rate, thickness=thickness
            ),
            "area rate thickness",
            "bricks for so many m²; rate `exact` by the module or `site` by the usual round figure; "
            "thickness in bricks, ½ or 1",
            needed=1,
            words=mix_words,
        ),
        "packs": function(
            lambda quantity, waste=0, pack=1: trade.order(quantity, waste_percent=waste, pack=pack),
            "quantity waste pack",
            "whole packs to order: waste added, then rounded up once",
            needed=1,
        ),
        "mortar": function(
            lambda area, thickness=Fraction(1, 2), frog=0, waste=0: trade.mortar_volume(
                area, brick, thickness=thickness, frog_percent=frog, waste_percent=waste
            ),
            "area thickness frog waste",
            "m³ of mortar for so many m² of wall, from the joints, with frog and waste in percent",
            needed=1,
        ),
        "cement_m3": function(
            partial(_batch, "cement_m3"),
            batch,
            "m³ of cement for so many m³ of mortar, mix as `1:5`, dry the dry-volume factor",
            needed=2,
            words=mix_words,
        ),
        "sand_m3": function(
            partial(_batch, "sand_m3"), batch, "m³ of sand for so many m³ of mortar", needed=2, words=mix_words
        ),
        "cement_kg": function(
            partial(_batch, "cement_kg"), batch, "kg of cement for so many m³ of mortar", needed=2, words=mix_words
        ),
        "sand_kg": function(
            partial(_batch, "sand_kg"), batch, "kg of sand for so many m³ of mortar", needed=2, words=mix_words
        ),
        "cement_bags": function(
            partial(_batch, "bags"),
            f"{batch} bag",
            "whole bags of cement for so many m³ of mortar",
            needed=2,
            words=mix_words,
        ),
    }


def _limit(brick: Format, what: str, name: str) -> Figure:
    if name not in trade.PROJECTION_LIMITS:
        raise trade.TradeError(f"no limit on a projection is named {name}: use {', '.join(trade.PROJECTION_LIMITS)}")
    return getattr(trade.PROJECTION_LIMITS[name], what)(brick)  # type: ignore[no-any-return]  # a reach


def _wall_area(length: Figure, height: Figure, opening_width: Figure = 0, opening_height: Figure = 0) -> Figure:
    openings = ((opening_width, opening_height),) if opening_width and opening_height else ()
    return trade.wall_area_m2(length, height, openings)


def _batch(what: str, volume: Figure, mix: str, dry: Figure = 1, bag: Figure = 25) -> Figure:
    return getattr(trade.batch(volume, mix, dry_factor=dry, bag_kg=bag), what)  # type: ignore[no-any-return]  # a figure
