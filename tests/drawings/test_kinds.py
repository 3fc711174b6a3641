"""One table of drawing kinds: what banks may ask for is drawn, and what is drawn may be asked for."""

from __future__ import annotations

from courseware import drawings
from courseware.banks.drawing_kinds import DRAWING_KINDS


def test_every_kind_that_a_bank_may_ask_for_is_drawn_and_no_other() -> None:
    assert set(drawings._DRAWN) == set(DRAWING_KINDS)
