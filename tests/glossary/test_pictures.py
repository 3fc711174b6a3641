"""All pictures: each shows something named, no two are alike, all fit beside their sentence and hold no word."""

from __future__ import annotations

import pytest

from courseware.drawings import lines, to_svg
from courseware.drawings.lines import Line
from courseware.drawings.picture import Label, Stroke
from courseware.glossary.pictures import PICTURES, picture

OF_A_PAPER = {"basket_weave", "diagonal", "dog_tooth", "herringbone", "square"}  # drawn as papers have them


@pytest.mark.parametrize("name", list(PICTURES))
def test_it_fits_and_what_is_named_stands_out(name: str) -> None:
    """48 by 25 mm; something is filled dark or hatched in a heavy frame, or a heavy line."""
    made = picture(name, "x")
    assert made.width <= 48.001
    assert made.height <= 25.001
    assert not any(isinstance(mark, Label) for mark in made.marks)
    assert made.alt.endswith(": x")
    assert name in OF_A_PAPER or any(mark.weight >= 0.5 for mark in made.marks)


@pytest.mark.parametrize("name", sorted(set(PICTURES) - OF_A_PAPER))
def test_it_has_the_pens_of_the_drawings(name: str) -> None:
    pens = {pen.weight for pen in vars(lines).values() if isinstance(pen, Line)}
    assert {mark.weight for mark in picture(name, "x").marks if isinstance(mark, Stroke) and mark.weight} <= pens


def test_no_two_are_alike() -> None:
    drawn = [to_svg(picture(name, "x")) for name in PICTURES]
    assert len(set(drawn)) == len(drawn)


def test_the_same_picture_is_the_same_bytes() -> None:
    first = [to_svg(picture(name, "x")) for name in PICTURES]
    picture.cache_clear()
    assert [to_svg(picture(name, "x")) for name in PICTURES] == first
