"""The square corner for the mitred bat read back: at true size, and the bat on the key alone."""

from __future__ import annotations

import pytest

from courseware.trade import GERMAN_NF, UK_METRIC, mitre_template
from tests.drawings.conftest import runs


def spans(outline) -> tuple[float, float]:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return max(xs) - min(xs), max(ys) - min(ys)


def test_the_mitre_is_drawn_at_true_size_and_the_bat_on_the_key_alone(drawn) -> None:
    asked, told = (
        [points for _, closed, points in runs(drawn("mitre", {"leg": leg, "cut_length": cut}).root) if closed]
        for leg, cut in ((None, None), ("34.6", "48.9"))
    )
    assert len(told) == len(asked) + 1
    assert any(spans(outline) == pytest.approx((65, 65), abs=0.01) for outline in asked)  # the corner piece
    bat = mitre_template()
    [drawn_bat] = [outline for outline in told if len(outline) == len(bat.outline)]
    assert spans(drawn_bat) == pytest.approx((65, 102.5), abs=0.01)


@pytest.mark.parametrize("brick", [UK_METRIC, GERMAN_NF])
def test_the_bat_stands_within_the_box_that_it_is_drawn_in(drawn, brick) -> None:
    found = [
        points for _, closed, points in runs(drawn("mitre", {"leg": "1", "cut_length": "1"}, brick).root) if closed
    ]
    [bat] = [outline for outline in found if len(outline) == len(mitre_template(brick).outline)]
    frame = max((outline for outline in found if len(outline) == 4), key=spans)
    for side in (0, 1):
        assert min(point[side] for point in frame) + 4.9 < min(point[side] for point in bat) + 0.1
        assert max(point[side] for point in bat) + 4.9 < max(point[side] for point in frame)
