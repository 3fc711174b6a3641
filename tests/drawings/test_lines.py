"""Pens by what they draw: widths and types of ISO 128, and no drawing has a pen of its own."""

from __future__ import annotations

from itertools import pairwise

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw, lines
from courseware.drawings.lines import CENTRE, CUT, FINE, GROUND, HIDDEN, REFERENCE, SEEN, SYMBOL, Line
from courseware.drawings.picture import Stroke
from tests.drawings.test_table_of_kinds import MIDDLING

PENS = [pen for pen in vars(lines).values() if isinstance(pen, Line)]
# iso-128, part 20: widths, each about 1.4 times the one before; part 23, "Line widths": the group used.
WIDTHS = [0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0]
NARROW, SYMBOLS, WIDE, EXTRA_WIDE = 0.18, 0.25, 0.35, 0.7


def test_every_width_is_one_of_the_standard_and_they_step_by_root_two() -> None:
    assert {pen.weight for pen in PENS} <= set(WIDTHS)
    assert all(b / a == pytest.approx(2**0.5, abs=0.05) for a, b in pairwise(WIDTHS))


def test_what_is_cut_is_heavy_what_is_seen_light_and_the_three_are_as_four_two_one() -> None:
    """iso-128, part 23, row 0.18 0.25 0.35 0.7; heavier for what is cut (ISO 7519 as described)."""
    assert (SEEN.weight, SYMBOL.weight, CUT.weight, GROUND.weight) == (NARROW, SYMBOLS, WIDE, EXTRA_WIDE)
    assert CUT.weight / SEEN.weight == pytest.approx(2, rel=0.05)
    assert GROUND.weight / CUT.weight == pytest.approx(2)
    assert FINE.weight < SEEN.weight


@pytest.mark.parametrize(
    ("pen", "type", "pieces"),
    [
        (CUT, "01.2", 0),  # iso-128, part 24: lines of cuts and sections
        (SEEN, "01.1", 0),
        (REFERENCE, "01.1", 0),  # dimension, extension and leader lines
        (HIDDEN, "02.1", 2),  # hidden edges: dash, gap
        (CENTRE, "04.1", 4),  # centre lines and lines of symmetry: long dash, gap, dot, gap
    ],
)
def test_a_line_is_of_the_type_that_says_what_it_shows(pen, type, pieces) -> None:
    assert pen.type == type
    assert len(pen.dash) == pieces
    narrow = pen.type.endswith(".1")
    assert (pen.weight <= NARROW) is narrow
    if pieces == 4:
        long, gap, dot, last = pen.dash
        assert long > gap == last > dot > 0


PICTURED = {"controls", "carrier", "noise_levels"}  # signs and a graph: no drawing of work


@pytest.mark.parametrize("kind", sorted(set(DRAWING_KINDS) - PICTURED))
def test_no_drawing_has_a_pen_of_its_own(kind, calling) -> None:
    known = {pen.weight for pen in PENS}
    for text in ("1234.5", None):
        labels = dict.fromkeys(DRAWING_KINDS[kind].dimensions, text)
        strokes = [m for m in draw(calling(kind, labels, **MIDDLING[kind])).marks if isinstance(m, Stroke)]
        assert {mark.weight for mark in strokes if mark.weight} <= known
