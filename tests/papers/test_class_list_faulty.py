"""Class lists that cannot be used: every fault by its line, nothing guessed."""

from __future__ import annotations

import contextlib
import io
import random

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.papers.class_list import MOST_LEARNERS, TableFaulty, read_class_list
from courseware.text_files.faults import unseen

WANTED = "expected a heading `name` (or `learner`, `student`, `full name`), or `first name` and `surname`"
EACH = "expected one cell under each heading"


def faults(data: bytes, file: str = "a.csv") -> list[str]:
    with pytest.raises(TableFaulty) as faulty:
        read_class_list(data, file)
    return [str(fault) for fault in faulty.value.faults]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", [f"1:1: the list is empty; {WANTED}"]),
        ("\n \n\n", [f"1:1: the list is empty; {WANTED}"]),
        ("Amara Okafor,1\n", [f"1:1: no heading tells which column holds the names, only `Amara Okafor`, `1`; {WANTED}"]),
        ("Surname,Ref\nOkafor,1\n", [f"1:1: no heading tells which column holds the names, only `Surname`, `Ref`; {WANTED}"]),
        ("\x1b[31mname\x1b[0m\nA\n", [f"1:1: no heading tells which column holds the names, only `<U+001B>[31mname<U+001B>[0m`; {WANTED}"]),
        ("Name,Ref,NAME\nA,1,B\n", ["1:3: the heading `NAME` stands twice; expected each heading once"]),
        ("Name,Ref\n", ["1:1: no learner stands below the headings; one learner a row"]),
        ("Name,Ref\nA\nB,2\nC,3,late\n,4\n", [
            f"2:1: 1 cell under 2 headings; {EACH}",
            f"4:3: 3 cells under 2 headings; {EACH}: put quotation marks round a text that holds the separator",
            "5:1: no name stands in this row; expected a learner's name",
        ]),
        ("Name,Ref\n\u200b\u2060,1\n", ["2:1: no name stands in this row; expected a learner's name"]),
        ("Ref,Name\n1," + "a" * 81 + "\n", [f"2:2: the name `{'a' * 60}…` has 81 characters; expected at most 80"]),
        ("Ref,Name\n" + "1" * 41 + ",a\n", ["2:1: the reference `" + "1" * 41 + "` has 41 characters; expected at most 40"]),
        ('Name,Ref\nA,1\n"B,2\nC,3\n', ["3:1: a quotation mark opened in this row is never closed; expected marks in pairs"]),
        ('Name,Ref\n"A"x,1\n', ["2:1: text stands after a closing quotation mark; expected a separator there, or the mark doubled"]),
        ("Name,Ref\nA,1\nB\0,2\n", ["3:2: a NUL character, which no text holds; export the list again and save it as `CSV UTF-8`"]),
        ("Name,Ref\n" + "a" * 200_000 + ",2\n", ["2:1: a cell of this row is far too long; check the quotation marks"]),
    ],
    ids=lambda value: str(value)[:20].encode("unicode_escape").decode(),
)  # fmt: skip
def test_a_faulty_row_is_told_by_its_line(text: str, told: list[str]) -> None:
    assert faults(text.encode()) == [f"a.csv:{fault}" for fault in told]


def test_cells_of_a_workbook_that_cannot_be_read_are_told_by_their_place() -> None:
    made = openpyxl.Workbook()
    for row in (("Name", "ID"), ("Amara Okafor", 1), ("=A1", "=B1"), (None, 2), ("a" * 81, 3)):
        made.active.append(row)
    made.save(data := io.BytesIO())
    unread = "the cell holds a formula without a stored result; type the text itself into the cell"
    assert faults(data.getvalue(), "a.xlsx") == [
        f"a.xlsx:3:1: {unread}",
        f"a.xlsx:3:2: {unread}",
        "a.xlsx:4:1: no name stands in this row; expected a learner's name",
        f"a.xlsx:5:1: the name `{'a' * 60}…` has 81 characters; expected at most 80",
    ]


def test_a_list_that_goes_on_is_stopped() -> None:
    rows = [f"Learner {n}" for n in range(MOST_LEARNERS + 1)]
    [told] = faults("\n".join(["Name", *rows]).encode())
    assert told == "a.csv:1002:1: the list goes on after 1000 learners; at most 1000 rows: split the list"


def test_very_many_faults_are_counted() -> None:
    told = faults(("Name,Ref\n" + "A\n" * 60).encode())
    assert len(told) == 51
    assert told[-1] == "a.csv:51:1: 10 more faults after this line; mend these first"


CELLS = ["Name", "Ref", "A", "1", " ", "", '"', ",", ";", "\t", "\n", "\r\n", "sep=;", "\u200b", "ë", "\x1b", "=1"]


@settings(max_examples=5 * settings.default.max_examples)
@given(
    st.lists(st.sampled_from(CELLS), max_size=40).map("".join) | st.text(max_size=80),
    st.sampled_from(["utf-8", "utf-16", "cp1252"]),
)
def test_any_text_gives_learners_or_faults_and_nothing_unseen(text: str, encoding: str) -> None:
    data = text.encode(encoding, "replace")
    try:
        learners = read_class_list(data, "a.csv").learners
    except TableFaulty as faulty:
        told = [str(fault) for fault in faulty.faults]
    else:
        told = [told for learner in learners for told in (learner.name, learner.reference)]
        assert all(learner.name for learner in learners)
    assert not any(unseen(character) for line in told for character in line)


def test_any_bytes_give_learners_or_faults() -> None:
    chance = random.Random(7)
    for length in range(300):
        data = b"Name,Ref\n" * (length % 2) + chance.randbytes(length)
        for file in ("a.csv", "a.xlsx"):
            with contextlib.suppress(TableFaulty):
                read_class_list(data, file)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("Name\na" + "\u0316\u0301" * 60_000 + "\n", "the cell has 120001 characters; at most 500 are read"),
        ("Name," + ",".join(f"h{n}" for n in range(250_000)) + "\n", "the list has 250001 columns"),
    ],
)
def test_what_would_take_for_ever_is_refused_at_once(text, says) -> None:
    with pytest.raises(TableFaulty) as told:
        read_class_list(text.encode(), "list.csv")
    assert says in str(told.value)
