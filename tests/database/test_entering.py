"""Two assessors, copies of one sheet: each changes what they typed, and nobody's blank wipes what the other wrote."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.database.entering import ScriptRow, cells_of, merge
from courseware.marking.marks import Script


def sheet(a: str = "", b: str = "", status: str = "") -> Script:
    return Script(code="KTRA-WGHM-B", cells={"1a": a, "1b": b}, status=status)


def entered(*sheets: tuple[str, Script]) -> list[ScriptRow]:
    """The rows after sheets were entered one after another."""
    rows: list[ScriptRow] = []
    for assessor, script in sheets:
        rows.append(ScriptRow(assessor=assessor, cells=merge(rows, script, assessor).cells))
    return rows


def stands(*sheets: tuple[str, Script]) -> tuple[str, str, str]:
    cells = entered(*sheets)[-1].cells
    return cells["1a"][0], cells["1b"][0], cells[""][0]


@pytest.mark.parametrize(
    ("sheets", "after", "why"),
    [
        ([("Ann", sheet("910"))], ("910", "", ""), "typed for the first time"),
        ([("Ann", sheet("910")), ("Ann", sheet("901"))], ("901", "", ""), "an assessor puts their own right"),
        ([("Ann", sheet("910")), ("Ann", sheet())], ("", "", ""), "an assessor takes their own out"),
        ([("Ann", sheet("910")), ("Ben", sheet(b="12"))], ("910", "12", ""), "each had a part of the paper"),
        ([("Ann", sheet("910")), ("Ben", sheet("901"))], ("901", "", ""), "the second corrects the first"),
        ([("Ann", sheet("910")), ("Ben", sheet("901")), ("Ann", sheet("910"))], ("901", "", ""),
         "the first enters the old copy once more"),
        ([("Ann", sheet("910")), ("Ben", sheet("901")), ("Ann", sheet("911"))], ("911", "", ""),
         "the first types something new"),
        ([("Ann", sheet(status="absent")), ("Ben", sheet())], ("", "", "absent"), "a blank status says nothing"),
        ([("Ann", sheet(status="absent")), ("Ann", sheet("9"))], ("9", "", ""), "was there after all"),
    ],
)  # fmt: skip
def test_a_sheet_changes_only_what_its_assessor_changed(sheets, after, why) -> None:
    assert stands(*sheets) == after, why


def test_what_is_left_to_another_assessor_is_told() -> None:
    rows = entered(("Ann", sheet("910")), ("Ben", sheet("901")))
    merged = merge(rows, sheet("910"), "Ann")
    assert not merged.changed
    [left] = merged.left
    assert (left.label, left.before, left.after, left.by) == ("1a", "910", "901", "Ben")


def test_a_change_names_what_stood_there_and_who_typed_it() -> None:
    rows = entered(("Ann", sheet("910", "7")), ("Ben", sheet("901", "7")))
    [change] = merge(rows, sheet("1", "7"), "Cem").changed
    assert (change.label, change.before, change.after, change.by) == ("1a", "901", "1", "Ben")


def test_a_part_that_a_sheet_does_not_have_stays() -> None:
    rows = entered(("Ann", sheet("910", "7")))
    part = Script(code="KTRA-WGHM-B", cells={"1b": "8"})
    assert merge(rows, part, "Ann").cells["1a"] == ("910", "")


def test_a_cell_that_cannot_be_read_is_another_cell() -> None:
    rows = entered(("Ann", sheet("910")))
    unread = Script(code="KTRA-WGHM-B", cells={"1a": "910", "1b": ""}, unread={"1b": "holds a formula"})
    merged = merge(rows, unread, "Ann")
    assert [change.label for change in merged.changed] == ["1b"]
    assert merged.cells["1b"] == ("", "holds a formula")


typed = st.sampled_from(["", "1", "2"])
sheets = st.builds(sheet, typed, typed, st.sampled_from(["", "absent", "late"]))


@given(st.lists(sheets, min_size=1, max_size=6))
def test_one_assessor_alone_always_has_what_the_last_sheet_says(many: list[Script]) -> None:
    assert entered(*(("Ann", script) for script in many))[-1].cells == cells_of(many[-1])


@given(st.lists(st.tuples(st.sampled_from(["Ann", "Ben"]), sheets), max_size=6), sheets)
def test_entering_a_sheet_twice_changes_nothing(many: list[tuple[str, Script]], script: Script) -> None:
    rows = entered(*many, ("Ann", script))
    assert not merge(rows, script, "Ann").changed


@given(sheets, sheets)
def test_a_sheet_left_as_issued_changes_nothing(first: Script, second: Script) -> None:
    rows = entered(("Ann", first), ("Ann", second))
    assert merge(rows, sheet(), "Ben").cells == rows[-1].cells
