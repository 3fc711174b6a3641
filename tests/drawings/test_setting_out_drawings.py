"""Projections, walls and diagonals read back from their SVG: which course comes forward, what stands where."""

import itertools
from fractions import Fraction

import pytest

from courseware.drawings.projection import section_of_wall
from courseware.trade import FORMATS, UK_METRIC, TradeError, height

COURSES = [(2, 900), (12, 1600), (20, 1500), (40, 3500)]


def views(sheet, brick):
    """The scale of the wall, and the bricks of its section and of the course enlarged: (back, forward) of each."""
    n = float(brick.length) / sheet.stretchers[0].width
    wide = float(brick.width) / n

    def cut(rectangles):
        return [r for r in rectangles if abs(r.width - wide) < 0.02]

    big = [r for r in sheet.stretchers if r.width > wide + 0.02 and r.height > sheet.stretchers[0].height + 0.5]
    [big_forward] = [r for r in sheet.projecting if r.height > sheet.stretchers[0].height + 0.5]
    return n, (cut(sheet.stretchers), cut(sheet.projecting)), (big, big_forward)


@pytest.mark.parametrize(("course", "eye"), COURSES)
@pytest.mark.parametrize("projects", [5, 25, 75])
def test_the_course_stands_forward_of_the_face_and_not_back_from_it(drawn, course, eye, projects) -> None:
    sheet = drawn("projection", {}, course=course, eye_height=eye, projects=projects)
    n, (back, [forward]), (big, big_forward) = views(sheet, UK_METRIC)
    faces = {round(r.left, 2) for r in back}
    assert max(faces) - min(faces) < 0.02  # every other course is flush
    assert min(faces) - forward.left == pytest.approx(projects / n, abs=0.02)  # the face is to the left
    assert len(big) == 2
    scale = 102.5 / big[0].width
    assert big[0].left - big_forward.left == pytest.approx(projects / scale, abs=0.02)


@pytest.mark.parametrize("name", FORMATS)
def test_the_section_of_a_wall_has_one_brick_forward(name) -> None:
    back, forward = section_of_wall(range(5), 3, Fraction(25), FORMATS[name])
    assert [b.left for b in back] == [0] * 4
    assert forward.left == -25
    assert forward.top == float(height(3, FORMATS[name]))


@pytest.mark.parametrize(("course", "eye"), COURSES)
def test_the_eye_line_and_the_top_of_the_course_stand_at_their_own_heights(drawn, course, eye) -> None:
    sheet = drawn("projection", {}, course=course, eye_height=eye)
    n, (back, [forward]), _ = views(sheet, UK_METRIC)
    datum = max(r.bottom for r in back) + 10 / n  # the bed below the first brick
    dashed = [p for p in sheet.root.iter() if p.attrib.get("stroke-dasharray")]
    [at] = {float(p.attrib["d"].split()[1].split("L")[0]) for p in dashed}
    assert datum - at == pytest.approx(eye / n, abs=0.03)
    assert datum - forward.top == pytest.approx(float(height(course)) / n, abs=0.03)


@pytest.mark.parametrize("course", [2, 7, 12])
def test_one_whole_course_of_the_elevation_is_the_course_asked(drawn, course) -> None:
    sheet = drawn("projection", {}, course=course, eye_height=1600)
    _, (back, [forward]), _ = views(sheet, UK_METRIC)
    front = [r for r in sheet.projecting if abs(r.width - sheet.stretchers[0].width) < 0.02]
    assert {round(r.top, 1) for r in front} == {round(forward.top, 1)}
    below = [r for r in back if r.top > forward.top + 0.01]
    assert len(below) == course - 1
    flush = [r for r in sheet.stretchers if abs(r.width - front[0].width) < 0.02]
    assert len(flush) == len(front) * len(back)


