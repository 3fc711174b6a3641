"""The terminal looking on: what a tutor should know goes to the error stream, apart from what was made."""

from __future__ import annotations

from courseware.commands.terminal import TERMINAL


def test_a_note_is_marked_as_one(capsys) -> None:
    TERMINAL.note("two learners share a variant.")
    out, err = capsys.readouterr()
    assert (out, err) == ("", "Note: two learners share a variant.\n")


def test_waiting_says_for_what(capsys) -> None:
    TERMINAL.waiting()
    out, err = capsys.readouterr()
    assert (out, err) == ("", "Another run is writing to this folder; waiting for it to end.\n")


def test_quick_work_shows_no_bar(capsys) -> None:
    with TERMINAL.progress("Printing", 2) as tell:
        tell(1)
        tell(1)
    assert capsys.readouterr() == ("", "")
