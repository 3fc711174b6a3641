"""A sill's two views: side by side on a sheet, the section below the front on a phone, each with its own bar."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.drawings import draw
from courseware.drawings.picture import Label
from tests.drawings.conftest import call_for
from tests.drawings.test_foot import bars


@pytest.mark.parametrize("narrow", [False, True])
def test_the_section_stands_beside_the_front_or_below_it(narrow) -> None:
    call = replace(call_for("sill", {"length": "1565", "stands": "35"}, length=1565), narrow=narrow, share=0.5)
    picture = draw(call)
    words = {mark.text: mark.at for mark in picture.marks if isinstance(mark, Label)}
    assert (words["section, enlarged"][0] > words["1565"][0]) is not narrow
    assert (words["35"][1] > words["1565"][1]) is narrow


def test_each_view_has_a_bar_at_its_own_scale() -> None:
    picture = draw(call_for("sill", {"length": "1565"}, length=1565))
    (section, says), (front, whole) = bars(picture)
    assert says / section != pytest.approx(whole / front)
    assert whole / front == pytest.approx(picture.one_to)
