"""What a soldier course stands on and how it looks; its pieces are read back in `test_broken`."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.drawings import draw
from courseware.drawings.lines import GROUND
from courseware.drawings.picture import Stroke
from tests.drawings.conftest import SOLDIER, call_for


@pytest.mark.parametrize("share", [1.0, 0.5, 0.3])
def test_it_stands_in_the_tone_of_soldiers_on_the_heaviest_line_however_small(share) -> None:
    call = replace(call_for("soldiers", {"length": "2015"}, length=2015), share=share)
    picture = draw(call)
    strokes = [mark for mark in picture.marks if isinstance(mark, Stroke)]
    [standing] = [mark for mark in strokes if mark.fill == SOLDIER]
    assert len(standing.outlines) == 12
    foot = max(y for outline in standing.outlines for _, y in outline)
    heavy = [mark for mark in strokes if mark.weight == GROUND.weight]
    assert len(heavy) == 2
    assert all(y == pytest.approx(foot) for mark in heavy for run in mark.outlines for _, y in run)
    assert picture.one_to >= draw(replace(call, share=1.0)).one_to
