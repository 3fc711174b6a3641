"""A corbel still to be divided, read back: its top course as far out as asked, and no step to count."""

import pytest

from courseware.drawings.scale import SCALES
from tests.drawings.conftest import level_dimensions, runs

CASES = [(63, "327.5", 28), (146, 440, 34), (5, 100, 6)]


def parts(sheet):
    foot = sorted(sheet.stretchers, key=lambda box: -box.bottom)
    top = sorted(sheet.projecting, key=lambda box: -box.bottom)
    return foot, top, min(SCALES, key=lambda n: abs(n - 65 / foot[0].height))


@pytest.mark.parametrize(("reach", "wall", "course"), CASES)
def test_the_top_course_stands_out_by_the_reach_and_both_backs_are_plumb(drawn, reach, wall, course) -> None:
    foot, top, n = parts(drawn("corbel_reach", {}, reach=reach, wall=wall, top_course=course))
    assert (len(foot), len(top)) == (2, 2)
    for low, high in zip(foot, top, strict=True):
        assert (low.left - high.left) * n == pytest.approx(reach, abs=0.3)
        assert low.right == pytest.approx(high.right, abs=0.01)
        assert low.width * n == pytest.approx(float(wall), abs=0.3)


def test_what_lies_between_is_broken_out_with_the_face_dashed(drawn) -> None:
    sheet = drawn("corbel_reach", {}, reach=120, wall=440, top_course=30)
    foot, top, _ = parts(sheet)
    [dashed] = [points for a, _, points in runs(sheet.root) if a.get("stroke-dasharray")]
    assert [x for x, _ in dashed] == pytest.approx([foot[0].left] * 2, abs=0.01)
    assert min(y for _, y in dashed) >= top[0].bottom - 0.01
    breaks = [points for _, closed, points in runs(sheet.root) if not closed and len(points) == 6]
    assert len(breaks) == 2
    assert all(top[0].bottom < y < foot[-1].top for points in breaks for _, y in points)
    assert "course 30" in sheet.texts


@pytest.mark.parametrize(("dimension", "size"), [("reach", 120), ("wall", 440)])
def test_reach_and_wall_are_measured_from_the_face(drawn, dimension, size) -> None:
    sheet = drawn("corbel_reach", {dimension: "SIZE"}, reach=120, wall=440, top_course=30)
    foot, _, n = parts(sheet)
    [(left, right, _)] = level_dimensions(sheet)
    face = foot[0].left
    assert (left, right) == pytest.approx(
        (face - size / n, face) if dimension == "reach" else (face, face + size / n), abs=0.02
    )
