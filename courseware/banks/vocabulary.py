"""The names every formula may use: a brick's sizes and the trade core's functions, for one format."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import partial

from courseware import trade
from courseware.banks.decorative_functions import decorative
from courseware.banks.figures import DoesNotWriteOut, Figure, whole_as_int, write_out
from courseware.banks.formulas import Function, Kind, Value
from courseware.banks.kept_function import function
from courseware.trade import Format
from courseware.trade.exact_functions import cosine, pi, root, sine, tangent

_INCH = Fraction("25.4")


@dataclass(frozen=True, slots=True, kw_only=True)
class Vocabulary:
    """What is in scope besides the givens and parts: constants by name, functions by name."""

    constants: Mapping[str, Value]
    functions: Mapping[str, Function]
    labels: Mapping[str, str] = field(default_factory=dict)  # of an exercise's parts, as `a` or `b(ii)`, by name


def vocabulary(brick: Format, arris_rule: str = "outline") -> Vocabulary:
    """The names for exercises in this format; `arris_rule` is the centre's setting, "outline" or "near"."""
    constants: dict[str, Value] = {
        "module": brick.module,
        "course": brick.course,
        "half": brick.half,
        "perpend": brick.perpend,
        "bed": brick.bed,
        "brick_length": brick.length,
        "brick_width": brick.width,
        "brick_height": brick.height,
        "arris_rule": arris_rule,
        "true": True,
        "false": False,
    }
    if brick.perpend == brick.bed:
        constants["joint"] = brick.bed
    constants = {name: whole_as_int(v) if isinstance(v, Fraction) else v for name, v in constants.items()}
    functions = {**_plain(), **_setting_out(brick), **_amounts(brick, arris_rule), **decorative(brick, arris_rule)}
    return Vocabulary(constants=constants, functions=functions)


def _plain() -> dict[str, Function]:
    return {
        "up": function(math.ceil, "x"),
        "down": function(math.floor, "x"),
        "nearest": function(_nearest, "x step"),
        "least": function(min, "x", needed=2, repeats=True),
        "most": function(max, "x", needed=2, repeats=True),
        "root": function(root, "x places", needed=1),
        "sine": function(sine, "degrees places"),
        "cosine": function(cosine, "degrees places"),
        "tangent": function(tangent, "degrees places"),
        "pi": function(pi, "places"),
        "diagonal": function(trade.diagonal, "width height"),
        "segmental_radius": function(trade.segmental_radius, "span rise"),
        "angle_of_sight": function(trade.angle_of_sight, "height distance"),
        "inches": function(lambda mm: mm / _INCH, "mm"),
        "in_inches": function(_in_inches, "mm", result="word"),
    }


def _in_inches(mm: Figure) -> str:
    try:
        return write_out(whole_as_int(mm / _INCH), fraction=True) + " in"
    except DoesNotWriteOut as fault:
        raise trade.TradeError(f"in_inches gives no short fraction of an inch: {fault}") from None


def _setting_out(brick: Format) -> dict[str, Function]:
    functions: dict[str, Function] = {}
    for name in ("opening", "returned", "pier"):
        functions[name] = function(partial(_call, getattr(trade, name), brick), "bricks")
    for name, either_side, counted in (
        ("opening", trade.workable_openings, trade.bricks_in_opening),
        ("returned", trade.workable_returned, trade.bricks_in_returned),
        ("pier", trade.workable_piers, trade.bricks_in_pier),
    ):
        functions[f"{name}_below"] = function(partial(_side, either_side, brick, 0), "length")
        functions[f"{name}_above"] = function(partial(_side, either_side, brick, 1), "length")
        functions[f"bricks_in_{name}"] = function(partial(_call, counted, brick), "length")
    functions["is_opening"] = function(partial(_call, trade.is_workable_opening, brick), "width", result="truth")
    for name in ("height", "face_height", "clear_height"):
        functions[name] = function(partial(_call, getattr(trade, name), brick), "courses")
    for name, datum in (("courses_in", "height"), ("courses_in_face", "face"), ("courses_in_clear", "clear")):
        functions[name] = function(partial(_courses_in, brick, datum), "height")
    functions["courses_to_reach"] = function(partial(_call, trade.courses_to_reach, brick), "height")
    for name in ("courses", "gauge", "bed"):
        functions[f"regauge_{name}"] = function(partial(_regauge, brick, name), "height courses", needed=1)
    functions["queen_closer"] = function(lambda: trade.queen_closer(brick), "")
    return functions


