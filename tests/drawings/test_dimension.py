"""Dimension lines read back against ISO 129-1 (tests/authorities/iso-129.txt), on their own and in every drawing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shapely.geometry import LineString, box

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw
from courseware.drawings.dimension import (
    BLANK,
    CLOSE_LANE,
    FIGURE,
    LANE,
    across,
    beside,
    lane,
    led,
    room_for,
    to_write_in,
    upright,
)
from courseware.drawings.lines import REFERENCE, TICK
from courseware.drawings.picture import Label, Stroke, extent
from tests.drawings.test_table_of_kinds import MIDDLING

# A gauge rod's thin lines are levels, a mitre has none; the others measure a course that stands out, past those behind.
WITHOUT_LINES = {"batch", "controls", "packs", "rod_marks", "template_lines"}  # counts, arrows, a leader, or no size
PAST_THE_WORK = {"gauge_rod", "projection", "sill", "corbel", "mitre", "reveals"}
LEFT, RIGHT = (10.0, 50.0), (70.0, 50.0)


def parts(marks):
    """The lines, the strokes that end them, and the figure or box."""
    lines, ticks, figure = marks
    return lines.outlines, ticks.outlines, figure


def test_a_level_figure_stands_above_the_middle_of_its_line_and_is_read_from_the_bottom() -> None:
    """iso-129, clause 4.1.1; near the middle of the line, clause 5.7.2."""
    _, _, figure = parts(across(LEFT, RIGHT, 60.0, "910"))
    assert (figure.at[0], figure.turn) == (40.0, 0)
    assert max(y for _, y in extent(figure)) < 60.5
    assert figure.at[1] < 60


@pytest.mark.parametrize("marks", [across(LEFT, RIGHT, 60.0, "910"), upright((70.0, 90.0), (70.0, 50.0), 80.0, "910")])
def test_a_figure_stands_parallel_to_its_line_two_line_widths_off_at_least(marks) -> None:
    """iso-129, clause 5.7.2."""
    lines, _, figure = parts(marks)
    (x1, y1), (x2, y2) = lines[2]
    far = y1 - figure.at[1] if figure.turn == 0 else x1 - figure.at[0]
    assert (y1 == y2) is (figure.turn == 0)
    assert (x1 == x2) is (figure.turn == 90)
    assert far >= 2 * REFERENCE.weight


def test_dimension_lines_are_narrow_and_unbroken_and_reference_lines_run_some_eight_widths_past() -> None:
    """iso-129, clause 5.3: a continuous narrow line; clause 5.5, second-hand: about 8 line widths past, and as far off."""
    drawn, _, _ = across(LEFT, RIGHT, 60.0, "910")
    assert (drawn.weight, drawn.dash) == (REFERENCE.weight, ())
    (_, start), (_, end) = drawn.outlines[0]
    about = 8 * REFERENCE.weight
    assert end - 60.0 == pytest.approx(about, rel=0.25)
    assert start - LEFT[1] <= about


def test_an_upright_figure_is_read_from_the_right() -> None:
    """iso-129, clause 4.1.1: turned a quarter to the left, on the left of its line."""
    _, _, figure = parts(upright((70.0, 90.0), (70.0, 50.0), 80.0, "910"))
    assert (figure.at[1], figure.turn) == (70.0, 90)
    assert figure.at[0] < 80


@pytest.mark.parametrize("line", [60.0, 40.0])
def test_lines_end_in_oblique_strokes_and_reference_lines_leave_a_gap_and_run_past(line) -> None:
    """iso-129: strokes at 45 degrees in drawings of buildings (5.4.1 names them); a small gap, a little past the line (5.5)."""
    lines, ticks, _ = parts(across(LEFT, RIGHT, line, "910"))
    assert [((x1 + x2) / 2, (y1 + y2) / 2) for (x1, y1), (x2, y2) in ticks] == [(10.0, line), (70.0, line)]
    assert all(x2 - x1 == pytest.approx(y1 - y2) for (x1, y1), (x2, y2) in ticks)
    for (x, start), (other, end) in lines[:2]:
        assert x == other
        assert 0.5 <= abs(start - 50) <= 2
        assert abs(end - 50) > abs(line - 50) + 0.5
    assert lines[2] == ((10.0, line), (70.0, line))


@pytest.mark.parametrize(("over", "beyond"), [(0.01, False), (0.0, False), (-0.01, True)])
def test_a_figure_for_which_its_line_is_too_short_stands_over_the_line_drawn_on(over, beyond) -> None:
    """iso-129, clause 5.7.3 a) and PN-B-01025: over the line drawn on."""
    wide = room_for("910") + over
    lines, _, figure = parts(across(LEFT, (10.0 + wide, 50.0), 60.0, "910"))
    assert (figure.at[0] > 10 + wide) is beyond
    (start, _), (end, _) = lines[2]
    reach = [x for x, _ in extent(figure)]
    assert start <= min(reach)
    assert max(reach) <= end
    _, _, other = parts(across(LEFT, (10.0 + wide, 50.0), 60.0, "910", before=True))
    assert (other.at[0] < 10) is beyond


@pytest.mark.parametrize("draw_one", [across, upright, beside])
def test_what_is_asked_for_has_a_box_to_write_in_in_place_of_its_figure(draw_one) -> None:
    far = (10.0, 20.0) if draw_one is not across else RIGHT
    *_, blank = draw_one(LEFT, far, 60.0, None)
    assert isinstance(blank, Stroke)
    [corners] = blank.outlines
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    assert sorted((max(xs) - min(xs), max(ys) - min(ys))) == pytest.approx(sorted(BLANK))
    assert blank.fill == 1.0


def test_a_leader_begins_with_a_dot_at_what_it_names() -> None:
    line, dot, figure = led((50.0, 50.0), (40.0, 40.0), "1500")
    assert line.outlines[0][0] == (50.0, 50.0)
    assert box(49.5, 49.5, 50.5, 50.5).covers(LineString([*dot.outlines[0]]))
    assert figure.at[1] < 40


@pytest.mark.parametrize(
    ("labels", "far"), [({"a": None}, LANE), ({"a": "1", "b": None}, LANE), ({"a": "1"}, CLOSE_LANE), ({}, CLOSE_LANE)]
)
def test_lines_stand_as_far_off_as_figures_or_boxes_want(labels, far) -> None:
    """iso-129: 6 to 8 mm from each other, about 10 mm off; here 9.5 where there is a box, 6.5 where there is none."""
    assert lane(labels) == far
    assert 6 <= far <= 10


@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_every_figure_of_a_drawing_is_of_one_height(kind, calling) -> None:
    """iso-129, clause 4.1.7: one height of character for the dimensions of a drawing."""
    labels = dict.fromkeys(DRAWING_KINDS[kind].dimensions, "1234.5")
    words = [m for m in draw(calling(kind, labels, **MIDDLING[kind])).marks if isinstance(m, Label)]
    if DRAWING_KINDS[kind].dimensions and kind != "mitre":  # its sizes stand in words
        assert {mark.size for mark in words if mark.text == "1234.5"} == {FIGURE}


@pytest.mark.parametrize("kind", sorted(set(DRAWING_KINDS) - PAST_THE_WORK - WITHOUT_LINES))
def test_reference_lines_start_off_the_work(kind, calling) -> None:
    """None crosses a brick or an outline."""
    labels = {name: "1234.5" for name in DRAWING_KINDS[kind].dimensions if name not in ("tape", "diagonal")}  # led out
    picture = draw(calling(kind, labels, **MIDDLING[kind]))
    marks = [mark for mark in (picture.body or picture).marks if isinstance(mark, Stroke)]
    work = [
        box(min(x for x, _ in o), min(y for _, y in o), max(x for x, _ in o), max(y for _, y in o)).buffer(-0.05)
        for mark in marks
        if mark.closed and mark.fill not in (0.0, 1.0) and len(mark.outlines[0]) == 4
        for o in mark.outlines
    ]
    ends = [mark for mark in marks if mark.weight == TICK.weight and not mark.closed and len(mark.outlines) == 2]
    before = [marks[marks.index(end) - 1] for end in ends if len(end.outlines[0]) == 2]
    runs = [LineString(run) for mark in before if mark.weight == REFERENCE.weight for run in mark.outlines[:2]]
    assert len(runs) >= 2
    crossed = [(run.wkt, piece.wkt) for run in runs for piece in work if run.intersects(piece)]
    assert crossed == []


def test_the_smaller_of_two_sizes_stands_nearer_the_work(calling) -> None:
    """iso-129, college pages."""
    labels = {"height": "H", "face_height": "F", "clear_height": "C"}
    words = {m.text: m.at[0] for m in draw(calling("gauge_rod", labels, courses=8)).marks if isinstance(m, Label)}
    assert words["F"] < words["H"] < words["C"]


@pytest.mark.parametrize("dimension", [across(LEFT, RIGHT, 60.0, None), upright((10.0, 90.0), (10.0, 20.0), 5.0, None)])
def test_the_box_for_a_figure_is_known_level_and_upright_and_nothing_else_is(dimension) -> None:
    lines, ticks, box_for_it = dimension
    assert [to_write_in(mark) for mark in (lines, ticks, box_for_it)] == [False, False, True]
    assert not to_write_in(replace(box_for_it, fill=None))
    assert not to_write_in(Label(at=LEFT, text="910"))
