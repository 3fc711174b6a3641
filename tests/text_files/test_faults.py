"""Faults as they are printed: a place, what is wrong, what was expected; nothing in them steers the screen."""

from __future__ import annotations

import unicodedata

import pytest

from courseware.text_files.faults import BankFaulty, Fault, FileFaulty, harmless, sayable, unseen, visible


def test_a_fault_says_file_line_column_what_and_what_instead() -> None:
    assert str(Fault("a.yaml", 3, 5, "`x` is not known", "expected y")) == "a.yaml:3:5: `x` is not known; expected y"


def test_a_faulty_file_tells_all_its_faults_a_line_each() -> None:
    faults = (Fault("a.yaml", 1, 1, "one", "x"), Fault("a.yaml", 2, 1, "two", "y"))
    told = BankFaulty(faults)
    assert isinstance(told, FileFaulty)
    assert told.faults == faults
    assert str(told) == "a.yaml:1:1: one; x\na.yaml:2:1: two; y"


def test_a_name_with_escapes_does_not_steer_the_terminal() -> None:
    assert str(Fault("a\x1b[2J.yaml", 1, 1, "\u202e", "x")) == "a<U+001B>[2J.yaml:1:1: <U+202E>; x"


@pytest.mark.parametrize(
    "character",
    ["\0", "\n", "\t", "\x1b", "\x7f", "\x85", "\xad", "\u200b", "\u200e", "\u202e", "\u2028", "\u2029", "\u2066",
     "\ufeff", "\ue000", "\ud800", "\ufdd0", "\ufdef", "\ufffe", "\uffff", "\U0001fffe", "\U0010ffff"],
)  # fmt: skip
def test_what_does_not_show_or_steers_is_unseen(character: str) -> None:
    assert unseen(character)
    assert visible(f"a{character}b") == f"a<U+{ord(character):04X}>b"


@pytest.mark.parametrize(
    "character", [" ", "a", "½", "Ł", "×", "\u0301", "李", "😀", "\ufdcf", "\ufdf0", "\ufffd", "\xa0"]
)
def test_what_shows_stays(character: str) -> None:
    assert not unseen(character)
    assert visible(character) == character


def test_noncharacters_are_those_of_unicode() -> None:
    """The Unicode Standard, section 23.7: 66 of them, the last two of each plane and U+FDD0 to U+FDEF."""
    none = [n for n in range(0x110000) if unicodedata.category(chr(n)) == "Cn" and unseen(chr(n))]
    assert len(none) == 66
    assert [n for n in none if n & 0xFFFE != 0xFFFE] == list(range(0xFDD0, 0xFDF0))


@pytest.mark.parametrize(("length", "shown"), [(60, "x" * 60), (61, "x" * 60 + "…")])
def test_a_text_in_a_message_is_cut_to_sixty_characters(length: int, shown: str) -> None:
    assert harmless("x" * length) == shown


def test_what_was_cut_is_shown_harmless_too() -> None:
    assert harmless("\x1b" * 100) == "<U+001B>" * 60 + "…"
    assert visible("x" * 100) == "x" * 100


@pytest.mark.parametrize(("name", "can"), [("wände-王.yaml", True), ("", True), ("w\udcff", False), ("\ud800", False)])
def test_a_name_is_sayable_where_utf_8_has_it(name: str, can: bool) -> None:
    assert sayable(name) is can
    if can:
        assert name.encode("utf-8").decode("utf-8") == name