def wall(sheet):
    """The wall's own rectangle, and the opening in it or None."""
    face = "#" + f"{round(0.95 * 255):02x}" * 3
    [path] = [p for p in sheet.root.iter() if p.attrib.get("fill") == face]
    points = [tuple(map(float, q.split())) for q in path.attrib["d"].strip("MZ").split("L")]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize(("rise", "sill"), [(600, 900), (1799, 300.5), (1800, 0), (2100, 0), (2400, 0)])
def test_an_opening_of_three_quarters_the_wall_stands_on_the_ground_and_a_lower_one_in_the_middle(
    drawn, rise, sill
) -> None:
    sheet = drawn("wall", {}, length=4000, height=2400, opening_width=900, opening_height=rise)
    left, top, right, bottom = wall(sheet)
    n = 4000 / (right - left)
    [void] = sheet.white
    assert (bottom - void.bottom) * n == pytest.approx(sill, abs=1)
    assert void.height * n == pytest.approx(rise, abs=1)
    assert void.width * n == pytest.approx(900, abs=1)
    assert (void.left - left) == pytest.approx(right - void.right, abs=0.02)
    assert (bottom - top) * n == pytest.approx(2400, abs=1)


@pytest.mark.parametrize(
    ("wide", "rise", "bearing"),
    [(900, 1050, 150), (3700, 1050, 150), (3701, 1050, 149.5), (4000, 1050, 0), (900, 2399, 150), (900, 2400, None)],
)
def test_a_lintel_bears_150_mm_each_side_or_as_far_as_the_wall_goes(drawn, wide, rise, bearing) -> None:
    """150 mm: common practice, no source. An opening as high as its wall has nothing to carry."""
    sheet = drawn("wall", {}, length=4000, height=2400, opening_width=wide, opening_height=rise)
    left, _, right, _ = wall(sheet)
    n = 4000 / (right - left)
    [void] = sheet.white
    level = [
        run for run in sheet.lines if len(run) == 2 and abs(run[0][1] - void.top) < 0.01 > abs(run[1][1] - void.top)
    ]
    if bearing is None:
        assert level == []
    else:
        [(start, end)] = level
        assert (void.left - start[0]) * n == pytest.approx(bearing, abs=1)
        assert (end[0] - void.right) * n == pytest.approx(bearing, abs=1)


def test_a_wall_without_an_opening_has_none_and_one_too_large_is_refused(drawn) -> None:
    assert drawn("wall", {}, length=4000, height=2400).white == ()
    with pytest.raises(TradeError):
        drawn("wall", {}, length=4000, height=2400, opening_width=4001, opening_height=600)
    with pytest.raises(TradeError):
        drawn("wall", {}, length=4000, height=2400, opening_width=900, opening_height=2401)


@pytest.mark.parametrize(("wide", "high"), [(300, 12000), (2400, 1800), (12000, 300)])
def test_both_diagonals_run_from_corner_to_corner_of_the_rectangle(drawn, wide, high) -> None:
    sheet = drawn("diagonals", {}, width=wide, height=high)
    dashed = [p.attrib["d"] for p in sheet.root.iter() if p.attrib.get("stroke-dasharray")]
    runs = [[tuple(map(float, q.split())) for q in d.lstrip("M").split("L")] for d in dashed]
    assert len(runs) == 2
    (a, b), (c, d) = (sorted(run) for run in runs)
    assert a[0] == c[0]
    assert b[0] == d[0]
    assert {a[1], c[1]} == {b[1], d[1]}
    assert a[1] != c[1]
    assert (b[0] - a[0]) / abs(b[1] - a[1]) == pytest.approx(wide / high, rel=0.01)
    corners = set(itertools.product((a[0], b[0]), (a[1], b[1])))
    boxes = [p.attrib["d"] for p in sheet.root.iter() if p.attrib.get("d", "").endswith("Z")]
    assert any({tuple(map(float, q.split())) for q in d.strip("MZ").split("L")} == corners for d in boxes)
