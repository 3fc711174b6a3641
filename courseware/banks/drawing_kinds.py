"""Which drawings a bank may ask for: their arguments, the limits within which each fits its box, their dimensions."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from courseware import trade
from courseware.banks.drawing_kind import DrawingKind
from courseware.banks.drawing_kind import built as _built
from courseware.banks.drawing_kind import own as _own
from courseware.banks.drawing_kind import span as _span
from courseware.banks.drawing_kinds_heights import HEIGHT_KINDS
from courseware.banks.drawing_kinds_of_work import KINDS_OF_WORK
from courseware.banks.exercise import DrawingAsked
from courseware.banks.formulas import Value
from courseware.trade import Format


def opening_in_wall(figures: Mapping[str, Fraction | int | str], _: Format) -> None:
    """Raises `TradeError` where a wall's opening is larger than the wall."""
    for size, of in (("opening_width", "length"), ("opening_height", "height")):
        if Fraction(figures[size]) > Fraction(figures[of]):
            raise trade.TradeError("the opening is larger than the wall: make the opening smaller or the wall larger")


def _soldiers_in_coursing(figures: Mapping[str, Fraction | int | str], brick: Format) -> None:
    """Raises `TradeError` where soldiers cannot stand for three courses, the last of them the one that is named."""
    if figures["lay"] == "soldier":
        if brick.length != 3 * brick.height + 2 * brick.bed:
            raise trade.TradeError("a soldier of this format is not as high as three courses")
        if Fraction(figures["course"]) < 4:
            raise trade.TradeError("soldiers take the place of three courses, on one at least: course is 4 or more")


def _herringbone(figures: Mapping[str, Fraction | int | str], brick: Format) -> trade.Herringbone:
    wide, high = trade.opening(figures["bricks"], brick), trade.clear_height(figures["courses"], brick)
    if (angle := Fraction(figures["angle"])).denominator != 1:
        raise trade.TradeError("herringbone is laid at 45 or 90 degrees")
    return trade.herringbone(wide, high, brick, int(angle))


def _run_length(run: trade.Run, wide: Fraction) -> Fraction:
    return (run.pieces - 1) * run.pitch + wide


def _from_eye(figures: Mapping[str, Fraction | int | str], brick: Format) -> Fraction:
    return abs(trade.height(figures["course"], brick) - Fraction(figures["eye_height"]))


