"""What stands below a drawing: a bar that is as long on paper as its length says, and each kind of brick there is."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw
from courseware.drawings.foot import WIDEST, bar_length, footed, scale_bar, scale_words
from courseware.drawings.picture import Label, Picture, Stroke, extent
from courseware.drawings.scale import SCALES
from tests.drawings.test_table_of_kinds import MIDDLING

# At true size with a line of 100 mm; a rod with its lengths broken out; packs, boxes, signs, readings and times.
NO_BAR = {"mitre", "rod_marks", "packs", "batch", "controls", "noise_levels", "turns"}
EMPTY = Picture(width=60.0, height=40.0, marks=(), alt="x")


def bars(picture: Picture) -> list[tuple[float, int]]:
    """Every bar of a picture: how long it is on paper, and what its length says."""
    found, reach = [], []
    for mark in picture.marks:
        if isinstance(mark, Stroke) and mark.closed and mark.fill in (0.0, 1.0):
            reach.append([x for outline in mark.outlines for x, _ in outline])
        elif isinstance(mark, Label) and mark.of_scale and (says := re.fullmatch(r"(\d+) mm", mark.text)):
            dark, light = reach[-2:]
            found.append((max(dark + light) - min(dark + light), int(says[1])))
    return found


@pytest.mark.parametrize("one_to", [*SCALES, 1, 7.3, 27.8, 613])
def test_a_bar_is_as_long_as_it_says_at_its_scale_and_not_too_long(one_to) -> None:
    [(wide, says)] = bars(replace(EMPTY, marks=scale_bar(one_to)))
    assert wide * one_to == pytest.approx(says)
    assert says == bar_length(one_to)
    assert 32 / 2.5 - 1e-9 <= wide <= 32
    assert str(says).strip("0") in "125"


def test_the_bar_is_dark_and_light_in_turn_from_nought() -> None:
    dark, light, _ = scale_bar(20)
    pieces = sorted(
        [(x, fill) for mark, fill in ((dark, "dark"), (light, "light")) for (x, _), *_ in mark.outlines],
    )
    assert pieces[0] == (0.0, "dark")
    assert [fill for _, fill in pieces] == ["dark", "light", "dark", "light", "dark"]


@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_every_drawing_to_scale_has_a_bar_and_its_ratio(kind, calling) -> None:
    """iso-129, ISO 5455 clause 3: the word and the ratio."""
    picture = draw(calling(kind, **MIDDLING[kind]))
    if kind in NO_BAR:
        assert picture.one_to is None
        return
    assert f"scale 1:{picture.one_to:g}" in scale_words(picture)
    assert picture.one_to in SCALES
    lengths = bars(picture)
    wide, says = lengths[-1]  # the foot's: a view of its own scale has its own before it
    assert wide * picture.one_to == pytest.approx(says, rel=1e-6)


def test_a_ratio_that_is_no_usual_scale_is_not_written_and_a_screen_has_none() -> None:
    assert "scale 1:20" in scale_words(footed(EMPTY, 20))
    assert [word for word in scale_words(footed(EMPTY, 27.8)) if "scale" in word] == []
    assert [word for word in scale_words(footed(EMPTY, 20, ratio=False)) if "scale" in word] == []


@pytest.mark.parametrize(
    ("kinds", "said"),
    [((), []), (("whole",), []), (("whole", "half"), ["whole", "half"]), (("whole", "out"), ["whole", "stands out"])],
)
def test_the_legend_names_the_kinds_where_there_is_more_than_one(kinds, said) -> None:
    assert list(scale_words(footed(EMPTY, None, kinds))) == said


def test_a_picture_to_no_scale_and_of_one_kind_has_no_foot() -> None:
    assert footed(EMPTY, None, ("whole",)) == EMPTY


def test_the_foot_stands_below_the_picture_and_within_its_width() -> None:
    kinds = ("whole", "soldier", "half", "mitred bat", "corner piece")
    for wide in (30.0, 60.0, WIDEST, 150.0):
        picture = footed(replace(EMPTY, width=wide), 15, kinds)
        corners = [corner for mark in picture.marks for corner in extent(mark)]
        assert min(y for _, y in corners) >= EMPTY.height
        assert max(y for _, y in corners) <= picture.height
        assert min(x for x, _ in corners) >= 0
        assert max(x for x, _ in corners) <= picture.width <= max(wide, WIDEST)
        assert picture.body == replace(EMPTY, width=wide)


def test_a_body_narrower_than_its_foot_stands_in_the_middle_of_it() -> None:
    body = replace(EMPTY, width=20.0, marks=(Stroke(outlines=(((5.0, 5.0), (15.0, 5.0)),)),))
    picture = footed(body, 20)
    [first, *_] = picture.marks
    left, right = (x for x, _ in first.outlines[0])
    assert picture.width > 20
    assert left - 0 == pytest.approx(picture.width - right, abs=0.01)


@pytest.mark.parametrize(
    ("kind", "figures", "legend"),
    [
        ("pier", {"bricks": 3, "courses": 1}, ("whole",)),
        ("pier", {"bricks": 3, "courses": 2}, ("whole", "half")),
        ("pier", {"bricks": "3.5", "courses": 1}, ("whole", "half")),
        ("surround", {"bricks": 4, "courses": 15, "corner": "butted"}, ("whole", "soldier", "half")),
        ("surround", {"bricks": 4, "courses": 16, "corner": "mitred"}, ("half", "mitred bat", "corner piece")),
        ("panel", {"bricks": 1, "courses": 3}, ("whole",)),
        ("herringbone", {"bricks": 4, "courses": 12}, ("whole", "cut")),
    ],
)
def test_the_legend_has_the_kinds_that_are_there_and_no_others(kind, figures, legend, calling) -> None:
    assert draw(calling(kind, **figures)).legend == legend


@pytest.mark.parametrize(("widest", "says"), [(110.0, 500), (50.0, 500), (49.0, 200), (40.0, 200)])
def test_a_bar_leaves_room_for_its_words_in_a_narrow_room(widest: float, says: int) -> None:
    """At 1 to 16, 500 mm are 31.25 mm of paper, and 200 mm are 12.5: a room of 50 mm leaves 32 for the bar."""
    narrow = replace(EMPTY, width=30.0)
    [(_, length)] = bars(footed(narrow, 16.0, ratio=False, widest=widest))
    assert length == says
