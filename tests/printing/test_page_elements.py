"""What a page carries beside its words: space to draw in as large as asked, a gauge scale of the brick in the questions."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Label
from courseware.papers.compose import compose_paper
from courseware.printing.page_elements import gauge_scale, squared
from courseware.trade import GERMAN_NF, UK_METRIC


@pytest.mark.parametrize(("size", "rules"), [((160, 70), 33 + 15), ((120, 60), 25 + 13), ((5, 5), 2 + 2)])
def test_the_space_to_draw_in_is_as_large_as_asked_in_squares_of_5_mm(size: tuple[int, int], rules: int) -> None:
    picture = squared(size)
    assert (picture.width, picture.height) == size
    [ruled] = picture.marks
    assert len(ruled.outlines) == rules
    xs, ys = ({point[axis] for run in ruled.outlines for point in run} for axis in (0, 1))
    assert (max(xs), max(ys)) == size


@pytest.mark.parametrize("brick", [UK_METRIC, GERMAN_NF])
def test_the_gauge_scale_names_its_brick(brick) -> None:
    assert any(isinstance(mark, Label) and brick.name in mark.text for mark in gauge_scale(brick).marks)


def test_a_paper_on_two_bricks_has_no_scale_of_either(composed) -> None:
    assert gauge_scale(None).marks == ()
    sitting, sources = composed("course_gauge")  # UK, German and other bricks
    assert compose_paper(sitting, 0, sources).scale is None
    sitting, sources = composed("safe_cutting")
    assert compose_paper(sitting, 0, sources).scale == UK_METRIC
