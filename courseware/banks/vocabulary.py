"""The names every formula may use: a brick's sizes and the trade core's functions, for one format."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache, partial

from courseware import trade
from courseware.banks.figures import DoesNotWriteOut, Figure, tidy, write_out
from courseware.banks.formulas import Function, Kind, Value
from courseware.trade import Format

_INCH = Fraction("25.4")
_SET_OUT, _ANY_LIMIT = 25, "uk_corbel"  # a projection within the limit: where a run stands does not depend on it
_MEMORY = 4096  # results kept a function: more than any exercise's range of arguments
_MOST_BRICKS, _MOST_COURSES = 40, 120  # of a panel that is laid out piece by piece
_MOST_HERRINGBONE = 3000  # mm either way: its pieces are cut one by one


@dataclass(frozen=True, slots=True, kw_only=True)
class Vocabulary:
    """What is in scope besides the givens and parts: constants by name, functions by name."""

    constants: Mapping[str, Value]
    functions: Mapping[str, Function]


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
    constants = {name: tidy(v) if isinstance(v, Fraction) else v for name, v in constants.items()}
    functions = {**_plain(), **_setting_out(brick), **_amounts(brick, arris_rule), **_decorative(brick, arris_rule)}
    return Vocabulary(constants=constants, functions=functions)


SAYS: Mapping[str, str] = {  # what each function gives, for the manual
    "angle_of_sight": "degrees up from level, from a distance, to a height above the eye",
    "arris": "`top` or `underside`: the arris to level for a course, by the centre's rule",
    "bricks_for_area": "bricks for so many m²; rate `exact` by the module or `site` by the usual round figure; "
    "thickness in bricks, ½ or 1",
    "bricks_in_opening": "how many bricks an opening of this width takes; impossible where it does not work",
    "bricks_in_pier": "how many bricks a pier of this length takes; impossible where it does not work",
    "bricks_in_returned": "how many bricks a returned length takes; impossible where it does not work",
    "cement_bags": "whole bags of cement for so many m³ of mortar",
    "cement_kg": "kg of cement for so many m³ of mortar",
    "cement_m3": "m³ of cement for so many m³ of mortar, mix as `1:5`, dry the dry-volume factor",
    "clear_height": "from the brick below to the brick above: a bed more than the courses",
    "courses_in": "how many courses make this height; impossible where it is not whole courses",
    "courses_in_clear": "how many courses make this clear height",
    "courses_in_face": "how many courses make this face height",
    "courses_to_reach": "whole courses needed to reach at least this height",
    "diagonal": "the diagonal of a rectangle",
    "down": "the whole number at or below",
    "face_height": "of the bricks alone: from the underside of the first to the top of the last",
    "from_eye": "how far the top of a course is above the eye line (below: less than 0)",
    "height": "from the top of the brick below to the top of the last course",
    "in_inches": "a length in inches, in words, as `7⅝ in`",
    "inches": "a length in inches",
    "is_opening": "whether an opening of this width works in half bricks",
    "least": "the least of some figures",
    "mortar": "m³ of mortar for so many m² of wall, from the joints, with frog and waste in percent",
    "most": "the most of some figures",
    "nearest": "the nearest multiple of a step, half up",
    "opening": "width of an opening of so many bricks: a joint more than the bricks",
    "opening_above": "the smallest opening that works, not below this width",
    "opening_below": "the largest opening that works, not above this width",
    "packs": "whole packs to order: waste added, then rounded up once",
    "pier": "length of a pier of so many bricks: a joint fewer than bricks",
    "pier_above": "the shortest pier that works, not below this length",
    "pier_below": "the longest pier that works, not above this length",
    "projection_per_course": "how far one course may project under a limit by its name",
    "projection_total": "how far a wall may project in all under a limit by its name",
    "queen_closer": "width of a queen closer: a brick halved along its length",
    "regauge_bed": "the bed that makes a height whole courses (the nearest number unless given)",
    "regauge_courses": "the nearest whole number of courses to a height",
    "regauge_gauge": "the gauge that makes a height whole courses",
    "returned": "length from a stopped end to a return: as many joints as bricks",
    "returned_above": "the shortest returned length that works, not below this length",
    "returned_below": "the longest returned length that works, not above this length",
    "sand_kg": "kg of sand for so many m³ of mortar",
    "sand_m3": "m³ of sand for so many m³ of mortar",
    "segmental_radius": "radius of a segmental arch",
    "bottom_run_arris": "the arris to level on a frame's bottom run, so many courses up, by the centre's rule",
    "bottom_run_height": "top of a frame's bottom run above the floor",
    "closes_weave": "whether a basket weave of so many courses closes in this format",
    "dentils_back": "headers that stand back in a dentil course of this length",
    "dentils_out": "headers that project in a dentil course of this length, one at both ends",
    "herringbone_bricks": "bricks taken for herringbone in an opening, one to a piece; degrees 45 or 90",
    "herringbone_cut": "pieces that are cut",
    "herringbone_waste_percent": "what is cut away of the bricks taken, in percent",
    "herringbone_whole": "bricks that stay whole",
    "mitre_angle": "degrees of the cut for a corner (of 90 degrees unless given): half the corner's",
    "mitre_cut_length": "length of the cut of a mitred bat",
    "mitre_leg": "what the cut takes off the bat's inner end",
    "on_edge_in": "bricks on edge in a length, one at both ends",
    "soldier_joint": "the joint between soldiers that fill a length",
    "soldiers_in": "soldiers in a length, one at both ends",
    "stack_bricks": "bricks in a panel of stack bond",
    "surround_bats": "mitred bats of a surround in an opening; corner `mitred` or `butted`",
    "surround_bricks": "whole bricks that a surround takes, two pieces to a brick",
    "surround_corners": "corner pieces of a surround",
    "surround_cuts": "cuts of a surround: halvings, mitres and trimmed corner pieces",
    "surround_halves": "plain half bricks of a surround",
    "surround_panel_bricks": "width in bricks of the panel inside a surround",
    "surround_panel_courses": "height in courses of the panel inside a surround",
    "teeth_in": "whole teeth of a dog-tooth course in a length",
    "tooth_pitch": "from tooth to tooth of a dog-tooth course, along the wall",
    "top_run_arris": "the arris to level on a frame's top run",
    "top_run_height": "top of a frame's top run above the floor",
    "weave_bays": "bays of a basket-weave panel, bricks by courses",
    "weave_soldiers": "soldiers of a basket-weave panel",
    "weave_stretchers": "stretchers of a basket-weave panel",
    "up": "the whole number at or above",
    "wall_area": "m² of a wall of this length and height in mm, less an opening",
}


def _plain() -> dict[str, Function]:
    return {
        "up": _function(math.ceil, "x"),
        "down": _function(math.floor, "x"),
        "nearest": _function(_nearest, "x step"),
        "least": _function(min, "x", needed=2, repeats=True),
        "most": _function(max, "x", needed=2, repeats=True),
        "diagonal": _function(trade.diagonal, "width height"),
        "segmental_radius": _function(trade.segmental_radius, "span rise"),
        "angle_of_sight": _function(trade.angle_of_sight, "height distance"),
        "inches": _function(lambda mm: mm / _INCH, "mm"),
        "in_inches": _function(_in_inches, "mm", result="word"),
    }


def _in_inches(mm: Figure) -> str:
    try:
        return write_out(tidy(mm / _INCH), fraction=True) + " in"
    except DoesNotWriteOut as fault:
        raise trade.TradeError(f"in_inches gives no short fraction of an inch: {fault}") from None


def _setting_out(brick: Format) -> dict[str, Function]:
    functions: dict[str, Function] = {}
    for name in ("opening", "returned", "pier"):
        functions[name] = _function(partial(_call, getattr(trade, name), brick), "bricks")
    for name, either_side, counted in (
        ("opening", trade.workable_openings, trade.bricks_in_opening),
        ("returned", trade.workable_returned, trade.bricks_in_returned),
        ("pier", trade.workable_piers, trade.bricks_in_pier),
    ):
        functions[f"{name}_below"] = _function(partial(_side, either_side, brick, 0), "length")
        functions[f"{name}_above"] = _function(partial(_side, either_side, brick, 1), "length")
        functions[f"bricks_in_{name}"] = _function(partial(_call, counted, brick), "length")
    functions["is_opening"] = _function(partial(_call, trade.is_workable_opening, brick), "width", result="truth")
    for name in ("height", "face_height", "clear_height"):
        functions[name] = _function(partial(_call, getattr(trade, name), brick), "courses")
    for name, datum in (("courses_in", "height"), ("courses_in_face", "face"), ("courses_in_clear", "clear")):
        functions[name] = _function(partial(_courses_in, brick, datum), "height")
    functions["courses_to_reach"] = _function(partial(_call, trade.courses_to_reach, brick), "height")
    for name in ("courses", "gauge", "bed"):
        functions[f"regauge_{name}"] = _function(partial(_regauge, brick, name), "height courses", needed=1)
    functions["queen_closer"] = _function(lambda: trade.queen_closer(brick), "")
    return functions


def _amounts(brick: Format, arris_rule: str) -> dict[str, Function]:
    mix_words: Mapping[str, Kind] = {"mix": "word", "rate": "word", "limit": "word"}
    batch = "volume mix dry"
    return {
        "from_eye": _function(lambda course, eye: trade.from_eye(course, eye, brick), "course eye_height"),
        "arris": _function(
            lambda height, eye: trade.arris_to_level(height, eye, rule=arris_rule),
            "course_height eye_height",
            result="word",
        ),
        "projection_per_course": _function(partial(_limit, brick, "per_course"), "limit", words=mix_words),
        "projection_total": _function(partial(_limit, brick, "total"), "limit", words=mix_words),
        "wall_area": _function(_wall_area, "length height opening_width opening_height", needed=2),
        "bricks_for_area": _function(
            lambda area, rate="exact", thickness=Fraction(1, 2): trade.bricks_for_area(
                area, brick, rate=rate, thickness=thickness
            ),
            "area rate thickness",
            needed=1,
            words=mix_words,
        ),
        "packs": _function(
            lambda quantity, waste=0, pack=1: trade.order(quantity, waste_percent=waste, pack=pack),
            "quantity waste pack",
            needed=1,
        ),
        "mortar": _function(
            lambda area, thickness=Fraction(1, 2), frog=0, waste=0: trade.mortar_volume(
                area, brick, thickness=thickness, frog_percent=frog, waste_percent=waste
            ),
            "area thickness frog waste",
            needed=1,
        ),
        "cement_m3": _function(partial(_batch, "cement_m3"), batch, needed=2, words=mix_words),
        "sand_m3": _function(partial(_batch, "sand_m3"), batch, needed=2, words=mix_words),
        "cement_kg": _function(partial(_batch, "cement_kg"), batch, needed=2, words=mix_words),
        "sand_kg": _function(partial(_batch, "sand_kg"), batch, needed=2, words=mix_words),
        "cement_bags": _function(partial(_batch, "bags"), f"{batch} bag", needed=2, words=mix_words),
    }


def _decorative(brick: Format, arris_rule: str) -> dict[str, Function]:
    words: Mapping[str, Kind] = {"corner": "word"}
    functions = {
        f"weave_{what}": _function(partial(_weave, brick, what), "bricks courses")
        for what in ("bays", "stretchers", "soldiers")
    }
    for what in ("panel_bricks", "panel_courses", "halves", "bats", "corners", "bricks", "cuts"):
        functions[f"surround_{what}"] = _function(
            partial(_surround, brick, what), "bricks courses corner", needed=2, words=words
        )
    for what in ("angle", "leg", "cut_length"):
        functions[f"mitre_{what}"] = _function(partial(_mitre, brick, what), "degrees", needed=0)
    for what in ("whole", "cut", "bricks", "waste_percent"):
        functions[f"herringbone_{what}"] = _function(partial(_herringbone, brick, what), "width height degrees")
    for end in ("bottom", "top"):
        functions[f"{end}_run_arris"] = _function(
            partial(_run_arris, brick, arris_rule, f"{end}_arris"), "courses below eye_height", result="word"
        )
        functions[f"{end}_run_height"] = _function(partial(_run_height, brick, f"{end}_height"), "courses below")
    return functions | {
        "closes_weave": _function(partial(_closes_weave, brick), "courses", result="truth"),
        "stack_bricks": _function(lambda bricks, courses: trade.stack_bond(bricks, courses, brick), "bricks courses"),
        "soldiers_in": _function(lambda length: trade.soldiers(length, brick).pieces, "length"),
        "soldier_joint": _function(lambda length: trade.soldiers(length, brick).joint, "length"),
        "on_edge_in": _function(lambda length: trade.on_edge(length, brick).pieces, "length"),
        "dentils_out": _function(lambda length: trade.dentils(length, brick)[0], "length"),
        "dentils_back": _function(lambda length: trade.dentils(length, brick)[1], "length"),
        "teeth_in": _function(lambda length: trade.dog_tooth(length, brick).teeth, "length"),
        "tooth_pitch": _function(lambda: trade.dog_tooth(10_000, brick).pitch, ""),
    }


def _function(
    call: Callable[..., object],
    parameters: str,
    *,
    needed: int | None = None,
    result: Kind = "number",
    repeats: bool = False,
    words: Mapping[str, Kind] | None = None,
) -> Function:
    """A formula function whose results are kept, since a proof asks for the same few again and again.

    Those that may be left out may be named, and are named in `call` as in `parameters`.
    """
    names = parameters.split()

    @lru_cache(maxsize=_MEMORY)
    def kept(*args: Value, **named: Value) -> Value:
        value = call(*args, **named)
        return tidy(value) if isinstance(value, Fraction) else value  # type: ignore[return-value]  # by the table

    return Function(
        call=kept,
        parameters=tuple((name, (words or {}).get(name, "number")) for name in names),
        needed=len(names) if needed is None else needed,
        result=result,
        repeats=repeats,
    )


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


def _bound_panel(bricks: Figure, courses: Figure) -> None:
    """Panels are laid piece by piece, so an absurd one is refused before it is begun."""
    if bricks > _MOST_BRICKS or courses > _MOST_COURSES:
        raise trade.TradeError(f"a panel takes at most {_MOST_BRICKS} bricks by {_MOST_COURSES} courses here")


def _weave(brick: Format, what: str, bricks: Figure, courses: Figure) -> Figure:
    _bound_panel(bricks, courses)
    return getattr(trade.basket_weave(bricks, courses, brick), what)  # type: ignore[no-any-return]


def _closes_weave(brick: Format, courses: Figure) -> bool:
    return trade.weave_closes(brick) and Fraction(courses) % 3 == 0 and courses > 0


def _surround(brick: Format, what: str, bricks: Figure, courses: Figure, corner: str = "mitred") -> Figure:
    _bound_panel(bricks, courses)
    return getattr(trade.surround(bricks, courses, brick, corner), what)  # type: ignore[no-any-return]


def _mitre(brick: Format, what: str, degrees: Figure = 90) -> Figure:
    return getattr(trade.mitre_template(brick, degrees), what)  # type: ignore[no-any-return]


def _herringbone(brick: Format, what: str, width: Figure, height: Figure, degrees: Figure) -> Figure:
    if max(width, height) > _MOST_HERRINGBONE:
        raise trade.TradeError(f"herringbone takes an opening of at most {_MOST_HERRINGBONE} mm either way here")
    if degrees not in (45, 90):
        raise trade.TradeError("herringbone is laid at 45 or 90 degrees")
    return getattr(trade.herringbone(width, height, brick, int(degrees)), what)  # type: ignore[no-any-return]


def _run_arris(brick: Format, rule: str, what: str, courses: Figure, below: Figure, eye: Figure) -> str:
    frame = trade.projecting_frame(courses, below, eye, _SET_OUT, brick, rule, limit=_ANY_LIMIT)
    return str(getattr(frame, what))


def _run_height(brick: Format, what: str, courses: Figure, below: Figure) -> Figure:
    frame = trade.projecting_frame(courses, below, -1, _SET_OUT, brick, limit=_ANY_LIMIT)
    return getattr(frame, what)  # type: ignore[no-any-return]


def _nearest(value: Figure, step: Figure) -> Figure:
    if step <= 0:
        raise trade.TradeError("nearest needs a step above 0")
    return ((2 * Fraction(value) / step + 1) // 2) * step
