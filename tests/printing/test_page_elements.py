"""What pages carry beside their words: space to draw in as large as asked, room for the working, a gauge scale."""

from __future__ import annotations

import pytest

from courseware.drawings.picture import Label, Stroke
from courseware.printing.page_elements import ROOM_LEAST, gauge_scale, squared, steps_in, working_room
from courseware.printing.page_format import A4
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


@pytest.mark.parametrize(("high", "courses"), [(78, 0), (79, 1), (80, 1), (153, 1), (154, 2)])
def test_a_gauge_scale_has_as_many_whole_courses_as_there_is_room_for(high: int, courses: int) -> None:
    """UK courses of 75 mm (Technical Information Sheet 9), and 4 mm over the last tick."""
    numbers = [mark for mark in gauge_scale(UK_METRIC, high).marks if isinstance(mark, Label) and mark.bold]
    assert len(numbers) == courses


def test_without_a_brick_there_is_no_scale() -> None:
    assert gauge_scale(None).marks == ()


@pytest.mark.parametrize("wide", [A4.wide, A4.half, ROOM_LEAST])
def test_room_to_work_in_grows_with_the_marks_and_keeps_to_its_width(wide: float) -> None:
    rooms = [working_room("courses", marks, wide) for marks in (1, 2, 3, 4)]
    heights = [room.height for room in rooms]
    assert heights == sorted(set(heights))
    for room in rooms:
        points = [point for mark in room.marks if isinstance(mark, Stroke) for run in mark.outlines for point in run]
        edge = max(mark.weight for mark in room.marks if isinstance(mark, Stroke)) / 2
        assert max(x for x, _ in points) + edge == pytest.approx(wide)
        assert min(x for x, _ in points) - edge == pytest.approx(0)
        assert all(0 <= x <= room.width and 0 <= y <= room.height for x, y in points)


def test_two_marks_and_more_ask_for_the_rule_and_a_check() -> None:
    assert [steps_in(marks) for marks in (1, 2, 3)] == [False, True, True]
    for wide in (A4.wide, A4.half):
        words = {mark.text for mark in working_room("mm", 2, wide).marks if isinstance(mark, Label)}
        assert words == {"The rule", "Numbers in", "Answer", "My check", "mm"}


@pytest.mark.parametrize("marks", [1, 2, 3])
def test_a_paper_set_closer_has_rows_to_write_in_of_nine_tenths_of_their_height(marks: int) -> None:
    usual, closer = (working_room("mm", marks, 171.0, page).height for page in (A4, A4.closer))
    assert closer == pytest.approx(usual * 0.88, abs=0.2)
