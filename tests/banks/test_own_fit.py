"""An author's picture on the sheet: moved to its corner, made smaller where it is too large, never larger."""

from __future__ import annotations

import pytest

from courseware.banks.own_fit import fitted
from courseware.banks.own_picture import ROOM, SMALLEST_TYPE, NotDrawn, OwnLine, OwnWords


def line(*points: tuple[float, float], weight: float = 0.5, dash: tuple[float, ...] = ()) -> OwnLine:
    return OwnLine(runs=(points,), closed=False, weight=weight, grey=0.0, fill=None, dash=dash)


def words(text: str = "brick", size: float = 4.0, **keys: object) -> OwnWords:
    said: dict = {"at": (0.0, 0.0), "text": text, "size": size, "anchor": "start", "turn": 0, "bold": False, **keys}
    return OwnWords(**said)


@pytest.mark.parametrize(("wide", "kept"), [(ROOM[0] - 1, True), (ROOM[0], True), (ROOM[0] + 1, False)])
def test_a_picture_keeps_its_size_and_one_too_wide_is_made_smaller(wide: float, kept: bool) -> None:
    [found] = fitted((line((0, 0), (wide, 9)),))
    assert found.runs[0][1][0] == pytest.approx(wide if kept else ROOM[0])
    assert (found.runs[0][1][1] == 9) is kept  # both ways alike


@pytest.mark.parametrize(("high", "kept"), [(ROOM[1], True), (ROOM[1] + 1, False)])
def test_so_is_one_too_high(high: float, kept: bool) -> None:
    [found] = fitted((line((0, 0), (9, high)),))
    assert found.runs[0][1][1] == pytest.approx(high if kept else ROOM[1])


def test_it_is_moved_to_the_papers_corner() -> None:
    [found, said] = fitted((line((-5, 40), (15, 60)), words(at=(5.0, 50.0))))
    assert found.runs[0] == ((0, 0), (20, 20))
    assert said.at == (10, 10)


def test_pens_and_dashes_stay_fine_enough_to_print_and_no_finer() -> None:
    [found] = fitted((line((0, 0), (10 * ROOM[0], 0), weight=0.5, dash=(4, 0.2)),))
    assert (found.weight, found.dash) == (0.1, (0.4, 0.1))
    assert fitted((line((0, 0), (9, 0), weight=0),))[0].weight == 0


@pytest.mark.parametrize("size", [SMALLEST_TYPE, SMALLEST_TYPE + 0.1])
def test_words_large_enough_to_read_are_taken(size: float) -> None:
    assert fitted((words(size=size),))[0].size == size


def test_words_too_small_to_read_are_refused_as_they_would_print() -> None:
    with pytest.raises(NotDrawn, match=rf"`brick` would be {SMALLEST_TYPE - 0.1:.2f} mm high on paper"):
        fitted((words(size=SMALLEST_TYPE - 0.1),))
    with pytest.raises(NotDrawn, match=r"would be 2\.00 mm high"):
        fitted((words(size=4.0), line((0, 0), (2 * ROOM[0], 0))))


@pytest.mark.parametrize(
    ("anchor", "turn", "left", "top"),
    [
        ("start", 0, 0, -3.2), ("middle", 0, -6, -3.2), ("end", 0, -12, -3.2),  # five letters of 2.4 mm
        ("start", 90, -3.2, -12), ("start", -90, -1, 0),
    ],
)  # fmt: skip
def test_room_is_left_for_the_letters_whichever_way_they_run(anchor: str, turn: int, left: float, top: float) -> None:
    [found] = fitted((words(anchor=anchor, turn=turn),))
    assert found.at == pytest.approx((-left, -top), abs=0.002)


@pytest.mark.parametrize(
    ("marks", "wrong"),
    [((), "nothing is drawn in it"), ((line((0, 0), (1e6, 0)),), "too far off"), ((line((0, 0), (float("nan"), 0)),), "too far off")],
)  # fmt: skip
def test_nothing_and_what_lies_too_far_off_are_refused(marks, wrong: str) -> None:
    with pytest.raises(NotDrawn) as refused:
        fitted(marks)
    assert wrong in refused.value.wrong


@pytest.mark.parametrize(("wide", "drawn"), [(0, False), (0.9, False), (1, True)])
def test_a_speck_is_no_picture(wide: float, drawn: bool) -> None:
    if drawn:
        assert fitted((line((0, 0), (wide, 0)),))
    else:
        with pytest.raises(NotDrawn, match="one point"):
            fitted((line((0, 0), (wide, 0)),))
