"""What people typed, made fit for print."""

from __future__ import annotations

import pytest

from courseware.reports.as_typed import as_typed, by_code


def test_what_cannot_be_seen_is_named() -> None:
    assert as_typed("910\x07 mm") == "910<U+0007> mm"


def test_lines_become_one() -> None:
    assert as_typed("one\ntwo") == "one two"


@pytest.mark.parametrize(("signs", "more"), [(999, 0), (1000, 0), (1001, 1), (1500, 500)])
def test_a_long_text_is_cut_and_says_so(signs: int, more: int) -> None:
    told = as_typed("x" * signs).replace("\u200b", "")
    assert told == "x" * min(signs, 1000) + (f"… ({more} more characters)" if more else "")


@pytest.mark.parametrize(("signs", "breaks"), [(15, 0), (16, 0), (17, 1), (33, 2)])
def test_a_long_word_may_break(signs: int, breaks: int) -> None:
    assert as_typed("x" * signs).count("\u200b") == breaks


def test_a_name_gives_way_to_the_code_in_any_case() -> None:
    assert by_code("Seen with ZOË Smith; Zoë Smith agreed", "Zoë Smith", "ABCD") == "Seen with ABCD; ABCD agreed"
    assert by_code("a.b and axb", "a.b", "ABCD") == "ABCD and axb"
    assert by_code("nobody", "", "ABCD") == "nobody"
