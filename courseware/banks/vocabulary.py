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
from courseware.banks.formulas import Function, Value
from courseware.banks.kept_function import function
from courseware.banks.quantity_functions import quantities
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
    functions: dict[str, Function] = {}
    for table in FUNCTION_TABLES:
        functions |= table(brick, arris_rule)
    return Vocabulary(constants=constants, functions=functions)


def _plain(_: Format, __: str) -> dict[str, Function]:
    return {
        "up": function(math.ceil, "x", "the whole number at or above"),
        "down": function(math.floor, "x", "the whole number at or below"),
        "nearest": function(_nearest, "x step", "the nearest multiple of a step, half up"),
        "least": function(min, "x", "the least of some figures", needed=2, repeats=True),
        "most": function(max, "x", "the most of some figures", needed=2, repeats=True),
        "root": function(
            root,
            "x places",
            "the square root, exact where there is one; else to so many decimal places, as `root(2, 3)`",
            needed=1,
        ),
        "sine": function(sine, "degrees places", "the sine of an angle in degrees, to so many decimal places"),
        "cosine": function(cosine, "degrees places", "the cosine of an angle in degrees, to so many decimal places"),
        "tangent": function(
            tangent,
            "degrees places",
            "the tangent of an angle in degrees, to so many decimal places; impossible at a right angle",
        ),
        "pi": function(pi, "places", "pi to so many decimal places"),
        "diagonal": function(trade.diagonal, "width height", "the diagonal of a rectangle"),
        "segmental_radius": function(trade.segmental_radius, "span rise", "radius of a segmental arch"),
        "angle_of_sight": function(
            trade.angle_of_sight, "height distance", "degrees up from level, from a distance, to a height above the eye"
        ),
        "inches": function(lambda mm: mm / _INCH, "mm", "a length in inches"),
        "in_inches": function(_in_inches, "mm", "a length in inches, in words, as `7⅝ in`", result="word"),
    }


def _in_inches(mm: Figure) -> str:
    try:
        return write_out(whole_as_int(mm / _INCH), fraction=True) + " in"
    except DoesNotWriteOut as fault:
        raise trade.TradeError(f"in_inches gives no short fraction of an inch: {fault}") from None


def _setting_out(brick: Format, _: str) -> dict[str, Function]:
    functions: dict[str, Function] = {}
    for name, either_side, counted, what, least, most in (
        ("opening", trade.workable_openings, trade.bricks_in_opening, "width of an opening of so many bricks: a joint "
         "more than the bricks", "the smallest opening", "the largest opening"),
        ("returned", trade.workable_returned, trade.bricks_in_returned, "length from a stopped end to a return: as "
         "many joints as bricks", "the shortest returned length", "the longest returned length"),
        ("pier", trade.workable_piers, trade.bricks_in_pier, "length of a pier of so many bricks: a joint fewer than "
         "bricks", "the shortest pier", "the longest pier"),
    ):  # fmt: skip
        size = "width" if name == "opening" else "length"
        one = {"opening": "an opening of this width", "returned": "a returned length", "pier": "a pier of this length"}
        functions[name] = function(partial(_call, getattr(trade, name), brick), "bricks", what)
        functions[f"{name}_below"] = function(
            partial(_side, either_side, brick, 0), "length", f"{most} that works, not above this {size}"
        )
        functions[f"{name}_above"] = function(
            partial(_side, either_side, brick, 1), "length", f"{least} that works, not below this {size}"
        )
        functions[f"bricks_in_{name}"] = function(
            partial(_call, counted, brick),
            "length",
            f"how many bricks {one[name]} takes; impossible where it does not work",
        )
    functions["is_opening"] = function(
        partial(_call, trade.is_workable_opening, brick),
        "width",
        "whether an opening of this width works in half bricks",
        result="truth",
    )
    for name, says in (
        ("height", "from the top of the brick below to the top of the last course"),
        ("face_height", "of the bricks alone: from the underside of the first to the top of the last"),
        ("clear_height", "from the brick below to the brick above: a bed more than the courses"),
    ):
        functions[name] = function(partial(_call, getattr(trade, name), brick), "courses", says)
    for name, datum, says in (
        ("courses_in", "height", "how many courses make this height; impossible where it is not whole courses"),
        ("courses_in_face", "face", "how many courses make this face height"),
        ("courses_in_clear", "clear", "how many courses make this clear height"),
    ):
        functions[name] = function(partial(_courses_in, brick, datum), "height", says)
    functions["courses_to_reach"] = function(
        partial(_call, trade.courses_to_reach, brick), "height", "whole courses needed to reach at least this height"
    )
    for name, says in (
        ("courses", "the nearest whole number of courses to a height"),
        ("gauge", "the gauge that makes a height whole courses"),
        ("bed", "the bed that makes a height whole courses (the nearest number unless given)"),
    ):
        functions[f"regauge_{name}"] = function(partial(_regauge, brick, name), "height courses", says, needed=1)
    functions["queen_closer"] = function(
        lambda: trade.queen_closer(brick), "", "width of a queen closer: a brick halved along its length"
    )
    return functions


def _call(function: Callable[..., Value], brick: Format, argument: Figure) -> Value:
    return function(argument, brick)


def _side(function: Callable[..., tuple[Fraction, Fraction]], brick: Format, side: int, length: Figure) -> Fraction:
    return function(length, brick)[side]


def _courses_in(brick: Format, datum: str, height: Figure) -> int:
    return trade.courses_in(height, brick, datum=datum)


def _regauge(brick: Format, what: str, height: Figure, courses: Figure | None = None) -> Figure:
    return getattr(trade.regauge(height, brick, courses=courses), what)  # type: ignore[no-any-return]  # a figure


def _nearest(value: Figure, step: Figure) -> Figure:
    if step <= 0:
        raise trade.TradeError("nearest needs a step above 0")
    return ((2 * Fraction(value) / step + 1) // 2) * step


# Each gives some of the functions, for a format and the centre's rule of the arris.
FUNCTION_TABLES: tuple[Callable[[Format, str], Mapping[str, Function]], ...] = (
    _plain, _setting_out, quantities, decorative,
)  # fmt: skip
