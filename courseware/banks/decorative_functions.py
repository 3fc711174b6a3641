"""The formula functions of panels, surrounds, mitres and decorative courses, for one brick format."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import partial

from courseware import trade
from courseware.banks.figures import Figure
from courseware.banks.formulas import Function, Kind
from courseware.banks.kept_function import function
from courseware.trade import Format

_MOST_BRICKS, _MOST_COURSES = 40, 120  # of a panel that is laid out piece by piece
_MOST_HERRINGBONE = 3000  # mm either way: its pieces are cut one by one
_A_LENGTH = 10_000  # mm of dog-tooth, whose teeth are the same in any length
_SET_OUT, _ANY_LIMIT = 25, "uk_corbel"  # a projection within the limit: where a run stands does not depend on it


def decorative(brick: Format, arris_rule: str) -> dict[str, Function]:
    """The functions by name; `arris_rule` is the centre's setting."""
    words: Mapping[str, Kind] = {"corner": "word"}
    functions: dict[str, Function] = {}
    for what, says in (
        ("bays", "bays of a basket-weave panel, bricks by courses"),
        ("stretchers", "stretchers of a basket-weave panel"),
        ("soldiers", "soldiers of a basket-weave panel"),
    ):
        functions[f"weave_{what}"] = function(partial(_weave, brick, what), "bricks courses", says)
    for what, says in (
        ("panel_bricks", "width in bricks of the panel inside a surround"),
        ("panel_courses", "height in courses of the panel inside a surround"),
        ("halves", "plain half bricks of a surround"),
        ("bats", "mitred bats of a surround in an opening; corner `mitred` or `butted`"),
        ("corners", "corner pieces of a surround"),
        ("bricks", "whole bricks that a surround takes, two pieces to a brick"),
        ("cuts", "cuts of a surround: halvings, mitres and trimmed corner pieces"),
    ):
        functions[f"surround_{what}"] = function(
            partial(_surround, brick, what), "bricks courses corner", says, needed=2, words=words
        )
    for what, says in (
        ("angle", "degrees of the cut for a corner (of 90 degrees unless given): half the corner's"),
        ("leg", "what the cut takes off the bat's inner end"),
        ("cut_length", "length of the cut of a mitred bat"),
    ):
        functions[f"mitre_{what}"] = function(partial(_mitre, brick, what), "degrees", says, needed=0)
    for what, says in (
        ("whole", "bricks that stay whole"),
        ("cut", "pieces that are cut"),
        ("bricks", "bricks taken for herringbone in an opening, one to a piece; degrees 45 or 90"),
        ("waste_percent", "what is cut away of the bricks taken, in percent"),
    ):
        functions[f"herringbone_{what}"] = function(partial(_herringbone, brick, what), "width height degrees", says)
    for end, arris, high in (
        (
            "bottom",
            "the arris to level on a frame's bottom run, so many courses up, by the centre's rule",
            "top of a frame's bottom run above the floor",
        ),
        ("top", "the arris to level on a frame's top run", "top of a frame's top run above the floor"),
    ):
        functions[f"{end}_run_arris"] = function(
            partial(_run_arris, brick, arris_rule, f"{end}_arris"), "courses below eye_height", arris, result="word"
        )
        functions[f"{end}_run_height"] = function(partial(_run_height, brick, f"{end}_height"), "courses below", high)
    return functions | {
        "closes_weave": function(
            partial(_closes_weave, brick),
            "courses",
            "whether a basket weave of so many courses closes in this format",
            result="truth",
        ),
        "stack_bricks": function(
            lambda bricks, courses: trade.stack_bond(bricks, courses, brick),
            "bricks courses",
            "bricks in a panel of stack bond",
        ),
        "soldiers_in": function(
            lambda length: trade.soldiers(length, brick).pieces, "length", "soldiers in a length, one at both ends"
        ),
        "soldier_joint": function(
            lambda length: trade.soldiers(length, brick).joint,
            "length",
            "the joint between soldiers that fill a length",
        ),
        "on_edge_in": function(
            lambda length: trade.on_edge(length, brick).pieces, "length", "bricks on edge in a length, one at both ends"
        ),
        "dentils_out": function(
            lambda length: trade.dentils(length, brick)[0],
            "length",
            "headers that project in a dentil course of this length, one at both ends",
        ),
        "dentils_back": function(
            lambda length: trade.dentils(length, brick)[1],
            "length",
            "headers that stand back in a dentil course of this length",
        ),
        "pieces_in": function(
            trade.pieces_in,
            "wide length pitch",
            "whole pieces so wide in a length, one to each pitch, none needing a joint after the last",
        ),
        "teeth_in": function(
            partial(_teeth, brick),
            "length joint",
            "whole teeth of a dog-tooth course in a length; joint the perpend unless given",
            needed=1,
        ),
        "tooth_pitch": function(
            partial(_tooth, brick, "pitch"),
            "joint",
            "from tooth to tooth of a dog-tooth course, along the wall",
            needed=0,
        ),
        "tooth_width": function(partial(_tooth, brick, "wide"), "", "one tooth of a dog-tooth course, along the wall"),
    }


