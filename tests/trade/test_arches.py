"""The radius of a segmental arch, by geometry."""

import pytest

from courseware.trade import (
    segmental_radius,
)


@pytest.mark.parametrize(("span", "rise", "radius"), [(1200, 200, 1000), (2400, 400, 2000)])
def test_segmental_arch(span: int, rise: int, radius: int) -> None:
    """Geometry: the radius is (span² / 4 + rise²) / (2 × rise)."""
    assert segmental_radius(span, rise) == radius
