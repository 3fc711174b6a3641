"""Drawings for large print: no word is under the size asked for, none lies on another, none is lost, boxes neither."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.banks.own_picture import OwnPicture, OwnWords
from courseware.drawings import draw
from courseware.drawings.dimension import BLANK, SMALL_BOX
from courseware.drawings.fitted import touching
from courseware.drawings.large_type import grown, in_large_type, lettering
from courseware.drawings.picture import Label, Picture, Stroke, extent
from courseware.papers.sheets import DrawingCall
from courseware.trade import UK_METRIC
from tests.drawings.conftest import call_for
from tests.drawings.test_table_of_kinds import MIDDLING

POINT = 25.4 / 72  # mm
PAGES = {"A4": (171.0, 248.0), "A3": (258.0, 371.0)}  # mm between the margins of a paper in large type
SIZES = {"large-14": 14, "large-18": 18, "large-24": 24}


def rooms(sheet: str) -> list[tuple[float, float]]:
    wide, high = PAGES[sheet]
    return [(wide, high * 0.45), (wide, high * 0.9)]


def calls(kind: str) -> Iterator[DrawingCall]:
    """A kind with all its sizes told, and with every other one asked for."""
    names = list(DRAWING_KINDS[kind].dimensions)
    for told in (1, 2):
        labels = {name: None if place % told else "1234.5" for place, name in enumerate(names)}
        in_it = DRAWING_KINDS[kind].to_draw_in  # then its sizes are told on the key alone
        yield replace(call_for(kind, {} if in_it else labels, **MIDDLING[kind]), to_draw_in=in_it)


def words(picture: Picture) -> list[Label]:
    return [mark for mark in picture.marks if isinstance(mark, Label)]


def boxes(picture: Picture, times: float) -> int:
    """How many boxes to write in there are that are so many times as large as a small one."""
    sides = sorted(SMALL_BOX * side * times for side in BLANK)
    found = 0
    for mark in picture.marks:
        if isinstance(mark, Stroke) and mark.closed and mark.fill == 1.0:
            for outline in mark.outlines:
                across, down = [x for x, _ in outline], [y for _, y in outline]
                own = sorted((max(across) - min(across), max(down) - min(down)))
                found += own == pytest.approx(sides, rel=0.03)
    return found


@pytest.mark.parametrize("kind", ["opening", "packs", "projection", "rod_marks", "mitre"])
def test_no_word_is_under_24_points_or_on_another_or_off_a_page_of_a4(kind: str) -> None:
    """Over all kinds, at 18 points and on A3 too, in `test_large_type_of_every_kind.py`."""
    for call in calls(kind):
        check(call, "A4", 24)


def check(call: DrawingCall, sheet: str, size: int) -> None:
    """No word is under so many points, off the page, or on another that it stood apart from."""
    picture = in_large_type(call, rooms(sheet), size * POINT)
    assert all(word.size >= size * POINT - 1e-6 for word in words(picture))
    assert picture.width <= PAGES[sheet][0] + 0.01
    assert picture.height <= PAGES[sheet][1] + 0.01
    for word in words(picture):
        across, down = zip(*extent(word), strict=True)
        assert min(across) > -0.01, word.text
        assert max(across) < picture.width + 0.01, word.text
        assert min(down) > -0.01, word.text
        assert max(down) < picture.height + 0.01, word.text
    assert lying_on_another(picture) <= touching(draw(call))


def lying_on_another(picture: Picture) -> int:
    """Pairs of words that share more than a fifth of a mm each way."""
    around = [(min(x), min(y), max(x), max(y)) for x, y in (zip(*extent(word), strict=True) for word in words(picture))]
    return sum(min(a[2] - b[0], b[2] - a[0], a[3] - b[1], b[3] - a[1]) > 0.2 for a, b in combinations(around, 2))


@pytest.mark.parametrize("size", SIZES)
def test_every_size_is_told_once_and_every_size_asked_for_has_a_box(size: str) -> None:
    """Whether it stands in the drawing or in the list below it: the packs have a list even at 14 points."""
    for kind in ("opening", "packs", "noise_levels"):
        names = list(DRAWING_KINDS[kind].dimensions)
        labels = {name: None if place % 2 else f"{place}234" for place, name in enumerate(names)}
        picture = in_large_type(call_for(kind, labels, **MIDDLING[kind]), rooms("A4"), SIZES[size] * POINT)
        said = " ".join(word.text for word in words(picture))
        assert all(said.count(text) == 1 for text in labels.values() if text), kind
        times = min(word.size for word in words(picture)) / 2.9  # mm of the smallest type of a drawing
        assert boxes(picture, times) >= list(labels.values()).count(None), kind


def test_letters_run_from_the_top_left_and_each_is_explained_once() -> None:
    drawn = Picture(
        width=40,
        height=40,
        alt="",
        marks=(
            Label(at=(30.0, 10.0), text="lintel"),
            Label(at=(5.0, 10.0), text="datum"),
            Label(at=(5.0, 30.0), text="datum"),
            Label(at=(5.0, 20.0), text="12"),
            Label(at=(9.0, 20.0), text="\ue000"),
            Label(at=(9.0, 35.0), text="bed \ue001"),
        ),
    )
    found = lettering(drawn, {"\ue000": "", "\ue001": "10"})
    assert found.letters == {"12": "12", "datum": "A", "lintel": "B", "\ue000": "C", "bed \ue001": "D"}
    assert found.says == {"A": "datum", "B": "lintel", "C": "", "D": "bed 10"}


def test_a_letter_that_the_drawing_has_already_stands_for_nothing_else() -> None:
    drawn = Picture(width=9, height=9, alt="", marks=(Label(at=(1.0, 1.0), text="A"), Label(at=(1.0, 5.0), text="arris")))  # fmt: skip
    assert lettering(drawn, {}).letters == {"A": "A", "arris": "B"}


@pytest.mark.parametrize(("size", "times"), [(2.9, 1.0), (2.8, 1.0), (5.8, 2.0)])
def test_a_picture_is_made_larger_never_smaller(size: float, times: float) -> None:
    picture = Picture(width=10, height=10, alt="", marks=(Label(at=(1.0, 5.0), text="a", size=2.9),))
    assert grown(picture, size).width == pytest.approx(10 * times)


def test_what_is_drawn_in_keeps_its_true_size_and_has_letters() -> None:
    """The mitre's square: the longest side of its strokes is as long as on a usual sheet."""
    call = replace(call_for("mitre"), to_draw_in=True)
    usual, large = draw(call), in_large_type(call, rooms("A4"), 24 * POINT)
    assert extents(large)[: len(extents(usual))] == pytest.approx(extents(usual))
    assert min(word.size for word in words(large)) == pytest.approx(24 * POINT)


def extents(picture: Picture) -> list[float]:
    strokes = (mark for mark in picture.marks if isinstance(mark, Stroke))
    return [max(x for x, _ in points) - min(x for x, _ in points) for mark in strokes for points in mark.outlines]


@pytest.mark.parametrize("size", [18, 24])
def test_an_authors_own_picture_is_set_so_too(size: int) -> None:
    """Four long names side by side, for which no page is wide enough, so that letters stand for them."""
    names = ("reinforced concrete lintel", "soldier course", "damp-proof course", "pointing left from last year")
    own = OwnPicture(
        file="own.svg",
        says="a wall",
        marks=tuple(
            OwnWords(at=(45.0 * n, 10.0), text=text, size=3.0, anchor="start", turn=0, bold=False)
            for n, text in enumerate(names)
        ),
    )
    call = DrawingCall(kind="own", figures={}, labels={}, format=UK_METRIC, alt="x", own=own)
    picture = in_large_type(call, rooms("A4"), size * POINT)
    assert min(word.size for word in words(picture)) >= size * POINT - 1e-6
    said = " ".join(word.text for word in words(picture))
    assert all(part in said for name in names for part in name.split())
    assert picture.width <= PAGES["A4"][0] + 0.01