def _bound_panel(bricks: Figure, courses: Figure) -> None:
    """Panels are laid piece by piece, so an absurd one is refused before it is begun."""
    if bricks > _MOST_BRICKS or courses > _MOST_COURSES:
        raise trade.TradeError(f"a panel takes at most {_MOST_BRICKS} bricks by {_MOST_COURSES} courses here")


def _field(result: object, what: str) -> Figure:
    """One figure of what the trade core worked out; the names are those of the tables above."""
    return getattr(result, what)  # type: ignore[no-any-return]  # every field named above is a figure


def _weave(brick: Format, what: str, bricks: Figure, courses: Figure) -> Figure:
    _bound_panel(bricks, courses)
    return _field(trade.basket_weave(bricks, courses, brick), what)


def _closes_weave(brick: Format, courses: Figure) -> bool:
    return trade.weave_closes(brick) and Fraction(courses) % 3 == 0 and courses > 0


def _surround(brick: Format, what: str, bricks: Figure, courses: Figure, corner: str = "mitred") -> Figure:
    _bound_panel(bricks, courses)
    return _field(trade.surround(bricks, courses, brick, corner), what)


def _mitre(brick: Format, what: str, degrees: Figure = 90) -> Figure:
    return _field(trade.mitre_template(brick, degrees), what)


def _herringbone(brick: Format, what: str, width: Figure, height: Figure, degrees: Figure) -> Figure:
    if max(width, height) > _MOST_HERRINGBONE:
        raise trade.TradeError(f"herringbone takes an opening of at most {_MOST_HERRINGBONE} mm either way here")
    if degrees not in (45, 90):
        raise trade.TradeError("herringbone is laid at 45 or 90 degrees")
    return _field(trade.herringbone(width, height, brick, int(degrees)), what)


def _teeth(brick: Format, length: Figure, joint: Figure | None = None) -> Figure:
    return trade.dog_tooth(length, brick, joint).teeth


def _tooth(brick: Format, what: str, joint: Figure | None = None) -> Figure:
    return _field(trade.dog_tooth(_A_LENGTH, brick, joint), what)


def _run_arris(brick: Format, rule: str, what: str, courses: Figure, below: Figure, eye: Figure) -> str:
    frame = trade.projecting_frame(courses, below, eye, _SET_OUT, brick, rule, limit=_ANY_LIMIT)
    return str(getattr(frame, what))


def _run_height(brick: Format, what: str, courses: Figure, below: Figure) -> Figure:
    frame = trade.projecting_frame(courses, below, -1, _SET_OUT, brick, limit=_ANY_LIMIT)
    return _field(frame, what)
