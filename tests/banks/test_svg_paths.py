"""Paths and shapes as runs of points: commands and arcs by SVG 1.1 (W3C, second edition), chapters 8 and 9, appendix F.6."""

from __future__ import annotations

from itertools import accumulate, pairwise
from math import comb, cos, dist, hypot, pi, radians, sin

import pytest

from courseware.banks.own_picture import NotDrawn
from courseware.banks.svg_paths import ellipse, number, numbers, path_runs, points_of, rounded_box


def along(run, share: float):
    """The point so far along a run, by its length."""
    ends = [0.0, *accumulate(dist(a, b) for a, b in pairwise(run))]
    wanted = share * ends[-1]
    place = next(n for n, end in enumerate(ends) if end >= wanted)
    part = (wanted - ends[place - 1]) / (ends[place] - ends[place - 1])
    return tuple(a + part * (b - a) for a, b in zip(run[place - 1], run[place], strict=True))


@pytest.mark.parametrize(
    ("data", "runs"),
    [
        ("M1 2 L3 4", [([(1, 2), (3, 4)], False)]),
        ("m1,2 l2,2", [([(1, 2), (3, 4)], False)]),
        ("M1 2 3 4 5 6", [([(1, 2), (3, 4), (5, 6)], False)]),  # after a move, lines
        ("m1 2 2 2 2 2", [([(1, 2), (3, 4), (5, 6)], False)]),
        ("M1 2 H5 V6 h-1 v-1", [([(1, 2), (5, 2), (5, 6), (4, 6), (4, 5)], False)]),
        ("M0 0 L4 0 4 4 Z", [([(0, 0), (4, 0), (4, 4)], True)]),
        ("M0 0 L4 0 4 4 z l1 1", [([(0, 0), (4, 0), (4, 4)], True), ([(0, 0), (1, 1)], False)]),  # from where it began
        ("M0 0 L1 0 M5 5 L6 5", [([(0, 0), (1, 0)], False), ([(5, 5), (6, 5)], False)]),
        ("M5 5", []),  # a move alone draws nothing
        ("", []),
        ("M.5.5-1-1", [([(0.5, 0.5), (-1, -1)], False)]),  # numbers need no blank where a sign or point begins one
        ("M1e1 2E-1L3 4", [([(10, 0.2), (3, 4)], False)]),
        ("M0 0 A0 5 0 0 1 4 4", [([(0, 0), (4, 4)], False)]),  # F.6.2: no radius, a straight line
        ("M0 0 A5 5 0 0 1 0 0 L1 1", [([(0, 0), (0, 0), (1, 1)], False)]),
    ],
)
def test_straight_commands(data: str, runs) -> None:
    assert path_runs(data) == runs


@pytest.mark.parametrize(
    ("data", "control"),
    [
        ("M0 0 C0 9 9 9 9 0", [(0, 0), (0, 9), (9, 9), (9, 0)]),
        ("M1 1 c0 9 9 9 9 0", [(1, 1), (1, 10), (10, 10), (10, 1)]),
        ("M0 0 S9 9 9 0", [(0, 0), (0, 0), (9, 9), (9, 0)]),  # no curve before: its handle is where the pen is
        ("M0 0 Q4 9 9 0", [(0, 0), (4, 9), (9, 0)]),
        ("M0 0 T9 0", [(0, 0), (0, 0), (9, 0)]),
    ],
)
def test_a_curve_begins_ends_and_lies_as_bernstein_has_it(data: str, control) -> None:
    """Bernstein polynomials of its control points, at a quarter, a half and three quarters."""
    [(run, _)] = path_runs(data)
    assert (run[0], run[-1]) == (control[0], control[-1])
    n = len(control) - 1
    for share in (0.25, 0.5, 0.75):
        weights = [comb(n, i) * share**i * (1 - share) ** (n - i) for i in range(n + 1)]
        wanted = tuple(sum(w * p[axis] for w, p in zip(weights, control, strict=True)) for axis in (0, 1))
        assert run[int(share * (len(run) - 1))] == pytest.approx(wanted)


@pytest.mark.parametrize(
    ("smooth", "plain"),
    [
        ("M0 0 C0 5 5 5 5 0 S10 -5 10 0", "M0 0 C0 5 5 5 5 0 C5 -5 10 -5 10 0"),
        ("M0 0 Q2 5 5 0 T10 0", "M0 0 Q2 5 5 0 Q8 -5 10 0"),
        ("M0 0 C0 5 5 5 5 0 T10 0", "M0 0 C0 5 5 5 5 0 Q5 0 10 0"),  # a curve of the other kind lends no handle
        ("M0 0 C0 5 5 5 5 0 L6 0 S10 -5 10 0", "M0 0 C0 5 5 5 5 0 L6 0 C6 0 10 -5 10 0"),
    ],
)
def test_a_smooth_curve_goes_on_as_the_one_before_it_ended(smooth: str, plain: str) -> None:
    assert path_runs(smooth) == path_runs(plain)


