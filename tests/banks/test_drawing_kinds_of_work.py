"""Kinds of drawing of work: what each dimension measures, and what cannot be drawn."""

from fractions import Fraction

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.banks.drawing_kinds_of_work import KINDS_OF_WORK
from courseware.trade import AUSTRALIAN, GERMAN_NF, UK_METRIC, TradeError

ROWS = [
    ("mitred_corner", {"corner": 96, "gap": "joint"}, "cut", UK_METRIC, 48, "a mitre halves its corner: geometry"),
    ("bat_hands", {}, "deep", GERMAN_NF, 115, "DIN 4172: NF is 240 by 115 by 71"),
    ("surround_corners", {"bricks": 4, "courses": 15}, "width", UK_METRIC, 910, "sheet-9, Table 1, CO+"),
    ("uprights", {"infill": 12, "ahead": 3}, "uprights", UK_METRIC, 15, "so many courses higher"),
    ("frame_section", {"courses": 15, "below": 6}, "bottom_run_height", UK_METRIC, "562.5", "450, a bed, half a brick"),
    ("frame_section", {"courses": 15, "below": 6}, "top_run_height", UK_METRIC, 1575, "21 courses of 75"),
    ("wall_section", {"thickness": 1}, "thickness", UK_METRIC, 215, "sheet-9, Table 1"),
    ("patch", {"joint": 12}, "face", AUSTRALIAN, 21296, "(230 + 12) by (76 + 12)"),
    ("patch", {"joint": 0}, "face", UK_METRIC, 16875, "225 by 75"),
    ("lintel", {"bricks": 4, "bearing": 150}, "length", UK_METRIC, 1210, "910 and 150 at both ends"),
    ("noise_levels", {"middle": 83}, "over_first", UK_METRIC, 3, "80 dB(A): Control of Noise at Work Regulations 2005"),
    ("noise_levels", {"high": 91}, "over_second", UK_METRIC, 6, "85 dB(A): the same"),
    ("turns", {"pieces": 40, "each": 6}, "total", UK_METRIC, 240, "40 times 6"),
    ("carrier", {"bricks": 6, "each": "2.5", "empty": 2}, "load", UK_METRIC, 17, "6 times 2.5, and 2"),
    ("lifts", {"lifts": 4, "each": 12}, "lift", UK_METRIC, 900, "4 courses to 300 mm"),
    ("lifts", {"lifts": 4, "each": 12}, "courses", UK_METRIC, 48, "4 times 12"),
    ("panel", {"courses": 12}, "from_below", GERMAN_NF, 1000, "DIN 4172: 3 courses of NF to 250 mm"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "figures", "dimension", "brick", "size", "source"), ROWS)
def test_a_dimension_measures_what_it_is_called(kind, figures, dimension, brick, size, source) -> None:
    exact = {name: figure if str(figure).isalpha() else Fraction(figure) for name, figure in figures.items()}
    assert DRAWING_KINDS[kind].dimensions[dimension](exact, brick) == Fraction(size), source


@pytest.mark.parametrize(("infill", "closes"), [(11, False), (12, True), (13, False)])
def test_a_panel_that_rises_does_so_in_threes(infill, closes) -> None:
    builds = KINDS_OF_WORK["uprights"].builds
    if closes:
        builds({"infill": Fraction(infill)}, UK_METRIC)
    else:
        with pytest.raises(TradeError, match="bays of three courses"):
            builds({"infill": Fraction(infill)}, UK_METRIC)


@pytest.mark.parametrize("kind", KINDS_OF_WORK)
def test_what_is_not_in_mm_is_a_dimension_and_what_is_told_a_word_of_it(kind) -> None:
    known = KINDS_OF_WORK[kind]
    assert set(known.units) <= set(known.dimensions)
    for name, by_word in known.told.items():
        assert set(by_word) <= known.arguments[name]
    assert set(known.optional) <= set(known.arguments)
