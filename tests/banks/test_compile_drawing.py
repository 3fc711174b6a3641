"""From what an exercise says of its drawing to the drawing: which dimensions are shown, which a part asks for."""

from __future__ import annotations

import pytest


def asked(exercise, number, drawing, *names: str):
    parts = [number(name, "pier(bricks)", unit="mm") for name in names or ("length",)]
    return exercise(drawing=drawing, parts=parts).drawing


def test_an_exercise_without_a_drawing_has_none(exercise) -> None:
    assert exercise().drawing is None


@pytest.mark.parametrize(
    ("names", "asks"),
    [(("length",), {}), (("width",), {"width": "width"}), (("pier_width",), {"width": "pier_width"}), (("pier_width", "pier_height"), {"width": "pier_width", "height": "pier_height"})],
)  # fmt: skip
def test_a_drawing_by_its_name_alone_leaves_blank_what_parts_of_that_name_ask_for(
    exercise, number, names, asks
) -> None:
    assert asked(exercise, number, "pier", *names).asks == asks


def test_a_map_says_what_is_shown_and_what_is_asked_for(exercise, number) -> None:
    drawing = asked(
        exercise, number, {"kind": "pier", "courses": "bricks + 1", "shows": ["height"], "asks": {"width": "length"}}
    )
    assert (drawing.kind, drawing.shows, drawing.asks) == ("pier", ("height",), {"width": "length"})
    assert {name: formula.value({"bricks": 4}) for name, formula in drawing.figures.items()} == {
        "bricks": 4,
        "courses": 5,
    }


def test_figures_go_by_givens_of_their_name_and_what_may_be_left_out_is_left_out(exercise, number) -> None:
    assert set(asked(exercise, number, "pier").figures) == {"bricks"}


def test_a_word_that_the_kind_knows_needs_no_quotes(exercise, number) -> None:
    for written in ("face", "'face'"):
        figures = asked(exercise, number, {"kind": "gauge_rod", "courses": "bricks", "datum": written}).figures
        assert figures["datum"].value({}) == "face"


@pytest.mark.parametrize(
    ("drawing", "told"),
    [
        ("peer", "no drawing is of kind `peer`; did you mean `pier`?"),
        ({"bricks": "4"}, "the drawing has no `kind`"),
        ("gauge_rod", "the drawing needs `courses`; expected a given or part of that name"),
        ({"kind": "pier", "brick": "4"}, "the drawing `pier` has no figure `brick`; did you mean `bricks`?"),
        ({"kind": "pier", "bricks": "bricks > 2"}, "`bricks > 2` is a truth; expected a number"),
        ({"kind": "pier", "bricks": ["4"]}, "`bricks` is not a formula; expected a formula"),
        ({"kind": "gauge_rod", "courses": "4", "datum": "bottom"}, "`bottom` is not known here; a word needs quotes"),
        ({"kind": "pier", "shows": ["depth"]}, "`pier` has no dimension `depth`; did you mean `width`?"),
        ({"kind": "pier", "shows": ["width"], "asks": {"width": "length"}}, "`width` is both shown and asked for"),
        ({"kind": "pier", "asks": {"width": "lenth"}}, "`lenth` is not a number part; did you mean `length`?"),
        ({"kind": "pier", "shows": "width"}, "`shows` or `asks` is not as it should be"),
        ({"kind": "pier", "asks": ["width"]}, "`shows` or `asks` is not as it should be"),
        ({"kind": "pier", "asks": {"width": ["length"]}}, "`shows` or `asks` is not as it should be"),
    ],
)
def test_a_drawing_that_cannot_be_asked_for_is_told(faults, drawing, told: str) -> None:
    [fault] = faults(drawing=drawing)
    assert fault.startswith(told)