def _amounts(brick: Format, arris_rule: str) -> dict[str, Function]:
    mix_words: Mapping[str, Kind] = {"mix": "word", "rate": "word", "limit": "word"}
    batch = "volume mix dry"
    return {
        "from_eye": function(lambda course, eye: trade.from_eye(course, eye, brick), "course eye_height"),
        "arris": function(
            lambda height, eye: trade.arris_to_level(height, eye, rule=arris_rule),
            "course_height eye_height",
            result="word",
        ),
        "projection_per_course": function(partial(_limit, brick, "per_course"), "limit", words=mix_words),
        "projection_total": function(partial(_limit, brick, "total"), "limit", words=mix_words),
        "wall_area": function(_wall_area, "length height opening_width opening_height", needed=2),
        "bricks_for_area": function(
            lambda area, rate="exact", thickness=Fraction(1, 2): trade.bricks_for_area(
                area, brick, rate=rate, thickness=thickness
            ),
            "area rate thickness",
            needed=1,
            words=mix_words,
        ),
        "packs": function(
            lambda quantity, waste=0, pack=1: trade.order(quantity, waste_percent=waste, pack=pack),
            "quantity waste pack",
            needed=1,
        ),
        "mortar": function(
            lambda area, thickness=Fraction(1, 2), frog=0, waste=0: trade.mortar_volume(
                area, brick, thickness=thickness, frog_percent=frog, waste_percent=waste
            ),
            "area thickness frog waste",
            needed=1,
        ),
        "cement_m3": function(partial(_batch, "cement_m3"), batch, needed=2, words=mix_words),
        "sand_m3": function(partial(_batch, "sand_m3"), batch, needed=2, words=mix_words),
        "cement_kg": function(partial(_batch, "cement_kg"), batch, needed=2, words=mix_words),
        "sand_kg": function(partial(_batch, "sand_kg"), batch, needed=2, words=mix_words),
        "cement_bags": function(partial(_batch, "bags"), f"{batch} bag", needed=2, words=mix_words),
    }


def _call(function: Callable[..., Value], brick: Format, argument: Figure) -> Value:
    return function(argument, brick)


def _side(function: Callable[..., tuple[Fraction, Fraction]], brick: Format, side: int, length: Figure) -> Fraction:
    return function(length, brick)[side]


def _courses_in(brick: Format, datum: str, height: Figure) -> int:
    return trade.courses_in(height, brick, datum=datum)


def _regauge(brick: Format, what: str, height: Figure, courses: Figure | None = None) -> Figure:
    return getattr(trade.regauge(height, brick, courses=courses), what)  # type: ignore[no-any-return]


def _limit(brick: Format, what: str, name: str) -> Figure:
    if name not in trade.PROJECTION_LIMITS:
        raise trade.TradeError(f"no limit on a projection is named {name}: use {', '.join(trade.PROJECTION_LIMITS)}")
    return getattr(trade.PROJECTION_LIMITS[name], what)(brick)  # type: ignore[no-any-return]  # a reach


def _wall_area(length: Figure, height: Figure, opening_width: Figure = 0, opening_height: Figure = 0) -> Figure:
    openings = ((opening_width, opening_height),) if opening_width and opening_height else ()
    return trade.wall_area_m2(length, height, openings)


def _batch(what: str, volume: Figure, mix: str, dry: Figure = 1, bag: Figure = 25) -> Figure:
    return getattr(trade.batch(volume, mix, dry_factor=dry, bag_kg=bag), what)  # type: ignore[no-any-return]


def _nearest(value: Figure, step: Figure) -> Figure:
    if step <= 0:
        raise trade.TradeError("nearest needs a step above 0")
    return ((2 * Fraction(value) / step + 1) // 2) * step