def test_a_quarter_turn_by_arc_lies_on_its_circle() -> None:
    [(run, closed)] = path_runs("M 10 0 A 10 10 0 0 1 0 10")
    assert not closed
    assert all(x * x + y * y == pytest.approx(100) for x, y in run)
    assert (run[0], run[-1]) == ((10, 0), (0, 10))
    middle = run[len(run) // 2]
    assert middle == pytest.approx((10 * cos(radians(45)), 10 * sin(radians(45))))  # sweep 1 goes by +x, +y


# Points a quarter, a half and three quarters along, as Chromium's getPointAtLength gives them.
@pytest.mark.parametrize(
    ("data", "points"),
    [
        ("M 35 30 a 25 20 15 0 1 50 0", [(41.720, 14.156), (58.720, 9.295), (75.514, 15.204)]),  # radii too small
        ("M 10 10 A 9 4 -40 1 0 16 12", [(3.430, 15.304), (3.451, 22.102), (11.106, 18.794)]),
    ],
)
def test_a_tilted_arc_runs_as_in_a_browser(data: str, points: list[tuple[float, float]]) -> None:
    [(run, _)] = path_runs(data)
    for share, point in zip((0.25, 0.5, 0.75), points, strict=True):
        assert along(run, share) == pytest.approx(point, abs=0.01)


@pytest.mark.parametrize("flags", ["0 0", "0 1", "1 0", "1 1", "00", "11"])
def test_the_flags_of_an_arc_choose_its_side_and_its_length(flags: str) -> None:
    """F.6.5: of the four arcs of radius 5 from (0, 0) to (6, 0), large ones are longer than half the circle."""
    large, sweep = (flag == "1" for flag in flags.replace(" ", ""))
    [(run, _)] = path_runs(f"M0 0 A5 5 0 {flags} 6 0")
    length = sum(dist(a, b) for a, b in pairwise(run))
    assert (length > 5 * pi) is large
    side = sum(y for _, y in run)
    assert (side < 0) is sweep  # y runs downwards, and a sweep is clockwise as seen


@pytest.mark.parametrize(
    ("data", "wrong"),
    [
        ("L1 1", "does not begin with a move"), ("1 1", "cannot be read"), ("M1", "cannot be read"), ("M1 1 X2 2", "cannot be read"),
        ("M0 0 A5 5 0 2 1 4 4", "cannot be read"), ("M0 0 L1e7 0", "not a number that can be drawn"), ("M0 0 Z 1 1", "cannot be read"),
    ],
)  # fmt: skip
def test_data_that_do_not_read_are_refused(data: str, wrong: str) -> None:
    with pytest.raises(NotDrawn) as refused:
        path_runs(data)
    assert wrong in refused.value.wrong


@pytest.mark.parametrize(
    ("text", "value"), [("1", 1), ("-1.5", -1.5), ("+.5", 0.5), ("5.", 5), ("1e3", 1000), ("1e6", 1e6), (" 7 ", 7)]
)
def test_a_number(text: str, value: float) -> None:
    assert number(text) == value


@pytest.mark.parametrize("text", ["", "x", "1 2", "1e7", "-1000001", "NaN", "Infinity", "1e9999", "--1", "٣"])
def test_what_is_no_number_that_can_be_drawn(text: str) -> None:
    with pytest.raises(NotDrawn, match="is not a number that can be drawn"):
        number(text)


def test_points_come_in_pairs_two_or_more() -> None:
    assert numbers(" 1,2  3 ,4 ") == [1, 2, 3, 4]
    assert points_of("1 2, 3 4") == [(1, 2), (3, 4)]
    for text in ("", "1 2", "1 2 3", "1 2 3 4 5"):
        with pytest.raises(NotDrawn, match="are not pairs of numbers"):
            points_of(text)


def test_an_ellipse_goes_round_its_middle() -> None:
    run = ellipse((10, 20), 6, 3)
    assert all(((x - 10) / 6) ** 2 + ((y - 20) / 3) ** 2 == pytest.approx(1) for x, y in run)
    assert max(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise([*run, run[0]])) < 0.4


@pytest.mark.parametrize(("round_x", "round_y"), [(0, 0), (5, 0), (0, 5), (-1, 5)])
def test_a_box_without_both_radii_has_four_corners(round_x: float, round_y: float) -> None:
    assert rounded_box(1, 2, 30, 20, round_x, round_y) == [(1, 2), (31, 2), (31, 22), (1, 22)]


@pytest.mark.parametrize(("radius", "corner"), [(4, 4), (11, 11), (15, 15), (16, 15)])
def test_corners_are_rounded_no_further_than_half_a_side(radius: float, corner: float) -> None:
    """Chapter 9.2: a radius of more than half the side is taken as half, each by itself."""
    run = rounded_box(0, 0, 30, 20, radius, radius)
    top = [x for x, y in run if y == pytest.approx(0)]
    assert (min(top), max(top)) == pytest.approx((corner, 30 - corner))
    left = [y for x, y in run if x == pytest.approx(0)]
    assert (min(left), max(left)) == pytest.approx((min(radius, 10), 20 - min(radius, 10)))
