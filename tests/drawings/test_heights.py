"""The foot and the head of a wall: its courses cannot be counted, and its height runs between the datums named."""

import pytest

from tests.drawings.conftest import level_of, plumb_dimensions

DATUMS = {
    "height": ("height", "top of brick below", "top of last brick"),
    "face": ("face height", "underside of first brick", "top of last brick"),
    "clear": ("clear height", "top of brick below", "underside of brick above"),
}


@pytest.mark.parametrize("courses", [5, 14, 40])
def test_two_courses_stand_at_either_end_however_many_there_are(drawn, courses) -> None:
    assert len(drawn("heights", {}, courses=courses).courses()) == 4


@pytest.mark.parametrize("datum", DATUMS)
def test_the_height_runs_from_datum_to_datum_and_says_which_it_is(drawn, datum) -> None:
    sheet = drawn("heights", {}, courses=20, datum=datum)
    named, low, high = DATUMS[datum]
    assert set(sheet.texts) == {named, low, high}
    [ends] = plumb_dimensions(sheet).values()
    assert ends == pytest.approx([level_of(sheet, low), level_of(sheet, high)], abs=0.02)
    rows = sheet.courses()
    bed = rows[0][0].top - rows[1][0].bottom
    foot = {"height": rows[0][0].bottom + bed, "face": rows[0][0].bottom, "clear": rows[0][0].bottom + bed}
    head = {"height": rows[-1][0].top, "face": rows[-1][0].top, "clear": rows[-1][0].top - bed}
    assert ends == pytest.approx([foot[datum], head[datum]], abs=0.02)


def test_a_figure_takes_the_place_of_the_name(drawn) -> None:
    sheet = drawn("heights", {"height": "1500"}, courses=20)
    assert "1500" in sheet.texts
    assert "height" not in sheet.texts
