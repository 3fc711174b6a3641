"""Kinds of drawing of work as it is planned, stored, cut and built: corners, stages, stacks and shares of a day."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from courseware import trade
from courseware.banks.drawing_kind import DrawingKind, Figures, Measure, built, own, span
from courseware.trade import Format


def _run_top(figures: Figures, brick: Format, run: str) -> Fraction:
    """The top of a run of a projecting frame above the floor; it is the same wherever the eye and the face are."""
    frame = trade.projecting_frame(figures["courses"], figures["below"], Fraction(1, 7), 5, brick)
    return frame.bottom_height if run == "bottom" else frame.top_height


def _joint(figures: Figures, brick: Format) -> Fraction:
    """The joint of a patch of wall: its own, or the brick's bed where it gives none."""
    return Fraction(figures["joint"]) or brick.bed


def _woven(figures: Figures, _: Format) -> None:
    if Fraction(figures["infill"]) % 3:
        raise trade.TradeError("a woven panel rises in bays of three courses: take a multiple of 3")


def _product(one: str, other: str) -> Measure:
    return lambda figures, _: Fraction(figures[one]) * Fraction(figures[other])


KINDS_OF_WORK: Mapping[str, DrawingKind] = {
    "mitred_corner": DrawingKind(
        arguments={
            "corner": span(76, 112),
            "gap": frozenset({"joint", "touching", "double", "gaping"}),
        },
        optional={"corner": Fraction(90), "gap": "joint"},
        dimensions={
            "corner": own("corner"),
            "cut": lambda figures, brick: trade.mitre_template(brick, figures["corner"]).angle,
            "wide": lambda _, brick: brick.height,
            "deep": lambda _, brick: brick.width,
            "joint": lambda _, brick: trade.piece_joint(brick),
        },
        units={"corner": "°", "cut": "°"},
        says="a corner of a surround piece by piece: its corner piece, a bat on either side of the mitre and the "
        "line that halves the corner",
        told={
            "gap": {
                "touching": "; the two bats touch along the whole mitre",
                "double": "; the gap between the two bats is twice as wide as a joint",
                "gaping": "; the two bats meet at one end of the mitre and gape at the other",
            }
        },
        builds=lambda figures, brick: trade.mitre_template(brick, figures["corner"]),
    ),
    "bat_hands": DrawingKind(
        arguments={},
        optional={},
        dimensions={
            "wide": lambda _, brick: brick.height,
            "deep": lambda _, brick: brick.width,
            "leg": lambda _, brick: trade.mitre_template(brick).leg,
        },
        says="the two hands of a mitred bat beside one another, left and right of the line of the mitre",
    ),
    "template_lines": DrawingKind(
        arguments={},
        optional={},
        dimensions={"joint": lambda _, brick: trade.piece_joint(brick)},
        says="a square corner set out on a board: pieces stepped along both edges, depth lines, the halving line and "
        "the joint about it, the bat shaded",
    ),
    "surround_corners": DrawingKind(
        arguments={"bricks": span(2, 12), "courses": span(6, 36), "corner": frozenset({"mitred", "butted"})},
        optional={"corner": "mitred"},
        dimensions={
            "width": built(trade.opening, "bricks"),
            "height": built(trade.clear_height, "courses"),
            "bricks": own("bricks"),
            "courses": own("courses"),
        },
        units={"bricks": "bricks", "courses": "courses"},
        says="a surround in its opening, drawn piece by piece at its four corners alone",
        builds=lambda figures, brick: trade.surround(
            figures["bricks"], figures["courses"], brick, str(figures["corner"])
        ),
    ),
    "uprights": DrawingKind(
        arguments={"infill": span(9, 60), "ahead": span(1, 4)},
        optional={},
        dimensions={
            "infill": own("infill"),
            "ahead": own("ahead"),
            "uprights": lambda figures, _: Fraction(figures["infill"]) + Fraction(figures["ahead"]),
        },
        units={"infill": "courses", "ahead": "courses", "uprights": "courses"},
        says="an upright of a surround and the woven panel beside it while both rise, their middle broken out",
        builds=_woven,
    ),
    "weave_gap": DrawingKind(
        arguments={"gap": span(9, 60)},
        optional={},
        dimensions={"gap": own("gap")},
        units={"gap": "courses"},
        says="the left side of a gap in a wall with the first bays of a woven panel in it, the middle broken out",
    ),
    "frame_section": DrawingKind(
        arguments={
            "courses": span(9, 30),
            "below": span(1, 30),
            "eye_height": span(900, 3500),
            "projects": span(5, 56),
        },
        optional={"projects": Fraction(25)},
        dimensions={
            "eye_height": own("eye_height"),
            "bottom_run_height": lambda figures, brick: _run_top(figures, brick, "bottom"),
            "top_run_height": lambda figures, brick: _run_top(figures, brick, "top"),
        },
        says="section of a wall from the floor up through the projecting frame of a panel, with the eye line",
    ),
    "wall_section": DrawingKind(
        arguments={"thickness": span("1/2", 1), "built": frozenset({"cavity", "free"})},
        optional={"built": "free"},
        dimensions={"thickness": built(trade.wall_thickness, "thickness")},
        says="section of a wall on its foundation, its middle broken out",
        told={
            "built": {
                "cavity": "; behind the brick leaf a cavity and a leaf of blocks, tied to it",
                "free": "; it stands on its own, with a coping on top",
            }
        },
    ),
    "patch": DrawingKind(
        arguments={"thickness": span("1/2", 1), "joint": span(0, 15), "frog": span(0, 20)},
        optional={"thickness": Fraction(1, 2), "joint": Fraction(0), "frog": Fraction(0)},
        dimensions={
            "brick_length": lambda _, brick: brick.length,
            "brick_height": lambda _, brick: brick.height,
            "joint": _joint,
            "thickness": built(trade.wall_thickness, "thickness"),
            "face": lambda figures, brick: (
                (brick.length + _joint(figures, brick)) * (brick.height + _joint(figures, brick))
            ),
        },
        units={"face": "mm²"},
        says="a patch of wall from the front and in section, its mortar dark, and one brick outlined with its joints",
    ),
    "packs": DrawingKind(
        arguments={"first": span(1, 1000), "second": span(0, 1000), "third": span(0, 1000), "loose": span(0, 100)},
        optional={"second": Fraction(0), "third": Fraction(0), "loose": Fraction(0)},
        dimensions={name: own(name) for name in ("first", "second", "third", "loose")},
        units=dict.fromkeys(("first", "second", "third", "loose"), "bricks"),
        says="packs of bricks on pallets, as high as they hold bricks, and any loose bricks beside them",
    ),
    "batch": DrawingKind(
        arguments={"sand": span(1, 8), "bag": span(5, 50)},
        optional={"bag": Fraction(25)},
        dimensions={"sand": own("sand"), "bag": own("bag")},
        units={"sand": "boxes", "bag": "kg"},
        says="what goes into a batch of mortar by gauge boxes of one size: one box of cement beside those of sand",
    ),
    "lintel": DrawingKind(
        arguments={"bricks": span(2, 16), "bearing": span(100, 300)},
        optional={"bearing": Fraction(150)},
        dimensions={
            "opening": built(trade.opening, "bricks"),
            "bearing": own("bearing"),
            "length": lambda figures, brick: trade.opening(figures["bricks"], brick) + 2 * Fraction(figures["bearing"]),
        },
        says="the head of an opening with its lintel, which bears on the wall at both ends",
    ),
    "controls": DrawingKind(
        arguments={},
        optional={},
        dimensions={},
        says="four small pictures, in no order: a mask; a saw with water and extraction; an opening in whole and half "
        "bricks; cuts brought together at one marked place",
    ),
    "noise_levels": DrawingKind(
        arguments={"low": span(70, 79), "middle": span(80, 85), "high": span(85, 95)},
        optional={},
        dimensions={
            "low": own("low"),
            "middle": own("middle"),
            "high": own("high"),
            "over_first": lambda figures, _: Fraction(figures["middle"]) - 80,
            "over_second": lambda figures, _: Fraction(figures["high"]) - 85,
        },
        units=dict.fromkeys(("low", "middle", "high", "over_first", "over_second"), "dB(A)"),
        says="three readings of noise as bars, against the action values of 80 and 85 dB(A) and the limit of 87 dB(A)",
    ),
    "turns": DrawingKind(
        arguments={"pieces": span(3, 200), "each": span(1, 90), "people": span(0, 6), "share": span(0, 60)},
        optional={"people": Fraction(0), "share": Fraction(0)},
        dimensions={
            "pieces": own("pieces"),
            "each": own("each"),
            "people": own("people"),
            "share": own("share"),
            "total": _product("pieces", "each"),
        },
        units={"people": "people", "pieces": "in all", "each": "minutes", "share": "minutes", "total": "minutes"},
        says="work as a bar of equal pieces of time, its middle broken out; if people share it, their time in a day",
    ),
    "carrier": DrawingKind(
        arguments={"bricks": span(2, 12), "each": span(1, 5), "empty": span("0.5", 5)},
        optional={},
        dimensions={
            "bricks": own("bricks"),
            "each": own("each"),
            "empty": own("empty"),
            "load": lambda figures, _: (
                Fraction(figures["bricks"]) * Fraction(figures["each"]) + Fraction(figures["empty"])
            ),
        },
        units={"bricks": "bricks", "each": "kg", "empty": "kg", "load": "kg"},
        says="a brick carrier with its bricks side by side, held by its handle",
    ),
    "lifts": DrawingKind(
        arguments={"lifts": span(2, 8), "each": span(3, 24)},
        optional={},
        dimensions={
            "lift": built(trade.height, "each"),
            "each": own("each"),
            "courses": _product("lifts", "each"),
        },
        units={"each": "courses", "courses": "courses"},
        says="a wall that goes up in lifts, the first drawn course by course, those over it broken out",
    ),
    "two_gangs": DrawingKind(
        arguments={
            "bricks": span(6, 30),
            "courses": span(6, 40),
            "first": span(10, 90),
            "second": span(10, 90),
        },
        optional={},
        dimensions={name: own(name) for name in ("bricks", "courses", "first", "second")},
        units={"bricks": "bricks", "courses": "courses", "first": "an hour", "second": "an hour"},
        says="a wall that two gangs build from both ends along one line, three courses laid and the next begun",
    ),
}
