"""Finished text of any part: the line of the brick, figures and units, the lines of a working with their marks."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from fractions import Fraction

import pytest

from courseware.files.bank_files import shipped_banks
from courseware.papers.compose import compose_key, compose_paper
from courseware.papers.compose_parts import brick_line, key_lines, shown_figure, with_unit
from courseware.trade import FORMATS
from courseware.words import of_one


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("UK_METRIC", "UK metric bricks 215 × 102.5 × 65 mm, 10 mm joints"),  # sheet-9
        ("US_MODULAR", "US modular bricks 7⅝ × 3⅝ × 2¼ in, ⅜ in perpends, 5/12 in beds"),  # Technical Notes 10B
        ("AUSTRALIAN", "Australian bricks 230 × 110 × 76 mm, 10 mm joints"),  # Bricks & Pavers Technical Manual 1.1
    ],
)
def test_a_paper_says_which_brick_is_meant(name, line) -> None:
    assert brick_line(FORMATS[name]) == line


def test_the_line_of_the_brick_can_leave_its_joints_out_or_be_no_line() -> None:
    assert brick_line(FORMATS["UK_73"], "sizes") == "UK 73 mm bricks 215 × 102.5 × 73 mm"  # sheet-9, Table 3
    assert brick_line(FORMATS["UK_73"], "none") == ""


@pytest.mark.parametrize(
    ("keys", "value", "shown"),
    [
        ({}, 910, "910"),
        ({}, Fraction(37, 3), "12⅓"),
        ({"round": 3}, Fraction(3, 2), "1.500"),
        ({"round": 0}, Fraction(3, 2), "1.5"),  # rounded before it is shown
        ({"unit": "in"}, Fraction(61, 8), "7⅝"),
        ({"unit": "in"}, 8, "8"),
    ],
)
def test_a_figure_is_written_as_its_part_asks(exercise, number, keys, value, shown) -> None:
    [part] = exercise(parts=[number(**keys)]).parts
    assert shown_figure(part, value) == shown


def test_a_unit_stands_behind_where_there_is_one() -> None:
    assert [with_unit("910", "mm"), with_unit("12", "")] == ["910 mm", "12"]


def lines(exercise, number, marks: int, *working: dict) -> list[tuple[str, str, str]]:
    """Each line of a part's working, for a pier of 4 bricks: words, figure, marks."""
    [part] = exercise(parts=[number(unit="mm", marks=marks, working=list(working))]).parts
    scope = {"bricks": 4, "length": 890}
    values = tuple(line.value.value(scope) if line.value else None for line in part.working)
    return [(line.say, line.figure, line.earns) for line in key_lines(part.working, values, "mm", marks, scope, {})]


LAST = {"say": "One joint fewer", "value": "bricks * module - joint"}


def test_each_line_has_its_figure_and_the_mark_it_earns(exercise, number) -> None:
    first = {"say": "{{ bricks }} bricks and joints", "value": "bricks * module", "earns": "method"}
    assert lines(exercise, number, 2, first, {**LAST, "earns": "accuracy"}) == [
        ("4 bricks and joints", "900 mm", "M1"),
        ("One joint fewer", "890 mm", "A1"),
    ]


def test_where_no_line_says_what_it_earns_the_last_earns_all(exercise, number) -> None:
    assert [earns for *_, earns in lines(exercise, number, 3, {"say": "See the sketch"}, LAST)] == ["", "A3"]


@pytest.mark.parametrize(
    ("line", "figure"),
    [
        ({"say": "Words alone"}, ""),
        ({"say": "In bricks", "value": "bricks", "unit": "bricks"}, "4 bricks"),
        ({"say": "No unit", "value": "bricks", "unit": ""}, "4"),
        ({"say": "In inches", "value": "bricks / 8", "unit": "in"}, "½ in"),
        ({"say": "Is it more?", "value": "bricks > 3"}, "yes"),
        ({"say": "Is it less?", "value": "bricks < 3"}, "no"),
        ({"say": "A word with a figure", "value": "'3 courses'"}, "3 courses"),
        ({"say": "A word of the bank's own", "value": "'top'"}, ""),  # says nothing beside the choice's own words
    ],
)
def test_a_line_shows_what_it_comes_to(exercise, number, line, figure) -> None:
    assert lines(exercise, number, 1, line, LAST)[0][1] == figure


@pytest.mark.parametrize(
    ("figure", "unit", "said"),
    [
        ("0", "bricks", "0 bricks"), ("1", "bricks", "1 brick"), ("2", "bricks", "2 bricks"), ("−1", "courses", "−1 course"),
        ("1.0", "bricks", "1.0 bricks"), ("11", "halves", "11 halves"), ("1", "mm", "1 mm"), ("1", "", "1"),
    ],
)  # fmt: skip
def test_one_of_a_unit_is_not_many(figure: str, unit: str, said: str) -> None:
    assert with_unit(figure, unit) == said


_ONE = re.compile(r"(\w*)[^\w.,/×−]*\b(?<![.,/:×−])1 ([a-z]+)")
_PLACES = {
    "course",
    "courses",
    "lift",
    "row",
    "step",
    "part",
    "level",
    "mark",
    "bay",
    "stage",
    "day",
    "lot",
}  # `course 1 stands`


def said(sheet: object) -> Iterator[str]:
    """Every text of a sheet."""
    if isinstance(sheet, str):
        yield sheet
    elif isinstance(sheet, tuple | list):
        for one in sheet:
            yield from said(one)
    elif is_dataclass(sheet):
        for field in fields(sheet):
            yield from said(getattr(sheet, field.name))


def one_of_many(text: str) -> list[str]:
    """Each `1 bricks` of a text."""
    return [
        f"1 {word}" for before, word in _ONE.findall(text) if before.lower() not in _PLACES and of_one(word) != word
    ]


def test_one_of_many_is_seen() -> None:
    found = ["± 1 bricks", "it takes 1 courses", "21 bricks", "1 brick", "course 1 stands", "1.1 bricks", "3 × 1 mm"]
    assert [one_of_many(text) for text in found] == [["1 bricks"], ["1 courses"], [], [], [], [], []]


@pytest.mark.parametrize("topic", [path.stem for path in shipped_banks()])
def test_no_sheet_of_a_shipped_bank_says_one_of_many(composed, topic: str) -> None:
    sitting, sources = composed(topic)
    for place in range(len(sitting.papers)):
        for sheet in (compose_paper(sitting, place, sources), compose_key(sitting, place, sources)):
            assert [found for text in said(sheet) for found in one_of_many(text)] == []
