"""The rules of the card: what the shipped topics teach, each with a figure of the trade core and a drawing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from courseware import trade
from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.banks.figures import half_up, write_out
from courseware.drawings import draw
from courseware.drawings.picture import Picture
from courseware.glossary.pictures import picture
from courseware.papers.sheets import DrawingCall
from courseware.trade import UK_METRIC

_SHEET = "Technical Information Sheet 9"
_PRACTICE = "common practice"
_WASTE = 5  # percent
_ARRIS = {"top": "top", "underside": "under-side"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A rule of a topic; `example` has figures worked out by the trade core, '' where there is nothing to work out."""

    topic: str
    says: str
    example: str
    source: str
    picture: Picture


def rules(arris_rule: str) -> tuple[Rule, ...]:
    """The card's rules for UK metric bricks; `arris_rule` is the centre's for projecting courses."""
    return (*_setting_out(), *_rising(arris_rule), *_decorative(), *_checking())


def _setting_out() -> tuple[Rule, ...]:
    bricks, module, joint = 3, _mm(UK_METRIC.module), _mm(UK_METRIC.perpend)
    wide, short, back = (_mm(size(bricks, UK_METRIC)) for size in (trade.opening, trade.pier, trade.returned))
    return (
        Rule(
            topic="Opening sizes",
            says=f"Opening = bricks × {module} + {joint}: a joint at both ends.",
            example=f"{bricks} bricks: {bricks} × {module} + {joint} = {wide} mm",
            source=_SHEET,
            picture=_drawn("opening", {"width": wide}, bricks=bricks, courses=4),
        ),
        Rule(
            topic="Opening sizes",
            says=f"Pier = bricks × {module} − {joint}: brick at both ends.",
            example=f"{bricks} bricks: {bricks} × {module} − {joint} = {short} mm",
            source=_SHEET,
            picture=_drawn("pier", {"width": short}, bricks=bricks, courses=4),
        ),
        Rule(
            topic="Opening sizes",
            says=f"To a return = bricks × {module}: as many joints as bricks.",
            example=f"{bricks} bricks: {bricks} × {module} = {back} mm",
            source=_SHEET,
            picture=_drawn("returned", {"width": back}, bricks=bricks, courses=4),
        ),
    )


def _rising(arris_rule: str) -> tuple[Rule, ...]:
    courses, course, bed = 4, _mm(UK_METRIC.course), _mm(UK_METRIC.bed)
    high, clear = _mm(trade.height(courses, UK_METRIC)), _mm(trade.clear_height(courses, UK_METRIC))
    low, high_up, eye = 20, 24, Fraction(1650)
    top = trade.height(low, UK_METRIC)
    below, above = (
        _ARRIS[trade.arris_to_level(trade.height(number, UK_METRIC), eye, arris_rule)] for number in (low, high_up)
    )
    return (
        Rule(
            topic="Course gauge",
            says=f"Height = courses × {course}, from the top of the brick below. Clear height: {bed} more.",
            example=f"{courses} courses: {high} mm; clear {clear} mm.",
            source="Tylers and Bricklayers",
            picture=picture("gauge", "four courses"),
        ),
        Rule(
            topic="Levelling projecting courses",
            says=f"Above the eye line level the {above} arris, below it the {below} arris: this centre's rule. "
            "Centres differ.",
            example=f"Course {low} is {_mm(top)} mm up, the eye {_mm(eye)} mm: level the {below} arris.",
            source=_PRACTICE,
            picture=picture("oversail", "a course that stands out"),
        ),
    )


def _decorative() -> tuple[Rule, ...]:
    bricks, courses = 4, 15
    found = trade.surround(bricks, courses, UK_METRIC)
    cut = trade.mitre_template(UK_METRIC)
    long, pitch, joint = 1490, UK_METRIC.height + UK_METRIC.perpend, _mm(UK_METRIC.perpend)
    row = trade.soldiers(long, UK_METRIC)
    return (
        Rule(
            topic="Panels and surrounds",
            says="Three courses make one module, so a basket weave closes. A panel in a half-brick surround is a brick "
            "narrower and three courses lower than its opening.",
            example=f"Opening {bricks} bricks × {courses} courses: panel {_mm(found.panel_bricks)} × "
            f"{found.panel_courses}.",
            source="geometry",
            picture=picture("surround", "a surround"),
        ),
        Rule(
            topic="The mitre template",
            says="Draw the corner full size, step off pieces and joints, halve the corner, half a joint each side of "
            "the line: what is left is the bat.",
            example=f"Leg of the cut {_mm(cut.leg, 1)} mm, its length {_mm(cut.cut_length, 1)} mm.",
            source="geometry",
            picture=picture("mitre", "a mitre"),
        ),
        Rule(
            topic="Decorative courses",
            says=f"Soldiers or bricks on edge = (length + {joint}) ÷ {_mm(pitch)}, whole pieces.",
            example=f"{long} mm: {_mm(Fraction(long) + UK_METRIC.perpend)} ÷ {_mm(pitch)} = {row.pieces} pieces",
            source="geometry",
            picture=_drawn("soldiers", {"length": _mm(Fraction(long))}, length=long),
        ),
    )


def _checking() -> tuple[Rule, ...]:
    along, up, area = 1200, 900, Fraction(2)
    bare = trade.bricks_for_area(area, UK_METRIC, rate="site")
    ordered = trade.order(bare, waste_percent=_WASTE)
    return (
        Rule(
            topic="Squaring and datums",
            says="A corner is square when its sides and the line across are as 3, 4 and 5. A frame is square when both "
            "diagonals are equal.",
            example=f"{up} and {along}: {_mm(trade.diagonal(along, up))} mm across",
            source="geometry",
            picture=_drawn("square_corner", {"along": str(along), "up": str(up)}, along=along, up=up),
        ),
        Rule(
            topic="Resource lists",
            says="Half-brick wall: 60 bricks a square metre at the site rate. Add the waste, then round up once, at "
            "the end.",
            example=f"{_mm(area)} m²: {_mm(area)} × 60 = {_mm(bare)}, {_WASTE} % more: {ordered} bricks",
            source=_PRACTICE,
            picture=_drawn("wall", {"length": "2000", "height": "1000"}, length=2000, height=1000),
        ),
        Rule(
            topic="Safe cutting",
            says="First plan cuts away. Then water or extraction at the tool. Then a mask fitted to your face.",
            example="",
            source="HSE, order of control for dust",
            picture=picture("bat", "a bat"),
        ),
        Rule(
            topic="Sequence of work",
            says="Set out and square; cut and lay dry; bottom run; uprights a few courses; infill course by course; "
            "check; top run; joints; clean; protect.",
            example="",
            source=_PRACTICE,
            picture=picture("panel", "a panel"),
        ),
    )


def _mm(size: Fraction | int, places: int | None = None) -> str:
    exact = Fraction(size)
    return write_out(exact if places is None else half_up(exact, places), places)


def _drawn(kind: str, labels: Mapping[str, str], **figures: int) -> Picture:
    known = DRAWING_KINDS[kind]
    given = {**known.optional, **figures}
    exact = {name: size if isinstance(size, str) else Fraction(size) for name, size in given.items()}
    sizes = ", ".join(f"{name} {size} mm" for name, size in labels.items())
    alt = f"Drawing: {known.says}; {sizes}"
    return draw(DrawingCall(kind=kind, figures=exact, labels=labels, format=UK_METRIC, alt=alt))
