"""Bytes as text: any line end, with or without a mark; what is not UTF-8 is told by line and column."""

from __future__ import annotations

import pytest

from courseware.text_files.decoding import MOST_BYTES, decoded, strange_signs
from courseware.text_files.faults import BankFaulty


def fault(data: bytes) -> str:
    with pytest.raises(BankFaulty) as faulty:
        decoded(data, "a.yaml")
    [told] = faulty.value.faults
    return str(told).removeprefix("a.yaml:")


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_lines_end_in_one_newline_whatever_wrote_them(end: str, mark: str) -> None:
    assert decoded(f"{mark}½ brick{end}{end}Łukasz{end}".encode(), "a.yaml") == "½ brick\n\nŁukasz\n"


def test_a_file_is_read_up_to_so_many_bytes() -> None:
    assert len(decoded(b"x" * MOST_BYTES, "a.yaml")) == MOST_BYTES
    assert fault(b"x" * (MOST_BYTES + 1)) == f"1:1: the file has {MOST_BYTES + 1} bytes; at most {MOST_BYTES} are read"


@pytest.mark.parametrize(
    ("data", "place", "byte"),
    [
        (b"\xe9", "1:1", "e9"),
        (b"ab\xe9", "1:3", "e9"),
        (b"a\r\nb\r\nc\xbd", "3:2", "bd"),
        (b"a\rb\rc\xbd", "3:2", "bd"),
        ("½\nŁł".encode() + b"\xbd", "2:3", "bd"),  # counted in characters, not in bytes
        (b"\xef\xbb\xbfab\xff", "1:3", "ff"),  # a mark at the beginning is no character
        (b"a: \xed\xa0\x80", "1:4", "ed"),  # a surrogate: no character of its own
        (b"a: \xc0\xaf", "1:4", "c0"),  # longer than need be: not UTF-8 (RFC 3629, 3)
    ],
)
def test_a_byte_that_is_not_utf_8_is_told_by_line_and_column(data: bytes, place: str, byte: str) -> None:
    says = f"byte 0x{byte} is not UTF-8; the file may be in a Windows or Latin encoding; save as UTF-8"
    assert fault(data) == f"{place}: {says}"


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
def test_utf_16_is_known_with_its_mark_and_without(encoding: str) -> None:
    assert fault("topic: Piers\n".encode(encoding)).startswith("1:1: the file ")
    assert "UTF-16" in fault("topic: Piers\n".encode(encoding))


def test_three_noughts_in_ten_bytes_are_still_text_and_more_are_not() -> None:
    assert decoded(b"\0" * 3 + b"x" * 7, "a.yaml").count("\0") == 3
    assert "is not text" in fault(b"\0" * 4 + b"x" * 6)


def test_the_first_unseen_character_of_each_line_is_told() -> None:
    told = list(strange_signs("ab\u200bc\u202e\nfine, ½ × Łukasz\td\n\x1b[2J", "a.yaml"))
    assert [(one.line, one.column, one.wrong, one.expected) for one in told] == [
        (1, 3, "the unseen character <U+200B>", "take it out"),
        (3, 1, "the unseen character <U+001B>", "take it out"),
    ]


def test_text_without_any_has_no_fault() -> None:
    assert list(strange_signs("a: b\n\tc – d “e” 😀\n", "a.yaml")) == []
