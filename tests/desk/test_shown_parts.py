"""Pieces of pages: drawings as SVG without style, and parts that a script asks for."""

from __future__ import annotations

from courseware.desk.shown_parts import drawing_of, drawn, shown
from courseware.drawings.picture import Label, Picture
from courseware.papers.compose import compose_key, read_sources


def test_a_drawing_stands_in_a_page_without_style_and_with_its_words_escaped(dealt) -> None:
    sitting = dealt("opening_sizes", exercises=3)
    key = compose_key(sitting, 0, read_sources(sitting))
    one = next(exercise for exercise in key.exercises if exercise.drawing)
    svg = drawing_of(one)
    assert svg.startswith("<svg")
    assert " style=" not in svg
    assert svg == drawn(one.drawing)
    words = shown(Picture(width=10, height=10, marks=(Label(at=(1, 1), text="<b>&"),), alt='"<i>'))
    assert "<b>" not in words
    assert "&lt;b&gt;&amp;" in words
