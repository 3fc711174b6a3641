"""A projecting frame in section, read back: its runs at their heights from the floor, forward of the wall's face."""

from __future__ import annotations

from itertools import pairwise

import pytest

from courseware.drawings.frame import BRICK, PROJECTING
from courseware.drawings.scale import SCALES
from tests.drawings.conftest import boxes, pens, shade

# Courses of opening, courses below, eye line; tops of the runs: 75 a course from the floor, then a bed and half a brick
# for the bottom run; the top run ends on the last course of the opening (a bed below the brick above).
FRAMES = [
    (9, 12, 1450, 1012.5, 1575),
    (18, 20, 1650, 1612.5, 2850),
    (15, 6, 1000, 562.5, 1575),
    (6, 1, 3000, 187.5, 525),
]


@pytest.mark.parametrize(("courses", "below", "eye", "bottom", "top"), FRAMES)
@pytest.mark.parametrize("out", [5, 25, 50])
def test_runs_stand_at_their_heights_and_forward_by_their_projection(drawn, courses, below, eye, bottom, top, out):
    sheet = drawn("frame_section", {}, courses=courses, below=below, eye_height=eye, projects=out)
    runs_ = sorted(boxes(sheet, shade(PROJECTING)), key=lambda run: -run.top)
    wall, panel = boxes(sheet, shade(BRICK)), boxes(sheet, shade(1.0))
    scale = min(SCALES, key=lambda n: abs(n - 65 / wall[0].height))
    [floor] = [line.coords[0][1] for line in pens(sheet, "0.7")]
    assert [(floor - run.top) * scale for run in runs_] == pytest.approx([bottom, top], abs=0.2)
    face = wall[0].left
    for run in runs_:
        assert (face - run.left) * scale == pytest.approx(out, abs=0.2)
        assert run.width * scale == pytest.approx(102.5, abs=0.2)
        assert run.height * scale == pytest.approx(102.5, abs=0.2)
    [line] = pens(sheet, "0.25", dashed=True)
    assert (floor - line.coords[0][1]) * scale == pytest.approx(eye, abs=0.2)
    assert len(panel) == courses - 3
    every = sorted([*wall, *panel, *runs_], key=lambda brick: -brick.bottom)
    for under, over in pairwise(every):
        assert (under.top - over.bottom) * scale == pytest.approx(10, abs=0.2)


@pytest.mark.parametrize(("courses", "below", "eye", "bottom", "top"), FRAMES)
def test_no_name_of_a_run_stands_on_the_eye_line(drawn, courses, below, eye, bottom, top) -> None:
    sheet = drawn("frame_section", {}, courses=courses, below=below, eye_height=eye)
    [line] = pens(sheet, "0.25", dashed=True)
    level = line.coords[0][1]
    for text in sheet.root.iter():
        if text.text in ("top run", "bottom run"):
            base = float(text.attrib["y"])
            assert not base - 2.0 < level < base + 0.4
