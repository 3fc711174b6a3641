"""Drawings in fewer bytes: every outline where it was, to a tenth of a mm."""

from __future__ import annotations

import re

import pytest

from courseware.drawings import draw, to_svg
from courseware.drawings.picture import Stroke
from courseware.practice.lean_svg import by_steps, lean_svg
from tests.drawings.conftest import call_for
from tests.drawings.test_table_of_kinds import MIDDLING

_STEP = re.compile(r"([mhvlz])([^mhvlz]*)")
_FIGURE = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
Runs = list[list[tuple[float, float]]]


def absolute(path: str) -> Runs:
    return [[tuple(map(float, point.split())) for point in run.strip("Z").split("L")] for run in path.split("M")[1:]]


def walked(path: str) -> Runs:
    """The points of a path of steps, as a browser walks it (SVG 2, 9.3)."""
    runs: Runs = []
    x = y = 0.0
    for step, figures in _STEP.findall(path):
        found = [float(figure) for figure in _FIGURE.findall(figures)]
        if step == "z":
            x, y = runs[-1][0]
            continue
        across, down = found if step in "ml" else (found[0], 0.0) if step == "h" else (0.0, found[0])
        x, y = x + across, y + down
        if step == "m":
            runs.append([])
        runs[-1].append((x, y))
    return runs


@pytest.mark.parametrize("kind", sorted(MIDDLING))
def test_every_point_of_every_drawing_stays_within_half_a_tenth_of_a_mm(kind: str) -> None:
    picture = draw(call_for(kind, **MIDDLING[kind]))
    whole, short = to_svg(picture), lean_svg(picture)
    paths, steps = (re.findall(r' d="([^"]*)"', svg) for svg in (whole, short))
    assert len(paths) == len(steps)
    for path, own in zip(paths, steps, strict=True):
        for run, walk in zip(absolute(path), walked(own), strict=True):
            for (x, y), (a, b) in zip(run, walk, strict=True):
                assert abs(x - a) <= 0.0501
                assert abs(y - b) <= 0.0501
    assert len(short) < len(whole)


def test_words_and_pens_stay_as_they_are() -> None:
    picture = draw(call_for("opening", {"width": "910"}, **MIDDLING["opening"]))
    without = [re.sub(r' d="[^"]*"', "", svg) for svg in (to_svg(picture), lean_svg(picture))]
    assert without[0] == without[1]


def test_what_is_shorter_than_half_a_tenth_is_a_step_of_nought() -> None:
    assert by_steps(Stroke(outlines=(((0.04, 0.0), (0.06, 0.0), (0.07, 0.0)),), closed=True)) == "m0 0h.1h0z"
