"""YAML from strangers: what reads as typed, and what no bank may hold, each with its place and what to do."""

from __future__ import annotations

import time

import pytest

from courseware.banks import BankFaulty
from courseware.text_files.decoding import TAKE_OUT
from courseware.text_files.faults import Fault, unseen
from courseware.text_files.yaml_text import beside, read_on, read_yaml
from courseware.text_files.yaml_tree import plain_data

ESCAPE, WIDE = "\x1b", "\u200b"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("a: 0.1", {"a": "0.1"}),
        ("a: 225", {"a": "225"}),
        ("a: -0.50", {"a": "-0.50"}),
        ("a: '0123'", {"a": "0123"}),
        ('a: "1:5"', {"a": "1:5"}),
        ("a: true", {"a": "true"}),
        ("a: ~\nb: null\nc:", {"a": None, "b": None, "c": None}),
        ("a: 'null'", {"a": "null"}),
        ("true: a\n1: b\n'1.0': c\nno: d", {"true": "a", "1": "b", "1.0": "c", "no": "d"}),
        ("a: >-\n  two\n  lines", {"a": "two lines"}),
        ("a: [[b, c], {d: e}]", {"a": [["b", "c"], {"d": "e"}]}),
        ("a: 9 to 12 on site, no less", {"a": "9 to 12 on site, no less"}),
        ('a: "Łukasz, ½ brick, 102.5 × 65"', {"a": "Łukasz, ½ brick, 102.5 × 65"}),
        ('a: "two\\nlines\\tand a tab"', {"a": "two\nlines\tand a tab"}),
    ],
)
@pytest.mark.parametrize("written", ["{}", "\ufeff{}", "{}\r\n", "# note\r{}", "---\n{}\n...\n"])
def test_what_reads_as_typed(text: str, read: object, written: str) -> None:
    assert plain_data(read_yaml(written.replace("{}", text).encode(), "a.yaml")) == read


@pytest.mark.parametrize(
    ("data", "message"),
    [
        ("a: b\nname: Zoë".encode("cp1252"), "2:9: byte 0xeb is not UTF-8; the file may be in a Windows or Latin encoding; save as UTF-8"),
        ("a: b\r\nname: ½".encode("cp1252"), "2:7: byte 0xbd is not UTF-8; the file may be in a Windows or Latin encoding; save as UTF-8"),
        ("a: b".encode("utf-16"), "1:1: the file is UTF-16; save it as UTF-8"),
        ("a: b".encode("utf-16-be"), "1:1: the file looks like UTF-16 without its mark, or is not text; save it as UTF-8"),
        (b"\x89PNG\r\n\x1a\n", "1:1: byte 0x89 is not UTF-8; the file may be in a Windows or Latin encoding; save as UTF-8"),
        (b"a: b\0", "1:5: the unseen character <U+0000>; take it out"),
        (b"a: " + b"x" * 1_000_000, "1:1: the file has 1000003 bytes; at most 1000000 are read"),
        (b"", "1:1: the file is empty; expected keys with a colon, such as `topic: Opening sizes`"),
        (b"piers", "1:1: the file is not a map of keys; expected keys with a colon, such as `topic: Opening sizes`"),
        (b"a: \xed\xa0\x80", "1:4: byte 0xed is not UTF-8; the file may be in a Windows or Latin encoding; save as UTF-8"),
    ],
    ids=["cp1252", "cp1252-crlf", "utf-16", "utf-16-no-mark", "picture", "nul", "too-big", "empty", "no-map", "surrogate"],
)  # fmt: skip
def test_bytes_that_are_no_bank(data: bytes, message: str) -> None:
    assert faults(data) == [f"a.yaml:{message}"]


@pytest.mark.parametrize(
    ("character", "named"),
    [
        ("\u202e", "U+202E"),  # right-to-left override: text shows in another order than it reads
        ("\u2066", "U+2066"),  # and its isolates
        ("\u200b", "U+200B"),  # zero width: two names that look the same
        ("\u2028", "U+2028"),  # YAML readers count lines by it differently
        ("\x85", "U+0085"),
        ("\x1b", "U+001B"),  # would steer the tutor's terminal
        ("\x07", "U+0007"),
        ("\ufeff", "U+FEFF"),  # a second byte order mark
        ("\ue000", "U+E000"),
        ("\uffff", "U+FFFF"),
    ],
)
@pytest.mark.parametrize("text", ["a: b\nc: 'd{}'", "a: b\nc{}: d", "a: b\nc: d # {}"])
def test_a_character_that_does_not_show_is_named(character: str, named: str, text: str) -> None:
    [told] = faults(text.replace("{}", character).encode())
    assert told.startswith("a.yaml:2:")
    assert told.endswith(f": the unseen character <{named}>; take it out")


