"""A wall with its opening, and a set-out rectangle, read back: what stands where, what touches what."""

from __future__ import annotations

import pytest

from courseware.drawings import draw, to_svg
from courseware.trade import TradeError
from tests.drawings.conftest import SVG, call_for, read


def wall(**figures: int):
    """The wall's outline and its opening, if it has one."""
    sheet = read(to_svg(draw(call_for("wall", labels={}, **figures))))
    rectangles = []
    for path in sheet.root.iter(f"{SVG}path"):
        for run in path.attrib["d"].split("M")[1:]:
            points = [tuple(map(float, point.split())) for point in run.rstrip("Z").split("L")]
            if run.endswith("Z") and len(points) == 4 and path.attrib.get("stroke-width") == "0.35":
                xs, ys = zip(*points, strict=True)
                rectangles.append((min(xs), min(ys), max(xs), max(ys)))
    rectangles.sort(key=lambda r: -(r[2] - r[0]) * (r[3] - r[1]))
    return rectangles


@pytest.mark.parametrize(
    ("rise", "on_the_ground"),
    [
        (1800, True),
        (1799, False),
        (1801, True),
        (2100, True),
        (900, False),
    ],  # of a wall 2400 high: three quarters are 1800
)
def test_an_opening_as_high_as_a_door_stands_on_the_ground_and_a_lower_one_does_not(
    rise: int, on_the_ground: bool
) -> None:
    whole, opening = wall(length=4000, height=2400, opening_width=900, opening_height=rise)
    n = 4000 / (whole[2] - whole[0])
    assert (opening[3] == pytest.approx(whole[3], abs=0.01)) is on_the_ground
    assert opening[1] >= whole[1]
    assert (opening[3] - opening[1]) * n == pytest.approx(rise, abs=n * 0.02)
    if not on_the_ground:
        assert opening[1] - whole[1] == pytest.approx(whole[3] - opening[3], abs=0.01)


def test_the_opening_stands_in_the_middle_and_is_as_large_as_asked() -> None:
    whole, opening = wall(length=5000, height=2400, opening_width=1800, opening_height=1000)
    assert opening[0] - whole[0] == pytest.approx(whole[2] - opening[2], abs=0.01)
    assert (opening[2] - opening[0]) / (whole[2] - whole[0]) == pytest.approx(1800 / 5000, abs=0.001)
    assert (whole[3] - whole[1]) / (whole[2] - whole[0]) == pytest.approx(2400 / 5000, abs=0.001)


@pytest.mark.parametrize(("width", "rise"), [(0, 900), (900, 0), (0, 0)])
def test_an_opening_without_a_size_is_none(width: int, rise: int) -> None:
    assert len(wall(length=3000, height=1500, opening_width=width, opening_height=rise)) == 1


@pytest.mark.parametrize(("width", "rise", "fits"), [(3000, 1500, True), (3001, 1500, False), (3000, 1501, False)])
def test_an_opening_larger_than_the_wall_is_refused(width: int, rise: int, fits: bool) -> None:
    if fits:
        assert len(wall(length=3000, height=1500, opening_width=width, opening_height=rise)) == 2
    else:
        with pytest.raises(TradeError, match="larger than the wall"):
            wall(length=3000, height=1500, opening_width=width, opening_height=rise)


@pytest.mark.parametrize(("wide", "high"), [(900, 1200), (4000, 600), (12000, 12000)])
def test_both_diagonals_join_opposite_corners(wide: int, high: int) -> None:
    sheet = read(to_svg(draw(call_for("diagonals", labels={}, width=wide, height=high))))
    dashed = [
        tuple(tuple(round(float(v), 2) for v in point.split()) for point in path.attrib["d"].strip("M").split("L"))
        for path in sheet.root.iter(f"{SVG}path")
        if path.attrib.get("stroke-dasharray")
    ]
    [outline] = [
        path.attrib["d"].strip("MZ").split("L") for path in sheet.root.iter(f"{SVG}path")
        if path.attrib["d"].endswith("Z") and path.attrib.get("stroke-width") == "0.35"
    ]  # fmt: skip
    corners = {tuple(round(float(v), 2) for v in point.split()) for point in outline}
    assert len(dashed) == 2
    assert {end for line in dashed for end in line} == corners
    for (x1, y1), (x2, y2) in dashed:
        assert x1 != x2
        assert y1 != y2
    left, right = {x for x, _ in corners}
    low, top = {y for _, y in corners}
    assert abs(right - left) / abs(top - low) == pytest.approx(wide / high, rel=0.01)
