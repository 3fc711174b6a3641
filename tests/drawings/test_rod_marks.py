"""Four marks of a rod, read back: even distances on paper whatever the tape reads, each reading under its own mark."""

from itertools import pairwise

import pytest

from tests.drawings.conftest import SVG, runs

READINGS = {"first": 1050, "second": 1425, "third": 1800, "fourth": 2250}
NAMES = ["14", "19", "24", "29"]


def places(sheet, words):
    """Where these words stand across the paper, from the left."""
    return sorted(float(text.attrib["x"]) for text in sheet.root.iter(f"{SVG}text") if text.text in words)


@pytest.mark.parametrize("wrong", READINGS)
@pytest.mark.parametrize("shift", [-75, -10, 10, 75])
def test_a_wrong_reading_moves_no_mark(drawn, wrong, shift) -> None:
    right, amiss = (
        drawn("rod_marks", {}, lowest=14, step=5, **{**READINGS, wrong: READINGS[wrong] + by}) for by in (0, shift)
    )
    assert [points for _, _, points in runs(right.root)] == [points for _, _, points in runs(amiss.root)]


def test_each_reading_stands_under_the_mark_of_its_course_in_order(drawn) -> None:
    sheet = drawn("rod_marks", {name: str(mm) for name, mm in READINGS.items()}, lowest=14, step=5, **READINGS)
    at = places(sheet, NAMES)
    assert [text for text in sheet.texts if text in NAMES] == NAMES
    assert places(sheet, {str(mm) for mm in READINGS.values()}) == pytest.approx(at)
    assert {round(b - a, 2) for a, b in pairwise(at)} == {20.0}
    arrows = sorted(points[0][0] for _, closed, points in runs(sheet.root) if closed and len(points) == 3)
    assert arrows == pytest.approx(at)


def test_a_reading_that_is_asked_for_has_a_box(drawn) -> None:
    sheet = drawn("rod_marks", {"first": "1050", "second": None}, lowest=14, step=5, **READINGS)
    [blank] = sheet.white
    assert (blank.left + blank.right) / 2 == pytest.approx(places(sheet, NAMES)[1])
