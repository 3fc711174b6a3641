"""A patch of wall read back: joints of one size, a brick outlined with its joints, frogs as large as told."""

from __future__ import annotations

from itertools import pairwise

import pytest

from courseware.drawings.patch import MORTAR
from courseware.trade import AUSTRALIAN, UK_METRIC
from tests.drawings.conftest import BRICK, boxes, outlines, runs, shade

ONE_TO = 10


def views(sheet):
    """The bricks of the front, those of the section, and where each ends."""
    front, cut = (piece.bounds for piece in outlines(sheet, MORTAR)[:2])
    bricks = boxes(sheet, shade(BRICK))
    return [b for b in bricks if b.right <= front[2] + 0.01], [b for b in bricks if b.left >= cut[0] - 0.01], front, cut


# Brick and joint in mm; Australian 230 by 76 (Bricks & Pavers Technical Manual 1.1)
@pytest.mark.parametrize(
    ("brick", "joint", "long", "high"),
    [(AUSTRALIAN, 8, 230, 76), (AUSTRALIAN, 12, 230, 76), (UK_METRIC, 0, 215, 65), (UK_METRIC, 15, 215, 65)],
)
@pytest.mark.parametrize("thickness", ["1/2", "1"])
def test_every_joint_is_as_wide_as_told(drawn, brick, joint, long, high, thickness) -> None:
    front, _, _, _ = views(drawn("patch", {}, brick, joint=joint, thickness=thickness))
    wide = (joint or 10) / ONE_TO
    rows: dict[float, list] = {}
    for one in front:
        rows.setdefault(round(one.top, 2), []).append(one)
    assert len(rows) == 3
    for row in rows.values():
        assert all(b.left - a.right == pytest.approx(wide, abs=0.01) for a, b in pairwise(row))
        assert all(b.height == pytest.approx(high / ONE_TO, abs=0.01) for b in row)
    tops = sorted(rows)
    assert all(b - a == pytest.approx((high + (joint or 10)) / ONE_TO, abs=0.01) for a, b in pairwise(tops))
    assert max(b.width for b in front) == pytest.approx(long / ONE_TO, abs=0.01)


def test_one_brick_is_outlined_with_one_joint_each_way(drawn) -> None:
    sheet = drawn("patch", {"face": None}, AUSTRALIAN, joint=12)
    [points] = [p for a, closed, p in runs(sheet.root) if closed and a.get("stroke-width") == "0.7"]
    xs, ys = zip(*points, strict=True)
    area = (max(xs) - min(xs)) * (max(ys) - min(ys)) * ONE_TO**2
    assert area == pytest.approx(21296, rel=1e-3)  # (230 + 12) by (76 + 12)


@pytest.mark.parametrize(("thickness", "thick", "in_course"), [("1/2", 102.5, (1, 1, 1)), ("1", 215, (2, 1, 2))])
def test_the_section_is_as_thick_as_the_wall(drawn, thickness, thick, in_course) -> None:
    _, cut, _, ends = views(drawn("patch", {}, thickness=thickness))
    assert (ends[2] - ends[0]) * ONE_TO == pytest.approx(thick, abs=0.1)
    tops = sorted({round(one.top, 2) for one in cut})
    assert tuple(sum(round(one.top, 2) == top for one in cut) for top in tops) == in_course


@pytest.mark.parametrize("frog", [1, 5, 10, 15, 20])
def test_a_frog_takes_its_share_of_the_brick_cut_through_and_lies_in_its_top(drawn, frog) -> None:
    sheet = drawn("patch", {}, frog=frog)
    _, cut, _, _ = views(sheet)
    hollows = outlines(sheet, MORTAR)[2:]
    assert len(hollows) == len(cut) == 3
    for hollow in hollows:
        brick = next(one for one in cut if abs(one.top - hollow.bounds[1]) < 0.01)
        assert hollow.area / (brick.width * brick.height) == pytest.approx(frog / 100, rel=0.02)
        assert brick.left < hollow.bounds[0]
        assert hollow.bounds[2] < brick.right


def test_a_solid_brick_has_no_frog(drawn) -> None:
    assert len(outlines(drawn("patch", {}, frog=0), MORTAR)) == 2
