"""The dot plot of a class's marks: read back as a drawing."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.class_report.marks_plot import marks_plot
from courseware.drawings.picture import Label, Picture, Stroke


def dots(picture: Picture) -> list[tuple[float, float, float]]:
    """Each dot's middle and width."""
    found = []
    for mark in picture.marks:
        if isinstance(mark, Stroke) and mark.closed:
            assert (mark.fill, mark.weight) == (0.0, 0), "black, so that it survives a photocopier"
            for outline in mark.outlines:
                xs, ys = [x for x, _ in outline], [y for _, y in outline]
                found.append(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2, max(xs) - min(xs)))
    return found


@given(st.integers(1, 120).flatmap(lambda of: st.tuples(st.just(of), st.lists(st.integers(0, of), max_size=80))))
def test_every_learner_is_one_dot_and_all_dots_are_on_the_picture_apart_from_each_other(asked) -> None:
    of, totals = asked
    picture = marks_plot(totals, of)
    found = dots(picture)
    assert len(found) == len(totals)
    for x, y, wide in found:
        assert wide / 2 <= x <= picture.width - wide / 2
        assert wide / 2 <= y <= picture.height - wide / 2
    for place, (x, y, wide) in enumerate(found):
        assert all((x - a) ** 2 + (y - b) ** 2 > wide**2 * 0.99 for a, b, _ in found[place + 1 :])
    assert picture.width <= 176
    assert picture.height <= 62


def test_dots_stand_over_their_marks_and_stack_where_marks_are_equal() -> None:
    found = dots(marks_plot([3, 3, 3, 10], 10))
    assert len({round(x, 6) for x, _, _ in found}) == 2
    assert len({round(y, 6) for x, y, _ in found if x < 80}) == 3


def test_the_axis_names_its_ends_and_its_figures() -> None:
    picture = marks_plot([3, 4], 20)
    words = [mark.text for mark in picture.marks if isinstance(mark, Label)]
    assert words == [*map(str, range(0, 21, 2)), "marks, of 20; one dot a learner, the broken line at the mean"]
    assert "each column takes 2 marks" in marks_plot([3], 60).marks[-1].text


@pytest.mark.parametrize(("totals", "of"), [([0], 4), ([5, 9, 14, 20], 20), ([41, 42, 0], 42)])
def test_the_alternative_text_counts_every_learner(totals: list[int], of: int) -> None:
    alt = marks_plot(totals, of).alt
    counts = [int(n) for n in re.findall(r"marks (\d+)", alt)]
    assert sum(counts) == len(totals)
    assert f"{len(totals)} learners" in alt


def test_no_marks_make_an_empty_axis() -> None:
    assert dots(marks_plot([], 10)) == []
    assert marks_plot([], 10).alt == "A dot plot without dots: no marks yet"
