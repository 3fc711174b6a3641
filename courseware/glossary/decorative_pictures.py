"""Panels, surrounds and patterns, from the drawings that papers have, and what is checked with a tape."""

from __future__ import annotations

from fractions import Fraction

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw
from courseware.drawings.dimension import Marks
from courseware.drawings.enlarged import resized
from courseware.drawings.frame import View
from courseware.drawings.lines import GROUND
from courseware.drawings.panel import bays
from courseware.drawings.picture import Stroke
from courseware.drawings.surround import pieces
from courseware.glossary.emphasis import Outline, dark, light
from courseware.papers.sheets import DrawingCall
from courseware.trade import UK_METRIC, basket_weave, mitre_template, surround

_VIEW = View(one_to=45)
_PANEL, _MITRE = View(one_to=26), View(one_to=14)
_NEAR = 420  # mm of the surround's corner
_FOUND = surround(4, 15, UK_METRIC)
_WEAVE = basket_weave(_FOUND.panel_bricks, _FOUND.panel_courses, UK_METRIC)
_CORNER = (_FOUND.width - _WEAVE.width) / 2, (_FOUND.height - _WEAVE.height) / 2
_SMALL = (46.0, 26.0)  # mm for a drawing of a paper, made smaller


def basket_weave_panel() -> Marks:
    weave = basket_weave(3, 9, UK_METRIC)
    return bays(_PANEL, weave, (Fraction(0), Fraction(0)))


def bay() -> Marks:
    """Three stretchers or three soldiers: one of each course's squares."""
    module = UK_METRIC.module
    side = module - UK_METRIC.perpend
    return (*basket_weave_panel(), *_ring(_PANEL.box(module, module, module + side, module + side)))


def panel() -> Marks:
    (left, foot), weave = _CORNER, _WEAVE
    return (*_framed(), *dark(_VIEW.box(left, foot, left + weave.width, foot + weave.height)))


def surround_itself() -> Marks:
    found = tuple(tuple(_VIEW.at(x, y) for x, y in piece.outline) for piece in _FOUND.pieces)
    return (*light(*_hole()), *bays(_VIEW, _WEAVE, _CORNER), *dark(*found))


def mitre() -> Marks:
    """The lower left corner: the mitre joint runs from the panel's corner to the corner piece."""
    near = [piece for piece in _FOUND.pieces if all(max(place) < _NEAR for place in piece.outline)]

    def on_paper(*, bats: bool) -> tuple[Outline, ...]:
        wanted = [piece for piece in near if (piece.kind == "mitred bat") is bats]
        return tuple(tuple(_MITRE.at(x, y) for x, y in piece.outline) for piece in wanted)

    return (*light(*on_paper(bats=False)), *dark(*on_paper(bats=True)))


def template() -> Marks:
    """A board cut to the mitred bat's face, with its mirror image beside it."""
    outline = [(float(x), float(y)) for x, y in mitre_template(UK_METRIC).outline]
    right = max(x for x, _ in outline)
    mirror = [(2 * right + 25 - x, y) for x, y in outline]
    return dark(*(tuple((x / 4, -y / 4) for x, y in corners) for corners in (outline, mirror)))


def herringbone() -> Marks:
    return _drawn("herringbone", bricks=3, courses=9)


def dog_tooth() -> Marks:
    return _drawn("dog_tooth", length=1200)


def square_corner() -> Marks:
    return _drawn("square_corner", along=1200, up=900)


def diagonals() -> Marks:
    return _drawn("diagonals", width=2400, height=1400)


def _ring(outline: Outline) -> Marks:
    return (GROUND.stroke(outline, closed=True),)


def _framed() -> Marks:
    return (*light(*_hole()), *pieces(_VIEW, _FOUND))


def _hole() -> tuple[Outline]:
    return (_VIEW.box(0, 0, _FOUND.width, _FOUND.height),)


def _drawn(kind: str, **figures: int) -> Marks:
    """A drawing of a paper without its words, made smaller."""
    known = DRAWING_KINDS[kind]
    exact = {name: _exact(figure) for name, figure in {**known.optional, **figures}.items()}
    made = draw(DrawingCall(kind=kind, figures=exact, labels={}, format=UK_METRIC, alt=""))
    made = made.body or made
    by = min(_SMALL[0] / made.width, _SMALL[1] / made.height)
    lines = resized(made, by, lambda size: size, by).marks
    return tuple(mark for mark in lines if isinstance(mark, Stroke))


def _exact(figure: Fraction | int | str) -> Fraction | str:
    return figure if isinstance(figure, str) else Fraction(figure)
