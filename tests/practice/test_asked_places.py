"""Where in a drawing what is asked for stands: read back from the drawing itself, its boxes against its figures."""

from __future__ import annotations

import pytest

from courseware.drawings.dimension import across, upright
from courseware.drawings.frame import framed
from courseware.practice.asked_places import asked_places
from courseware.practice.payload import kind_data
from tests.practice.test_kinds import kinds

ASKS = {"width": "wide", "height": "high"}


def picture(width: str | None, height: str | None):
    """A width below, whose box is 20 by 7.5 mm with its middle 4.65 mm over its line, and a height at the right."""
    return framed((*across((0, 0), (100, 0), 10, width), *upright((100, 0), (100, -50), 110, height)), "")


@pytest.mark.parametrize("labels", [{"width": "910", "height": "610"}, {"width": "1", "height": "12345.6"}])
def test_each_box_is_that_of_the_answer_that_goes_into_it(labels) -> None:
    blank = picture(None, None)
    found = asked_places(blank, picture(labels["width"], labels["height"]), labels, ASKS)
    assert set(found) == {"wide", "high"}
    (x, y), (u, v) = found["wide"], found["high"]
    assert x < u, "the height stands at the right"
    assert y > v, "the width stands below"
    assert 40 <= x <= 50, "in the middle of the 100 mm, of a drawing some 115 wide"


def test_two_answers_alike_are_not_told_apart() -> None:
    labels = {"width": "910", "height": "910"}
    assert asked_places(picture(None, None), picture("910", "910"), labels, ASKS) == {}


def test_an_answer_that_stands_in_the_drawing_anyhow_leaves_its_box_untold() -> None:
    """Which of the two is the box's cannot be known."""
    more = framed((*picture("910", "610").marks, *across((0, 0), (9, 0), 20, "910")), "")
    assert asked_places(picture(None, None), more, {"width": "910", "height": "610"}, ASKS) == {}


def test_what_is_drawn_with_the_answers_alone_is_no_matter() -> None:
    more = framed((*across((0, 0), (9, 0), 20, "9"), *picture("910", "610").marks), "")
    assert set(asked_places(picture(None, None), more, {"width": "910", "height": "610"}, ASKS)) == {"wide", "high"}


def test_what_is_shown_is_not_asked() -> None:
    shown = picture("910", "610")
    assert asked_places(shown, shown, {"width": "910", "height": "610"}, {}) == {}
    labels = {"width": "910", "height": "610"}
    assert asked_places(picture("910", None), picture("910", "610"), labels, {"height": "high"}).keys() == {"high"}


def test_a_question_has_the_places_of_the_parts_that_its_drawing_asks() -> None:
    """Of an opening the width stands at the foot, the height at a side."""
    (kind,) = kinds("opening-for-a-panel", most=2)
    for variant in kind_data(kind)["variants"]:
        assert set(variant["stands"]) == {"opening_width", "opening_height"}
        (x, y), (u, _) = variant["stands"]["opening_width"], variant["stands"]["opening_height"]
        assert abs(x - 50) < 25
        assert y > 50
        assert abs(u - 50) > 25
