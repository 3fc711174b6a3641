"""A standardisation pack: five scripts over the range, nobody's name, a page an assessor; the spread of their marks."""

from __future__ import annotations

from io import BytesIO

import openpyxl
import pytest

from courseware.quality.marks_by_hand import HandMark, PartToMark, ScriptToMark
from courseware.quality.standardising import (
    anonymous,
    over_the_range,
    pack_sheet,
    spread_rows,
    spread_sheet,
    spread_workbook,
)
from tests.quality.conftest import paper


def scripts_of(totals: list[int]) -> list:
    return [(1, paper(f"P{place:02}", total, of=40)) for place, total in enumerate(totals)]


@pytest.mark.parametrize(
    ("scripts", "places"),
    [
        (2, [0, 1]), (4, [0, 1, 2, 3]), (5, [0, 1, 2, 3, 4]), (6, [0, 1, 3, 4, 5]),
        (14, [0, 3, 7, 10, 13]),  # quarters of 13: 3.25, 6.5, 9.75, halves upwards
        (30, [0, 7, 15, 22, 29]),
    ],
)  # fmt: skip
def test_five_scripts_stand_evenly_over_the_range(scripts: int, places: list[int]) -> None:
    chosen = over_the_range(scripts_of(list(range(scripts))), "seed")
    assert sorted(one.total for _, one in chosen) == places


def test_the_order_of_the_letters_tells_nothing_and_is_the_seeds() -> None:
    scripts = scripts_of(list(range(14)))
    orders = {seed: [one.total for _, one in over_the_range(scripts, seed)] for seed in map(str, range(20))}
    assert orders["3"] == [one.total for _, one in over_the_range(scripts[::-1], "3")]
    assert len({tuple(order) for order in orders.values()}) > 10


def script(code: str, letter: str, written: str = "910") -> ScriptToMark:
    parts = tuple(
        PartToMark(label=label, ask="How wide?", unit="mm", written=written, key="910 mm", of=2)
        for label in ("1a", "1b")
    )
    return ScriptToMark(code=code, attempt=1, shown=letter, parts=parts)


def test_names_and_codes_are_taken_out_of_what_was_written() -> None:
    one = anonymous(script("KTRA-WGHM-B", "", "amara okafor, ktra-wghm-b: 910"), "C", "Amara Okafor")
    assert (one.shown, one.parts[0].written) == ("C", "(script C), (script C): 910")
    assert anonymous(script("KTRA-WGHM-B", "", "910"), "C", "").parts[0].written == "910"


def test_the_pack_has_every_script_and_a_page_for_each_assessor() -> None:
    sheet = pack_sheet([script("P1", "A"), script("P2", "B")], "Setting out", "", "2026-02-10", ["J. Marsh", "P. Dunn"])
    assert [block.heading for block in sheet.blocks] == [
        "",
        "Script A",
        "Script B",
        "Marks of J. Marsh",
        "Marks of P. Dunn",
    ]
    marks = sheet.blocks[3]
    assert (marks.new_page, marks.table.headings) == (True, ("Part", "Of", "A", "B", "Why"))
    assert marks.table.rows == (("1a", "2", "", "", ""), ("1b", "2", "", "", ""), ("Total", "4", "", "", ""))
    assert sheet.blocks[1].table.rows[0] == ("1a", "How wide?", "910", "910 mm", "2")
    told = " ".join(text for block in sheet.blocks for text in block.text)
    assert "P1" not in told


def given(code: str, by: str, *marks: int) -> list[HandMark]:
    return [
        HandMark(code=code, attempt=1, label=label, marks=mark, by=by)
        for label, mark in zip(("1a", "1b"), marks, strict=False)
    ]


def spread(*marks: HandMark):
    scripts = [script("P1", "A"), script("P2", "B")]
    record = {(one.code, 1, label): 1 for one in scripts for label in ("1a", "1b")}
    return spread_rows(scripts, marks, record)


def test_the_spread_is_the_highest_mark_less_the_lowest_and_the_widest_is_told_first() -> None:
    """By hand: A 1a 2, 0, 1: 2; A 1b 1, 1, 1: 0; B 1a 2, 1: 1; B 1b by one alone."""
    marks = [
        *given("P1", "X", 2, 1),
        *given("P1", "Y", 0, 1),
        *given("P1", "Z", 1, 1),
        *given("P2", "X", 2, 2),
        *given("P2", "Y", 1),
    ]
    who, rows = spread(*marks)
    assert who == ("X", "Y", "Z")
    assert [row.spread for row in rows] == [2, 0, 1, None]
    sheet = spread_sheet(who, rows, "Setting out", "", "2026-02-10")
    assert "1 were given the same mark by all, 2 were not." in sheet.blocks[0].text[0]
    assert sheet.blocks[1].table.rows == (
        ("A", "4", "3", "1", "2", "2", "2"),
        ("B", "4", "4", "–", "–", "–", "2"),
    )
    assert sheet.blocks[2].table.rows == (
        ("A", "1a", "2", "0", "1", "2", "1 of 2"),
        ("B", "1a", "2", "1", "–", "1", "1 of 2"),
    )
    lines = list(openpyxl.load_workbook(BytesIO(spread_workbook(who, rows, "2026-02-10")))["Spread"].values)
    assert lines[0] == ("script", "part", "of", "1. X", "2. Y", "3. Z", "spread", "in the record")
    assert lines[4] == ("B", "1b", 2, 2, None, None, None, 1)


@pytest.mark.parametrize(("assessors", "columns"), [(5, 9), (6, 6)])
def test_more_assessors_than_a_page_is_wide_for_are_told_by_lowest_and_highest(assessors: int, columns: int) -> None:
    who, rows = spread(*(mark for place in range(assessors) for mark in given("P1", f"X{place}", place % 3, 1)))
    table = spread_sheet(who, rows, "Setting out", "", "2026-02-10").blocks[2].table
    assert len(table.headings) == len(table.rows[0]) == len(table.widths) == columns


def test_when_all_agree_the_sheet_says_so() -> None:
    who, rows = spread(*given("P1", "X", 2, 1), *given("P1", "Y", 2, 1))
    assert spread_sheet(who, rows, "Setting out", "", "2026-02-10").blocks[2].text == ("No part was marked apart.",)
