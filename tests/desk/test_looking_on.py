"""Short work is looked on by a page."""

from __future__ import annotations

from courseware.desk.looking_on import Noted


def test_notes_are_kept_and_progress_is_let_go() -> None:
    watch = Noted()
    watch.note("some are shared")
    watch.waiting()
    with watch.progress("Printing", 3) as tell:
        tell(1)
    assert watch.notes == ["some are shared"]
