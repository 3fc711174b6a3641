"""The square corner for the mitred bat read back: at true size, and the bat on the key alone."""

from __future__ import annotations

import pytest

from courseware.trade import mitre_template
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