DRAWING_KINDS: Mapping[str, DrawingKind] = {
    "opening": DrawingKind(
        arguments={"bricks": _span("1/2", 12), "courses": _span(1, 36)},
        optional={},
        dimensions={
            "width": _built(trade.opening, "bricks"),
            "height": _built(trade.clear_height, "courses"),
        },
        says="an opening in its wall, in bond, brick by brick",
    ),
    "pier": DrawingKind(
        arguments={"bricks": _span(1, 12), "courses": _span(1, 30)},
        optional={"courses": Fraction(6)},
        dimensions={"width": _built(trade.pier, "bricks"), "height": _built(trade.height, "courses")},
        says="a pier or length of wall between two stopped ends, in bond",
    ),
    "returned": DrawingKind(
        arguments={"bricks": _span(1, 12), "courses": _span(1, 30)},
        optional={"courses": Fraction(6)},
        dimensions={"width": _built(trade.returned, "bricks"), "height": _built(trade.height, "courses")},
        says="a length of wall from a stopped end to a return",
    ),
    "gauge_rod": DrawingKind(
        arguments={"courses": _span(3, 30), "datum": frozenset({"height", "face", "clear"})},
        optional={"datum": "height"},
        dimensions={
            "height": _built(trade.height, "courses"),
            "face_height": _built(trade.face_height, "courses"),
            "clear_height": _built(trade.clear_height, "courses"),
            "gauge": lambda _, brick: brick.course,
        },
        says="a gauge rod beside its courses, heights from a named datum",
    ),
    "projection": DrawingKind(
        arguments={
            "course": _span(2, 40),
            "eye_height": _span(900, 3500),
            "projects": _span(5, 75),
            "lay": frozenset({"stretcher", "soldier"}),
        },
        optional={"projects": Fraction(25), "lay": "stretcher"},
        dimensions={
            "course_height": _built(trade.height, "course"),
            "eye_height": _own("eye_height"),
            "from_eye": _from_eye,
            "projects": _own("projects"),
        },
        says="section and elevation of a projecting course with the eye line; heights are to the top of the course",
        builds=_soldiers_in_coursing,
    ),
    "wall": DrawingKind(
        arguments={
            "length": _span(500, 20000),
            "height": _span(300, 6000),
            "opening_width": _span(0, 15000),
            "opening_height": _span(0, 5000),
        },
        optional={"opening_width": Fraction(0), "opening_height": Fraction(0)},
        dimensions={name: _own(name) for name in ("length", "height", "opening_width", "opening_height")},
        says="a wall to scale with one opening (none where its size is 0), for quantities",
        builds=opening_in_wall,
    ),
    "panel": DrawingKind(
        arguments={
            "bricks": _span(1, 12),
            "courses": _span(3, 48),
            "starts": frozenset({"stretcher", "soldier"}),
            "drawn": frozenset({"all", "corners"}),
        },
        optional={"starts": "stretcher", "drawn": "all"},
        dimensions={
            "width": lambda figures, brick: trade.basket_weave(figures["bricks"], figures["courses"], brick).width,
            "height": lambda figures, brick: trade.basket_weave(figures["bricks"], figures["courses"], brick).height,
            "from_below": _built(trade.height, "courses"),
        },
        says="a basket-weave panel",
        told={"drawn": {"all": ", brick by brick", "corners": ", the bays at two of its corners drawn"}},
    ),
    "surround": DrawingKind(
        arguments={
            "bricks": _span(2, 12),
            "courses": _span(6, 36),
            "corner": frozenset({"mitred", "butted"}),
            "starts": frozenset({"stretcher", "soldier"}),
        },
        optional={"corner": "mitred", "starts": "stretcher"},
        dimensions={
            "width": _built(trade.opening, "bricks"),
            "height": _built(trade.clear_height, "courses"),
            "panel_width": lambda figures, brick: trade.pier(Fraction(figures["bricks"]) - 1, brick),
        },
        says="a basket-weave panel in its surround, piece by piece, in its opening",
        builds=lambda figures, brick: trade.surround(
            figures["bricks"], figures["courses"], brick, str(figures["corner"])
        ),
    ),
    "mitre": DrawingKind(
        arguments={},
        optional={},
        dimensions={
            "leg": lambda _, brick: trade.mitre_template(brick).leg,
            "cut_length": lambda _, brick: trade.mitre_template(brick).cut_length,
        },
        says="the square corner of a surround at true size, to draw the mitred bat in",
        to_draw_in=True,
    ),
    "herringbone": DrawingKind(
        arguments={"bricks": _span(2, 6), "courses": _span(6, 18), "angle": _span(45, 90)},
        optional={"angle": Fraction(45)},
        dimensions={"width": _built(trade.opening, "bricks"), "height": _built(trade.clear_height, "courses")},
        says="herringbone in an opening, set out from its centre line, whole bricks plain and cut ones hatched",
        builds=_herringbone,
    ),
    "soldiers": DrawingKind(
        arguments={"length": _span(440, 5990)},
        optional={},
        dimensions={
            "length": lambda figures, brick: _run_length(trade.soldiers(figures["length"], brick), brick.height),
            "each": lambda _, brick: brick.height,
            "height": lambda _, brick: brick.length,
        },
        says="the two ends of a soldier course, its middle broken out",
    ),
    "sill": DrawingKind(
        arguments={"length": _span(440, 5990), "stands": _span(10, 75)},
        optional={"stands": Fraction(35)},
        dimensions={
            "length": lambda figures, brick: _run_length(trade.on_edge(figures["length"], brick), brick.height),
            "each": lambda _, brick: brick.height,
            "stands": _own("stands"),
        },
        says="a sill of bricks on edge from the front, its middle broken out, and in section",
    ),
    "dentils": DrawingKind(
        arguments={"length": _span("552.5", "9102.5")},
        optional={},
        dimensions={
            "length": lambda figures, brick: _run_length(
                trade.Run(pieces=sum(trade.dentils(figures["length"], brick)), pitch=brick.half, joint=brick.perpend),
                brick.width,
            ),
            "each": lambda _, brick: brick.width,
        },
        says="the two ends of a dentil course, its middle broken out; headers that stand out are dark",
    ),
    "dog_tooth": DrawingKind(
        arguments={"length": _span(600, 9000), "joint": _span(4, 20)},
        optional={"joint": Fraction(10)},
        dimensions={
            "length": _own("length"),
            "pitch": lambda figures, brick: trade.dog_tooth(figures["length"], brick, figures["joint"]).pitch,
        },
        says="the two ends of a dog-tooth course from above, its middle broken out",
    ),
    "stack_bond": DrawingKind(
        arguments={"bricks": _span(2, 12), "courses": _span(3, 40)},
        optional={},
        dimensions={"width": _built(trade.pier, "bricks"), "height": _built(trade.face_height, "courses")},
        says="the outline of a panel in stack bond with some of its bricks",
        builds=lambda figures, brick: trade.stack_bond(figures["bricks"], figures["courses"], brick),
    ),
    "corbel": DrawingKind(
        arguments={"steps": _span(1, 8), "each": _span(5, 75), "thickness": _span("1/2", 3)},
        optional={"thickness": Fraction(1)},
        dimensions={
            "each": _own("each"),
            "total": lambda figures, _: Fraction(figures["steps"]) * Fraction(figures["each"]),
            "thickness": _built(trade.wall_thickness, "thickness"),
        },
        says="section of a corbel, each course further out than the one below",
    ),
    "square_corner": DrawingKind(
        arguments={"along": _span(300, 12000), "up": _span(300, 12000)},
        optional={},
        dimensions={
            "along": _own("along"),
            "up": _own("up"),
            "tape": lambda figures, _: trade.diagonal(figures["along"], figures["up"]),
        },
        says="a corner squared with a tape: a length along either line, and the tape across",
    ),
    "diagonals": DrawingKind(
        arguments={"width": _span(300, 12000), "height": _span(300, 12000)},
        optional={},
        dimensions={
            "width": _own("width"),
            "height": _own("height"),
            "diagonal": lambda figures, _: trade.diagonal(figures["width"], figures["height"]),
        },
        says="a set-out rectangle with both diagonals, for squaring",
    ),
    **KINDS_OF_WORK,
    **HEIGHT_KINDS,
}


def kind_of(drawing: DrawingAsked) -> DrawingKind:
    """The kind of a drawing; one of the author's own takes no figures, has no dimensions and says its own words."""
    if drawing.own is not None:
        return DrawingKind(arguments={}, optional={}, dimensions={}, says=drawing.own.says)
    return DRAWING_KINDS[drawing.kind]


def drawn_figures(drawing: DrawingAsked, scope: Mapping[str, Value]) -> dict[str, Fraction | int | str]:
    """The figures a drawing is made from: those the bank gives, and what is taken where it gives none."""
    figures: dict[str, Fraction | int | str] = dict(kind_of(drawing).optional)
    for name, formula in drawing.figures.items():
        figures[name] = formula.value(scope)
    return figures
