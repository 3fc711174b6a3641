"""Every kind of drawing in large print, with all its sizes told and with every other one asked for."""

import pytest

from courseware.banks.drawing_kinds import DRAWING_KINDS
from tests.drawings.test_large_type import PAGES, calls, check


@pytest.mark.parametrize("sheet", PAGES)
@pytest.mark.parametrize("size", [18, 24])
@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_no_word_is_under_the_size_asked_for_or_on_another_or_off_the_page(kind: str, size: int, sheet: str) -> None:
    for call in calls(kind):
        check(call, sheet, size)