@pytest.mark.parametrize("written", ["\\u202e", "\\e", "\\0", "\\u200b", "\\N", "\\L", "\\x07"])
def test_an_escape_does_not_hide_it(written: str) -> None:
    [told] = faults(f'a: b\nc: "d{written}"'.encode())
    assert "a.yaml:2:4: the unseen character <U+" in told


def test_every_line_with_a_strange_sign_is_told() -> None:
    assert [told.split(":")[1] for told in faults(f"a: {WIDE}\nb: c\nd: {WIDE}{WIDE}\n".encode())] == ["1", "3"]


@pytest.mark.parametrize(
    "text", [f"a{ESCAPE}[2J: b", f"a: *b{ESCAPE}", f"a: &b{ESCAPE} c", f"a: !b{ESCAPE} c", f"a: '{ESCAPE}"]
)
def test_a_message_never_steers_the_terminal(text: str) -> None:
    for told in faults(text.encode(), f"bank{ESCAPE}.yaml"):
        assert not any(unseen(character) for character in told)


def nested(depth: int) -> str:
    return "a: " + "[" * depth + "]" * depth


DEEP = "nested too deep; at most 20 levels"
QUOTES = "which banks do not have; if it is text, put quotes round it"
EXHAUSTING = {
    "19-lists-deep": (nested(19), []),
    "20-lists-deep": (nested(20), [f"1:23: {DEEP}"]),
    "100000-lists-deep": (nested(100_000), [f"1:1003: {DEEP}"]),
    "1000-maps-deep": ("\n".join(" " * n + "a:" for n in range(1000)), [f"21:21: {DEEP}"]),
    "19900-entries": ("a: [" + "b," * 19_900 + "]", []),
    "20001-entries": ("a: [" + "b," * 20_001 + "]", ["1:39999: too many entries; at most 20000 to a file"]),
    "an-anchor-and-its-aliases": ("a: &a [b]\nc: [*a, *a]", [f"1:4: `&a` is an anchor, {QUOTES}"]),
    "a-list-that-holds-itself": ("a: &a [*a]", [f"1:4: `&a` is an anchor, {QUOTES}"]),
    "an-alias-of-nothing": ("a: *b", [f"1:4: `*b` is an alias, {QUOTES}"]),
    "a-tag": ("a: !!int x", [f"1:4: the tag `tag:yaml.org,2002:int`, {QUOTES}"]),
    "a-call": ("a: !!python/name:os.system x", [f"1:4: the tag `tag:yaml.org,2002:python/name:os.system`, {QUOTES}"]),
    "a-long-word": ("a: " + "x" * 100_000 + "1", []),
    "almost-a-number": ("a: " + "1" * 100_000 + "_", []),
}


@pytest.mark.parametrize(("text", "told"), EXHAUSTING.values(), ids=EXHAUSTING)
def test_what_would_exhaust_or_mislead_a_reader(text: str, told: list[str]) -> None:
    start = time.process_time()
    assert faults(text.encode()) == [f"a.yaml:{fault}" for fault in told]
    assert time.process_time() - start < 2


def test_very_many_faults_are_counted() -> None:
    told = faults("\n".join(f"k{n}: 0{n}1" for n in range(60)).encode())
    assert len(told) == 51
    assert told[-1] == "a.yaml:50:6: 10 more faults after this line; mend these first"


def faults(data: bytes, file: str = "a.yaml") -> list[str]:
    try:
        read_yaml(data, file)
    except BankFaulty as faulty:
        return [str(fault) for fault in faulty.faults]
    return []


def test_one_value_that_turns_leaves_the_rest_to_be_read() -> None:
    node, told = read_on(b"level: 1e3\nname: no\nname: two\naim: Piers\n", "a.yaml")
    assert [(fault.line, fault.column) for fault in told] == [(1, 8), (2, 7), (3, 1)]
    assert plain_data(node) == {"level": "1e3", "name": "no", "aim": "Piers"}


def test_what_breaks_off_is_told_alone() -> None:
    with pytest.raises(BankFaulty, match="is an alias") as faulty:
        read_on(b"aim: *piers\nlevel: 1e3\n", "a.yaml")
    assert len(faulty.value.faults) == 1


def test_what_comes_of_a_fault_told_already_is_not_told_again() -> None:
    told = (Fault("a.yaml", 3, 8, "it turns", "quotes"), Fault("a.yaml", 5, 9, "an unseen character", TAKE_OUT))
    apart = Fault("a.yaml", 1, 1, "no topic", "expected one")
    of_it = (Fault("a.yaml", 3, 8, "no figure", "expected one"), Fault("a.yaml", 5, 1, "not known", "expected one"))
    assert beside(told, (*of_it, apart)) == (apart, *told)
