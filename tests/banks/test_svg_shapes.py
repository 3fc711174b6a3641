"""An SVG's elements by their attributes: how large its units are on paper, and each shape as runs of points."""

from __future__ import annotations

import pytest

from courseware.banks.own_picture import NotDrawn
from courseware.banks.svg_shapes import OF_SHAPE, along, plain, runs_of, to_paper

PIXEL = 25.4 / 96  # mm: CSS Values and Units Level 3 (W3C), 6.2


@pytest.mark.parametrize(
    ("root", "mm"),
    [
        ({}, PIXEL),
        ({"width": "120mm", "height": "75mm"}, PIXEL),  # without a viewBox, units are pixels
        ({"viewBox": "0 0 120 75"}, PIXEL),
        ({"width": "120mm", "height": "75mm", "viewBox": "0 0 120 75"}, 1),
        ({"width": "240mm", "viewBox": "0 0 120 75"}, 2),
        ({"width": "240mm", "height": "75mm", "viewBox": "0 0 120 75"}, 1),  # the lesser: all of it is seen
        ({"width": "1in", "viewBox": "0,0,96,96"}, PIXEL),
        ({"width": "100%", "height": "75mm", "viewBox": "0 0 120 75"}, 1),  # of a page nobody knows
        ({"width": "100%", "viewBox": "0 0 120 75"}, PIXEL),
    ],
)
def test_how_large_a_unit_is_on_paper(root, mm: float) -> None:
    assert to_paper(root) == pytest.approx(mm)


@pytest.mark.parametrize(
    ("root", "wrong"),
    [
        ({"viewBox": "0 0 120"}, "`viewBox`"), ({"viewBox": "0 0 0 75"}, "`viewBox`"), ({"viewBox": "0 0 120 -1"}, "`viewBox`"),
        ({"width": "0", "viewBox": "0 0 120 75"}, "no size"), ({"width": "wide", "viewBox": "0 0 120 75"}, "is not a length"),
    ],
)  # fmt: skip
def test_a_picture_without_a_size_is_refused(root, wrong: str) -> None:
    with pytest.raises(NotDrawn) as refused:
        to_paper(root)
    assert wrong in refused.value.wrong


def test_attributes_of_other_markup_are_left_out_and_a_link_is_refused() -> None:
    assert plain({"x": "1", "http://www.inkscape.org/ label": "a"}) == {"x": "1"}
    for link in ("href", "http://www.w3.org/1999/xlink href"):
        with pytest.raises(NotDrawn, match="a link"):
            plain({"x": "1", link: "#a"})


@pytest.mark.parametrize(("text", "long"), [("9", 9), ("2em", 8), ("1.5em", 6), ("-1em", -4), ("1in", 96)])
def test_places_of_words_may_be_told_in_letters(text: str, long: float) -> None:
    assert along(text, 4.0) == pytest.approx(long)


@pytest.mark.parametrize(
    ("name", "said", "runs"),
    [
        ("line", {"x1": "1", "y2": "3"}, [([(1, 0), (0, 3)], False)]),
        ("rect", {"x": "1", "y": "2", "width": "30", "height": "20"}, [([(1, 2), (31, 2), (31, 22), (1, 22)], True)]),
        ("rect", {"width": "30"}, []),  # without a height nothing is drawn
        ("circle", {}, []),
        ("ellipse", {"rx": "3"}, []),
        ("polyline", {"points": "1 2, 3 4"}, [([(1, 2), (3, 4)], False)]),
        ("polygon", {"points": "1 2, 3 4"}, [([(1, 2), (3, 4)], True)]),
        ("path", {"d": "M1 2 L3 4 Z"}, [([(1, 2), (3, 4)], True)]),
        ("path", {}, []),
    ],
)
def test_shapes_are_runs_of_points(name: str, said, runs) -> None:
    assert list(runs_of(name, said)) == runs


def test_round_shapes_lie_where_their_attributes_put_them() -> None:
    [(circle, closed)] = runs_of("circle", {"cx": "10", "cy": "20", "r": "5"})
    assert closed
    assert all((x - 10) ** 2 + (y - 20) ** 2 == pytest.approx(25) for x, y in circle)
    [(ellipse, _)] = runs_of("ellipse", {"rx": "6", "ry": "3"})
    assert (max(x for x, _ in ellipse), max(y for _, y in ellipse)) == pytest.approx((6, 3))


def test_one_radius_of_a_box_stands_for_both() -> None:
    """SVG 1.1, 9.2."""
    box = {"width": "30", "height": "20"}
    both = list(runs_of("rect", {**box, "rx": "4", "ry": "4"}))
    assert list(runs_of("rect", {**box, "rx": "4"})) == list(runs_of("rect", {**box, "ry": "4"})) == both


@pytest.mark.parametrize(("name", "key"), [("rect", "width"), ("rect", "ry"), ("circle", "r"), ("ellipse", "rx")])
def test_a_size_below_nothing_is_refused(name: str, key: str) -> None:
    with pytest.raises(NotDrawn, match=f"a size of the {name} is below 0"):
        list(runs_of(name, {key: "-1"}))


def test_every_drawn_shape_but_groups_and_words_has_runs() -> None:
    for name in OF_SHAPE.keys() - {"g", "text", "tspan", "polyline", "polygon"}:
        assert all(len(run) > 1 for run, _ in runs_of(name, {}))
