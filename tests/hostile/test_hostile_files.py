"""Files that nobody would write on purpose, through the command line: each refused with its line, none with a traceback.

The rules of a room are tested beside it; here each nasty stands in a bank that is otherwise good. Lines are counted by hand.
"""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from courseware.cli import main

BANK = """\
topic: Piers
aim: Work out the length of a pier
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 5 to 9}
    pose: A pier is {{ bricks }} bricks long.
    parts:
      - name: length
        ask: How long is it?
        answer: pier(bricks)
        unit: mm
        marks: 1
        working: [{say: Less a joint, value: bricks * module - joint}]
"""
AIM, LEVEL, GIVEN, POSE, ANSWER = 2, 5, 6, 7, 11  # the lines that are changed below
CONTROLS = {chr(code) for code in (*range(9), *range(11, 32), 0x7F, 0x200B, 0x2028, 0x202E)}


def with_line(number: int, value: str) -> str:
    """The good bank with another value after the key of that line."""
    lines = BANK.splitlines(keepends=True)
    lines[number - 1] = lines[number - 1].partition(":")[0] + f": {value}\n"
    return "".join(lines)


def check(place: Path, data: bytes) -> Result:
    file = place / "bank.yaml"
    file.write_bytes(data)
    return CliRunner().invoke(main, ["check", str(file)])


def refused(place: Path, data: bytes, line: int) -> str:
    """What is said of a bank that is refused: its line, in plain signs and within a second of processor time."""
    before = time.process_time()
    done = check(place, data)
    assert time.process_time() - before < 1  # a bomb takes minutes, or all memory
    assert isinstance(done.exception, SystemExit)
    assert done.exit_code == 2, done.output
    assert f"bank.yaml:{line}:" in done.output, done.output
    assert not set(done.output) & CONTROLS
    return done.output


def test_the_bank_is_good_as_it_stands(tmp_path) -> None:
    assert check(tmp_path, BANK.encode()).exit_code == 0


def test_marks_of_order_and_line_ends_of_other_systems_are_read(tmp_path) -> None:
    assert check(tmp_path, b"\xef\xbb\xbf" + BANK.replace("\n", "\r\n").encode()).exit_code == 0


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>", "<link rel=attachment href=file:///etc/passwd>", "{0[__globals__]}",
        "{% for i in range(9) %}x{% endfor %}",
    ],
)  # fmt: skip
def test_markup_and_templates_of_others_are_words_like_any_other(tmp_path, text) -> None:
    assert check(tmp_path, with_line(POSE, f"'{text}'").encode()).exit_code == 0


BOMB = "a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 10))


@pytest.mark.parametrize(
    ("data", "line"),
    [
        (b"", 1),
        (b"just words\n", 1),
        (b"\x89\x00\xff\xd8\xff\xe0" * 500, 1),  # a picture under another name
        (BANK.encode("utf-16"), 1),
        (with_line(POSE, "The lintel of a café").encode("latin-1"), POSE),
        ((BANK + "---\n" + BANK).encode(), 15),
        (BOMB.encode(), 1),
        (b"a: &a [*a]\n", 1),
        (b"a: " + b"[" * 900 + b"]" * 900 + b"\n", 1),
        ((BANK + "# " + "x" * 1_100_000 + "\n").encode(), 1),
        ("".join(" " * depth + "a:\n" for depth in range(400)).encode(), 21),  # nested twenty deep is all that is read
    ],
    ids=["empty", "words", "picture", "utf-16", "latin-1", "two documents", "aliases", "a list in itself", "nested flow",
         "too long", "nested block"],
)  # fmt: skip
def test_what_is_no_bank_at_all(tmp_path, data: bytes, line: int) -> None:
    refused(tmp_path, data, line)


@pytest.mark.parametrize(
    "value",
    [
        "Work out: 3 x 4", "{{ bricks }} bricks", "%5 waste", "*important", "one\u2028two", "1:3", "9:30", "2024-09-01",
        "1e3", "~", "Null", '!!int ""', "!!bool maybe", "1" + "_" * 19_000, '"Wall\\u202Egnp.exe"',
        '"\\e]0;owned\\a\\e[2J"', "{length} m", '"{{ length }} m"',
    ],
    ids=lambda value: ascii(value[:20]),
)  # fmt: skip
def test_a_text_that_yaml_or_a_template_would_turn_into_something_else(tmp_path, value: str) -> None:
    refused(tmp_path, with_line(POSE, value).encode(), POSE)


def test_a_tag_that_runs_a_program_runs_none(tmp_path) -> None:
    traces = tmp_path / "traces"
    refused(tmp_path, with_line(POSE, f'!!python/object/apply:os.system ["touch {traces}"]').encode(), POSE)
    assert not traces.exists()


@pytest.mark.parametrize("value", ["1,5", "9" * 5000, "true", "one"], ids=lambda value: value[:8])
def test_a_level_that_is_no_whole_number(tmp_path, value: str) -> None:
    refused(tmp_path, with_line(LEVEL, value).encode(), LEVEL)


@pytest.mark.parametrize(
    "value", ["{bricks: 1e3}", "{1: 2 to 9, 1.0: 3 to 8}", "{true: 2 to 9}", '{"br\u200bicks": 2 to 9}']
)
def test_givens_that_are_no_names_and_numbers(tmp_path, value: str) -> None:
    refused(tmp_path, with_line(GIVEN, value).encode(), GIVEN)


@pytest.mark.parametrize(
    "value",
    [
        "\"'a'*10**9\"", '"().__class__.__base__.__subclasses__()"', '"(lambda: (y:=1))()"',
        '"bricks.real"', "\"'%999999999d' % bricks\"", '"' + "(" * 300 + "1" + ")" * 300 + '"', '"' + "-" * 5000 + '1"',
        '"bricks # joint"', '"bricks×joint"', '"brickss"', '"010*bricks"', '""',
    ],
    ids=lambda value: ascii(value[:20]),
)  # fmt: skip
def test_a_formula_that_is_none(tmp_path, value: str) -> None:
    refused(tmp_path, with_line(ANSWER, value).encode(), ANSWER)


@pytest.mark.parametrize("value", ["9**9**9", "(0-bricks)**0.5", "bricks/(bricks-bricks)"])
def test_a_formula_without_a_value_fails_its_proof_at_once(tmp_path, value: str) -> None:
    before = time.process_time()
    done = check(tmp_path, with_line(ANSWER, value).encode())
    assert time.process_time() - before < 1
    assert done.exit_code == 1
    assert "bank.yaml:4: pier-length, variant 0 (bricks = 5): " in done.output
    assert value in done.output


def test_a_key_that_stands_twice_is_told_where_it_stands_again(tmp_path) -> None:
    twice = BANK.replace("        unit: mm\n", "        unit: mm\n        answer: bricks\n")
    assert "answer" in refused(tmp_path, twice.encode(), 13)


def test_a_tab_is_named(tmp_path) -> None:
    assert "tab" in refused(tmp_path, BANK.replace("    parts:", "\tparts:").encode(), 8)
