"""How headers that stand out look; the pieces of a dentil course are read back in `test_broken`."""

from __future__ import annotations

import pytest

from courseware.drawings import draw
from courseware.drawings.picture import Stroke
from tests.drawings.conftest import BRICK, PROJECTING, call_for


@pytest.mark.parametrize(("length", "out", "back"), [("552.5", 2, 2), ("1002.5", 4, 4), ("3252.5", 6, 6)])
def test_headers_that_stand_out_are_dark_and_the_legend_says_so(length, out, back) -> None:
    picture = draw(call_for("dentils", {}, length=length))
    counted = {BRICK: 0, PROJECTING: 0}
    for mark in picture.body.marks:
        if isinstance(mark, Stroke) and mark.fill in counted:
            counted[mark.fill] += len(mark.outlines)
    assert counted == {PROJECTING: out, BRICK: back}
    assert picture.legend == ("whole", "out")
