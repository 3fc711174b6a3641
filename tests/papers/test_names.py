"""Names on paper: what shows stays as typed, what does not show is taken out."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.papers.names import printable_text, same_name
from courseware.text_files.faults import unseen


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("Amara Okafor", "Amara Okafor"),
        ("  Amara \t Okafor\n", "Amara Okafor"),
        ("Amara\u00a0Okafor", "Amara Okafor"),  # a space that does not break
        ("Zoe\u0308", "Zoë"),  # one letter, however it was typed
        ("Nguyễn Thị Hằng", "Nguyễn Thị Hằng"),
        ("李明", "李明"),
        ("مريم", "مريم"),
        ("O’Brien–Smythe", "O’Brien–Smythe"),
        ("An\u200bn", "Ann"),
        ("An\u202en", "Ann"),
        ("An\u00adn", "Ann"),
        ("An\x1b[2Jn", "An[2Jn"),
        ("An\ufe0fn\u3164\u2800", "Ann"),
        ("\u200b\u2060\ufeff", ""),
        ("a" + "\u0301" * 40, "á" + "\u0301" * 4),
        ("=1+1", "=1+1"),
        ("", ""),
    ],
)
def test_a_name_is_made_fit_for_paper(typed: str, printed: str) -> None:
    assert printable_text(typed) == printed


@settings(deadline=None)
@given(st.text(max_size=80))
def test_a_tidied_name_is_tidy(typed: str) -> None:
    name = printable_text(typed)
    assert printable_text(name) == name
    assert not any(unseen(character) for character in name)
    assert name == unicodedata.normalize("NFC", name).strip()
    assert "  " not in name


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [("Ann Lee", "ANN lee", True), ("Zoë", "ZOË", True), ("Weiß", "WEISS", True), ("Ann", "Anne", False), ("Zoe", "Zoë", False)],
)  # fmt: skip
def test_names_that_differ_in_capitals_alone_are_the_same(one: str, other: str, same: bool) -> None:
    assert (same_name(one) == same_name(other)) is same
