"""A set-out rectangle with both diagonals, read back from its SVG."""

from __future__ import annotations

import pytest

from tests.drawings.conftest import SVG, body_of, call_for, read


@pytest.mark.parametrize(("wide", "high"), [(900, 1200), (4000, 600), (12000, 12000)])
def test_both_diagonals_join_opposite_corners(wide: int, high: int) -> None:
    sheet = read(body_of(call_for("diagonals", labels={}, width=wide, height=high)))
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
