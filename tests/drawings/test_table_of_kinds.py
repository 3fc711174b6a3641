"""The kinds a bank may ask for are the kinds that are drawn, and each is drawn anywhere within its limits."""

import itertools
from pathlib import Path

import pytest

from courseware import drawings
from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw, to_svg
from courseware.drawings.picture import Label
from courseware.trade import UK_METRIC, TradeError


def test_every_kind_known_to_banks_is_drawn_and_no_other() -> None:
    drawn = {name.removeprefix("draw_") for name in vars(drawings) if name.startswith("draw_")}
    assert drawn - {"own"} == set(DRAWING_KINDS)  # an author's own comes with its picture


def _at_its_limits(kind):
    known = DRAWING_KINDS[kind].arguments
    names = list(known)
    ranges = [sorted(known[name]) for name in names]
    return [dict(zip(names, values, strict=True)) for values in itertools.product(*ranges)]


def _can_be_built(kind, figures) -> bool:
    """Whether the proof lets these figures through: an opening larger than its wall, say, is refused."""
    known = DRAWING_KINDS[kind]
    try:
        for measure in [*known.dimensions.values(), *([known.builds] if known.builds else [])]:
            measure({**known.optional, **figures}, UK_METRIC)
    except TradeError:
        return False
    return True


@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_a_kind_is_drawn_at_the_least_and_the_most_of_each_argument(kind, calling) -> None:
    for figures in _at_its_limits(kind):
        if not _can_be_built(kind, figures):
            continue
        picture = drawings.draw(calling(kind, **figures))
        assert picture.marks, figures
        assert picture.width > 0
        assert picture.height > 0


@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_every_dimension_of_a_kind_is_written_when_it_is_given(kind, calling) -> None:
    figures = MIDDLING[kind]
    for dimension in DRAWING_KINDS[kind].dimensions:
        picture = drawings.draw(calling(kind, {dimension: "MARK"}, **figures))
        said = [mark.text for mark in picture.marks if isinstance(mark, Label) and "MARK" in mark.text]
        assert len(said) == 1, dimension


MIDDLING = {
    "opening": {"bricks": 4, "courses": 12},
    "pier": {"bricks": 3},
    "returned": {"bricks": 3},
    "gauge_rod": {"courses": 8},
    "projection": {"course": 12, "eye_height": 1600},
    "wall": {"length": 4000, "height": 2400, "opening_width": 1200, "opening_height": 1050},
    "panel": {"bricks": 3, "courses": 9},
    "surround": {"bricks": 4, "courses": 15},
    "mitre": {},
    "herringbone": {"bricks": 4, "courses": 12},
    "soldiers": {"length": 2015},
    "sill": {"length": 1565},
    "dentils": {"length": "1002.5"},
    "dog_tooth": {"length": 2000},
    "stack_bond": {"bricks": 6, "courses": 20},
    "corbel": {"steps": 4, "each": 40},
    "fixed_height": {"laid": 6, "fixed": 1800, "over": "lintel"},
    "heights": {"courses": 20},
    "rod_marks": {"lowest": 8, "step": 4, "first": 600, "second": 900, "third": 1210, "fourth": 1500},
    "lining_through": {"gauge": 78, "brick": 66},
    "beside_old": {"courses": 20, "drop": 300},
    "datum_carried": {"datum": 1200, "steps": 5, "courses": 8},
    "bands": {"first": 5, "second": 12, "third": 26, "fourth": 32, "eye_height": 1550},
    "above_the_eye": {"eye_height": 1550, "more": 5},
    "string_course": {"bricks": 18, "course": 28},
    "corbel_reach": {"reach": 120, "wall": 440, "top_course": 30},
    "gap": {"width": 1360, "height": 910},
    "reveals": {"bricks": 6, "courses": 10},
    "windows": {"end": 3, "window": 6, "middle": 3, "courses": 20},
    "square_corner": {"along": 1200, "up": 900},
    "diagonals": {"width": 2400, "height": 1800},
    "mitred_corner": {"corner": 96},
    "bat_hands": {},
    "template_lines": {},
    "surround_corners": {"bricks": 5, "courses": 15},
    "uprights": {"infill": 15, "ahead": 2},
    "weave_gap": {"gap": 23},
    "frame_section": {"courses": 12, "below": 14, "eye_height": 1500},
    "wall_section": {"thickness": 1},
    "patch": {"frog": 10},
    "packs": {"first": 400, "second": 452, "third": 500, "loose": 35},
    "batch": {"sand": 5},
    "lintel": {"bricks": 5},
    "controls": {},
    "noise_levels": {"low": 76, "middle": 82, "high": 89},
    "turns": {"pieces": 48, "each": 5, "people": 3, "share": 30},
    "carrier": {"bricks": 7, "each": "2.3", "empty": 2},
    "lifts": {"lifts": 4, "each": 12},
    "two_gangs": {"bricks": 15, "courses": 18, "first": 45, "second": 30},
}


@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_a_picture_changes_only_where_somebody_meant_it_to(kind, calling, same_text) -> None:
    """Every stroke of it, pens and greys too: once with each other dimension given and a box to write in for the rest,
    once the other way round. A golden picture says only that nothing has moved: whether it is right is for the tests
    that read it back."""
    pictures = [
        to_svg(draw(calling(kind, {name: "1234.5" if n % 2 == odd else None for n, name in enumerate(known)}, **sizes)))
        for known, sizes in [(DRAWING_KINDS[kind].dimensions, MIDDLING[kind])]
        for odd in (0, 1)
    ]
    same_text(Path(__file__).parent / "golden" / f"{kind}.txt", "\n\n".join(pictures).replace("><", ">\n<"))
