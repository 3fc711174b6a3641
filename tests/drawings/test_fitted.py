"""Drawings made to fit: on paper at full size, on a key, beside words, on a phone, no word is small or lost."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.banks.own_picture import OwnPicture, OwnWords
from courseware.drawings import draw
from courseware.drawings.dimension import to_write_in
from courseware.drawings.fitted import PHONE, Sizes, on_phone
from courseware.drawings.foot import scale_words
from courseware.drawings.picture import Label, Picture, extent
from courseware.drawings.scale import SCALES
from courseware.papers.sheets import DrawingCall
from courseware.trade import TradeError
from tests.drawings.conftest import call_for
from tests.drawings.test_foot import bars
from tests.drawings.test_table_of_kinds import MIDDLING, _at_its_limits

EIGHT_POINTS = 8 / 72 * 25.4  # mm
ROOMS = {"page": (500.0, 500.0), "key": (120.0, 52.0), "over words": (140.0, 66.0), "beside words": (91.0, 54.0)}
Corners = tuple[float, float, float, float]


def words_and_boxes(picture: Picture) -> Iterator[tuple[str, Corners]]:
    """All that is read, and the boxes to write in, with the corners that each lies between."""
    for mark in picture.marks:
        if isinstance(mark, Label):
            yield mark.text, between(extent(mark))
        elif to_write_in(mark):
            yield "a box", between(mark.outlines[0])


def between(points) -> Corners:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def check_words(picture: Picture) -> None:
    found = list(words_and_boxes(picture))
    for (one, a), (other, b) in combinations(found, 2):
        shared = min(min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1]))
        assert shared <= 0.05, (one, other)
    for word, (left, top, right, bottom) in found:
        assert left >= -0.01, word
        assert top >= -0.01, word
        assert right <= picture.width + 0.01, word
        assert bottom <= picture.height + 0.01, word
    assert all(mark.size >= EIGHT_POINTS for mark in picture.marks if isinstance(mark, Label))


def calls(kind: str) -> Iterator[DrawingCall]:
    """A kind at the least and the most of each argument and between, its sizes told, asked for, and in turn."""
    names = list(DRAWING_KINDS[kind].dimensions)
    for figures in (MIDDLING[kind], *_at_its_limits(kind)):
        for n in range(3):
            labels = {name: "1234.5" if n == 0 or (n == 2 and place % 2) else None for place, name in enumerate(names)}
            call = replace(call_for(kind, labels, **figures), to_draw_in=DRAWING_KINDS[kind].to_draw_in)
            build = DRAWING_KINDS[kind].builds
            try:
                if build:
                    build(call.figures, call.format)
            except TradeError:
                continue  # refused by the proof
            yield call


def too_much(call: DrawingCall, where: str) -> bool:
    """A gauge rod with its gauge and all three heights has no room beside words: no shipped question asks for it."""
    return call.kind == "gauge_rod" and where == "beside words" and len(call.labels) == 4


@cache
def fitted(kind: str, where: str) -> list[tuple[DrawingCall, Picture]]:
    found = []
    for call in calls(kind):
        labels = {name: text for name, text in call.labels.items() if name != "gauge" or not too_much(call, where)}
        asked = replace(call, labels=labels)
        found.append((asked, Sizes(asked).within(ROOMS[where])))
    return found


@pytest.mark.parametrize("where", ROOMS)
@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_no_word_on_paper_is_under_eight_points_or_over_another_or_out_of_the_picture(kind, where) -> None:
    for call, picture in fitted(kind, where):
        check_words(picture)
        if not call.to_draw_in:  # which keeps its size
            assert picture.width <= ROOMS[where][0] + 0.01
            assert picture.height <= ROOMS[where][1] + 0.01


@pytest.mark.parametrize("kind", [kind for kind in DRAWING_KINDS if not DRAWING_KINDS[kind].to_draw_in])
def test_a_phone_has_words_no_smaller_to_the_picture_and_none_over_another(kind) -> None:
    """12 pixels of 290 across, the width that a page 320 pixels wide leaves: `tests/practice` measures it."""
    for call in calls(kind):
        picture = on_phone(Sizes(call))
        check_words(picture)
        assert picture.width <= PHONE[0] + 0.01
        assert all(mark.size / PHONE[0] * 290 >= 11.7 for mark in picture.marks if isinstance(mark, Label))
        assert not [word for word in scale_words(picture) if "scale" in word]


@pytest.mark.parametrize("where", ROOMS)
@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_bar_and_ratio_are_true_at_every_size(kind, where) -> None:
    for _, picture in fitted(kind, where):
        if picture.one_to is None:
            continue
        wide, says = bars(picture)[-1]
        assert wide * picture.one_to == pytest.approx(says)
        ratios = [word for word in scale_words(picture) if word.startswith("scale")]
        assert ratios == ([f"scale 1:{picture.one_to:g}"] if picture.one_to in SCALES else [])


@pytest.mark.parametrize(("kind", "figures"), [("opening", {"bricks": 4, "courses": 12}), ("pier", {"bricks": 3})])
def test_a_drawing_is_drawn_again_at_a_usual_scale_and_as_large_as_fits(kind, figures) -> None:
    call = call_for(kind, {"width": "910", "height": "910"}, **figures)
    whole, small = draw(call), Sizes(call).within(ROOMS["over words"])
    assert small.one_to in SCALES
    assert small.one_to >= whole.one_to
    assert {m.text for m in small.marks if isinstance(m, Label)} - {*scale_words(small)} == {
        m.text for m in whole.marks if isinstance(m, Label)
    } - {*scale_words(whole)}
    assert Sizes(call).within((500, 500)) == whole


def test_an_authors_own_picture_is_made_smaller_its_words_not_under_eight_points() -> None:
    words = tuple(
        OwnWords(at=(x, 40.0), text=text, size=size, anchor="start", turn=0, bold=False)
        for x, text, size in ((0.0, "large", 6.0), (60.0, "small", 3.0))
    )
    own = OwnPicture(file="own.svg", says="two words", marks=words)
    call = DrawingCall(kind="own", figures={}, labels={}, format=call_for("mitre").format, alt="x", own=own)
    small = Sizes(call).within((40.0, 40.0))
    assert small.width <= 40
    large, least = (mark.size for mark in small.marks)
    assert EIGHT_POINTS <= least < large < 6.0


def test_what_fits_a_room_at_no_scale_is_made_smaller_whole() -> None:
    sizes, room = Sizes(call_for("opening", {"width": "910"}, bricks=4, courses=12)), (34.0, 26.0)
    assert sizes.fitting(room) is None
    picture = sizes.within((30.0, 20.0), room)  # the last of its rooms
    assert picture.width <= room[0] + 0.001
    assert 20.0 < picture.height <= room[1] + 0.001


def test_a_drawing_takes_the_first_of_its_rooms_that_it_fits() -> None:
    sizes = Sizes(call_for("pier", {"width": "665"}, bricks=3))
    assert sizes.within((34.0, 5.0), (120.0, 52.0), (500.0, 500.0)) == sizes.fitting((120.0, 52.0))
