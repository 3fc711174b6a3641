"""Where YAML needs quotes. What it would turn is by YAML 1.1 (yaml.org/type: int, float, bool, null, timestamp)."""

from __future__ import annotations

import pytest
import yaml

from courseware.text_files.yaml_quotes import MOST_DIGITS, cut_off, turned, unreadable


@pytest.mark.parametrize(
    ("value", "says"),
    [
        ("1:5", "base 60"), ("1:30:00", "base 60"), ("-1:5", "base 60"), ("9:30.5", "base 60"),
        ("010", "octal"), ("-007", "octal"), ("00", "octal"), ("01.5", "octal"),
        ("1_000", "underscores"), ("1_0.5", "underscores"),
        ("0x1F", "another number"), ("0o17", "another number"), ("0b11", "another number"),
        ("2026-01-05", "a date"), ("2026-1-5 10:00:00", "a date"), ("2026-01-05T10:00", "a date"),
        ("1e3", "a power of ten"), ("1.5E-3", "a power of ten"), (".5e3", "a power of ten"),
        (".inf", "no number at all"), ("-.INF", "no number at all"), (".nan", "no number at all"),
        ("no", "true or false"), ("Yes", "true or false"), ("ON", "true or false"), ("off", "true or false"),
        ("True", "in small letters"), ("FALSE", "in small letters"), ("Null", "as nothing"), ("NULL", "as nothing"),
    ],
)  # fmt: skip
def test_what_yaml_would_turn_is_told_with_how(value: str, says: str) -> None:
    assert says in (turned(value) or "")


@pytest.mark.parametrize(
    "value", ["yes", "no", "on", "off", "1:30", "010", "1_000", "0x1F", "2026-01-05", ".inf", "NULL", "True"]
)
def test_pyyaml_does_turn_them(value: str) -> None:
    assert not isinstance(yaml.safe_load(value), str)


@pytest.mark.parametrize(
    "value",
    ["0", "7", "225", "-0.5", "0.1", "0.", ".5", "true", "false", "null", "~", "", "none", "north", "1:5 mortar", "3-4-5", "12-13",
     "9 to 12", "10 mm", "1/2", "e3", "0x", "_1", "2026", "no less"],
)  # fmt: skip
def test_what_reads_as_it_stands_needs_none(value: str) -> None:
    assert turned(value) is None


def test_fifteen_digits_are_a_figure_and_sixteen_are_not() -> None:
    assert turned("1" * MOST_DIGITS) is None
    assert turned("1." + "1" * (MOST_DIGITS - 1)) is None
    assert turned("1" * (MOST_DIGITS + 1)) == "it has more than 15 digits"
    assert turned("a" + "1" * 20) is None


def test_long_text_is_text() -> None:
    assert turned("2026-01-05 " + "x" * 29) is not None
    assert turned("2026-01-05 " + "x" * 30) is None  # 41 characters


@pytest.mark.parametrize(
    ("value", "rest", "cut"),
    [
        ("the wall is", " #3 of five", True),
        ("the wall is", " # a note", True),  # one blank before the #
        ("the wall is", "  # a note", False),
        ("the wall is", "  #3 of five", True),  # none behind it
        ("225", " # mm", False),  # one word or figure before it: a comment
        ("the wall is", "", False),
        ("the wall is", "  ", False),
    ],
)
def test_a_comment_that_may_be_text(value: str, rest: str, cut: bool) -> None:
    assert cut_off(value, rest) is cut


@pytest.mark.parametrize(
    ("line", "wrong", "do"),
    [
        ("\tkey: x", "a tab stands in the indentation", "use spaces"),
        ("  \tkey: x", "a tab stands in the indentation", "use spaces"),
        ("", "the file ends in the middle", "check quotes and brackets"),
        ("ask: the wall: #3", "begins a comment", "if it is text, put quotes round it"),
        ("ask: [{{ a }}, b]", "text with {{ inside [ ] or { } does not read", "put quotes"),
        ("ask: {{ a }} mm", "text that starts with { does not read", "put quotes round it"),
        ("ask: *about", "text that starts with * does not read", "put quotes round it"),
        ("- - %x", "text that starts with % does not read", "put quotes round it"),
        ("ask: 'one' two", "text stands after a closing quotation mark", "put quotes round the whole of it"),
        ("ask: the rule: level", "text with ': ' in it does not read", "put quotes round it"),
        ("ask", "this does not read as YAML (odd)", "check indentation"),
    ],
)
def test_a_line_that_does_not_read_is_told_by_what_is_in_it(line: str, wrong: str, do: str) -> None:
    told, advice = unreadable(line, "odd")
    assert wrong in told
    assert do in advice
