"""How a shape is drawn: greys, pens, type and transforms by SVG 1.1 and CSS; what else it asks is refused."""

from __future__ import annotations

import pytest

from courseware.banks.own_picture import NotDrawn
from courseware.banks.svg_style import Style, grey_of, joined, length, matrix_of, styled, upright

NONE: frozenset[str] = frozenset()


def style(**said: str) -> Style:
    return styled(Style(), {name.replace("_", "-"): value for name, value in said.items()}, NONE)


def test_a_colour_prints_as_its_grey() -> None:
    # ITU-R BT.709, item 3.2: 0.2126 red + 0.7152 green + 0.0722 blue
    assert [grey_of(c) for c in ("#f00", "lime", "rgb(0, 0, 255)", "none")] == [0.213, 0.715, 0.072, None]


@pytest.mark.parametrize(
    ("text", "grey"),
    [("#fff", 1), ("#FFFFFF", 1), (" White ", 1), ("black", 0), ("#000000", 0), ("currentColor", 0), ("transparent", None), ("rgb(255,255,255)", 1), ("rgb(999,0,0)", 0.213)],
)  # fmt: skip
def test_colours_as_files_write_them(text: str, grey: float | None) -> None:
    assert grey_of(text) == grey


@pytest.mark.parametrize(
    "text", ["", "#ff", "#ggg", "rebeccapurple", "rgba(0,0,0,0)", "rgb(10%,0,0)", "url(#a)", "hsl(0,0%,0%)"]
)
def test_what_is_no_plain_colour_is_refused(text: str) -> None:
    with pytest.raises(NotDrawn, match="is not a plain colour"):
        grey_of(text)


@pytest.mark.parametrize(
    ("text", "pixels"),
    [("96", 96), ("96px", 96), ("25.4mm", 96), ("2.54cm", 96), ("1in", 96), ("72pt", 96), ("6pc", 96), (" 1 mm ", 96 / 25.4)],
)  # fmt: skip
def test_a_length_is_in_pixels(text: str, pixels: float) -> None:
    """CSS Values and Units Level 3 (W3C), 6.2: 96 pixels, 72 points and 6 picas to the inch."""
    assert length(text) == pytest.approx(pixels)


@pytest.mark.parametrize("text", ["", "wide", "1em", "50%", "1 2", "mm", "1e9"])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(NotDrawn, match="is not a"):
        length(text)


@pytest.mark.parametrize(
    ("text", "point"),  # where (10, 20) comes to
    [
        ("", (10, 20)),
        ("translate(3)", (13, 20)),
        ("translate(3, 4)", (13, 24)),
        ("scale(2)", (20, 40)),
        ("scale(2 3)", (20, 60)),
        ("rotate(90)", (-20, 10)),
        ("rotate(90 10 20)", (10, 20)),
        ("skewX(45)", (30, 20)),
        ("skewY(45)", (10, 30)),
        ("matrix(1 2 3 4 5 6)", (75, 106)),
        ("translate(3,4) scale(2)", (23, 44)),  # the last is applied first
        ("scale(2),translate(3,4)", (26, 48)),
    ],
)
def test_transforms_put_points_where_svg_does(text: str, point) -> None:
    """SVG 1.1, 7.6."""
    assert Style(to=matrix_of(text)).put((10, 20)) == pytest.approx(point)


@pytest.mark.parametrize(
    "text", ["translate()", "translate(1 2 3)", "rotate(1 2)", "scale(1 2 3)", "matrix(1 2 3)", "skewX(1 2)", "turn(3)", "scale(2", "rotate(x)"]
)  # fmt: skip
def test_a_transform_that_does_not_read_is_refused(text: str) -> None:
    with pytest.raises(NotDrawn):
        matrix_of(text)


def test_transforms_within_one_another_are_joined() -> None:
    outer, inner = matrix_of("translate(3 4)"), matrix_of("scale(2)")
    assert joined(outer, inner) == matrix_of("translate(3 4) scale(2)")
    inside = styled(style(transform="translate(3 4)"), {"transform": "scale(2)"}, NONE)
    assert inside.put((10, 20)) == (23, 44)


@pytest.mark.parametrize(
    ("text", "scale"), [("scale(2)", 2), ("scale(2 8)", 4), ("rotate(30)", 1), ("scale(-3)", 3), ("skewX(45)", 1)]
)
def test_how_much_longer_lengths_are(text: str, scale: float) -> None:
    assert style(transform=text).scale == pytest.approx(scale)


@pytest.mark.parametrize(
    ("text", "keeps"),
    [("scale(2)", True), ("rotate(30) scale(2)", True), ("scale(2 2.01)", True), ("scale(2 2.1)", False), ("scale(-1 1)", False), ("scale(-1)", True), ("skewX(10)", False)],
)  # fmt: skip
def test_whether_words_keep_their_shape(text: str, keeps: bool) -> None:
    assert upright(matrix_of(text)) is keeps


def test_a_style_is_inherited_and_changed_key_by_key() -> None:
    outer = style(fill="none", stroke="#fff", stroke_width="2mm", stroke_dasharray="4, 2", font_size="12pt")
    assert (outer.fill, outer.stroke, outer.dash, outer.size) == (None, 1, (4, 2), 16)
    assert outer.weight == pytest.approx(2 * 96 / 25.4)
    inner = styled(
        outer, {"font-weight": "bold", "text-anchor": "end", "stroke": "inherit", "stroke-dasharray": "none"}, NONE
    )
    assert (inner.bold, inner.anchor, inner.stroke, inner.dash, inner.size) == (True, "end", 1, (), 16)


def test_the_style_attribute_comes_before_the_others() -> None:
    """SVG 1.1, 6.4: a presentation attribute gives way to a style."""
    assert styled(Style(), {"fill": "white", "style": "fill: black; stroke:white"}, NONE) == Style(fill=0, stroke=1)


@pytest.mark.parametrize(
    ("said", "wrong"),
    [
        ({"onload": "go()"}, "the attribute `onload` is not among those that are drawn"), ({"class": "a"}, "`class`"),
        ({"style": "position:fixed"}, "`position`"), ({"opacity": "0.5"}, "`opacity` is `0.5`, which is not drawn"),
        ({"display": "none"}, "`display`"), ({"visibility": "hidden"}, "`visibility`"), ({"fill-rule": "evenodd"}, "`fill-rule`"),
        ({"stroke-width": "-1"}, "the pen is below 0"), ({"text-anchor": "left"}, "is not a text-anchor"),
        ({"stroke-dasharray": "1 2 3 4 5 6 7 8 9"}, "the dashes"), ({"stroke-dasharray": "1 -2"}, "the dashes"),
        ({"x": "1"}, "the attribute `x`"),  # not of this shape
    ],
)  # fmt: skip
def test_what_would_change_the_picture_unseen_is_refused(said, wrong: str) -> None:
    with pytest.raises(NotDrawn) as refused:
        styled(Style(), said, NONE)
    assert wrong in refused.value.wrong


@pytest.mark.parametrize(
    "said", [{"opacity": "1"}, {"display": "inline"}, {"filter": "none"}, {"id": "a"}, {"font-family": "Arial"}, {"data-x": "1"}, {"aria-label": "a"}]
)  # fmt: skip
def test_what_changes_nothing_is_passed_over(said) -> None:
    assert styled(Style(), said, NONE) == Style()


def test_eight_dashes_are_drawn_and_dashes_of_nothing_are_a_whole_line() -> None:
    assert len(style(stroke_dasharray="1 2 3 4 5 6 7 8").dash) == 8
    assert style(stroke_dasharray="0 0").dash == ()
