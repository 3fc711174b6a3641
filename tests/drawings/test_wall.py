"""A wall with its opening, read back: what stands where, what touches what."""

from __future__ import annotations

import pytest

from courseware.trade import TradeError
from tests.drawings.conftest import SVG, body_of, call_for, read


def wall(**figures: int):
    """The wall's outline and its opening, if it has one."""
    sheet = read(body_of(call_for("wall", labels={}, **figures)))
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


@pytest.mark.parametrize(
    ("figures", "expected"),
    [
        ({"opening_width": 1800, "opening_height": 1000}, (1600 - 150, 1600 + 1800 + 150, 140)),
        ({"opening_width": 4800, "opening_height": 1000}, (0, 5000, 140)),  # no further than the wall goes
        ({"opening_width": 900, "opening_height": 2300}, (2050 - 150, 2950 + 150, 100)),  # nor higher
        ({"opening_width": 900, "opening_height": 2400}, None),  # nothing to carry
        ({"opening_width": 0, "opening_height": 0}, None),
    ],
)
def test_a_lintel_lies_on_the_opening_with_its_bearings(figures: dict[str, int], expected) -> None:
    """150 mm each side, 140 high: common practice, no source. In mm from the wall's lower left corner."""
    sheet = read(body_of(call_for("wall", labels={}, length=5000, height=2400, **figures)))
    grey = f"#{round(0.7 * 255):02x}" + f"{round(0.7 * 255):02x}" * 2
    found = [path for path in sheet.root.iter(f"{SVG}path") if path.attrib.get("fill") == grey]
    if expected is None:
        assert found == []
        return
    whole, *_ = wall(length=5000, height=2400, **figures)
    n = 5000 / (whole[2] - whole[0])
    points = [tuple(map(float, point.split())) for point in found[0].attrib["d"].strip("MZ").split("L")]
    xs, ys = zip(*points, strict=True)
    left, right, high = expected
    assert (min(xs) - whole[0]) * n == pytest.approx(left, abs=n * 0.02)
    assert (max(xs) - whole[0]) * n == pytest.approx(right, abs=n * 0.02)
    assert (max(ys) - min(ys)) * n == pytest.approx(high, abs=n * 0.02)
    opening = wall(length=5000, height=2400, **figures)[1]
    assert max(ys) == pytest.approx(opening[1], abs=0.02)


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
