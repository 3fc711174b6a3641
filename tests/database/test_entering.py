"""Two assessors, copies of one sheet: each changes what they typed, and nobody's blank wipes what the other wrote."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.database.entering import ON_SCREEN, ScriptRow, cells_of, merge
from courseware.marking.marks import Script

SHEET = "marking-sheet.xlsx"


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


@pytest.mark.parametrize(
    ("typed", "by", "then", "stands", "why"),
    [
        ("912", "Ann", sheet("910"), "912", "the sheet as it was says nothing of what was typed on the screen since"),
        ("912", "Ben", sheet("910"), "912", "whoever typed that"),
        ("912", "Ann", sheet("915"), "915", "what was changed in the sheet since it was entered is new"),
        ("912", "Ann", sheet(), "", "so is what was taken out of it"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("assessor", ["Ann", "Ben"])
def test_the_sheet_and_the_screen_do_not_undo_each_other(typed, by, then, stands, why, assessor) -> None:
    """The sheet said 910 when it was entered by Ann; it comes again, entered by her or by Ben."""
    rows = [
        ScriptRow(assessor="Ann", cells=cells_of(sheet("910")), source=SHEET),
        ScriptRow(assessor=by, cells=cells_of(sheet(typed)), source=ON_SCREEN),
    ]
    merged = merge(rows, then, assessor, SHEET)
    if assessor == "Ann" or then.cells["1a"]:
        assert merged.cells["1a"][0] == stands, why
    else:
        assert merged.cells["1a"][0] == typed, "the blank of somebody who never typed there says nothing"
    if stands == "912":
        assert [(left.before, left.after, left.by) for left in merged.left] == [("910", "912", by)]


def test_a_blank_in_a_sheet_that_never_had_anything_there_takes_nothing_out_and_is_told() -> None:
    rows = [ScriptRow(assessor="Ann", cells=cells_of(sheet("910", "7")), source="typed-at-home.csv")]
    merged = merge(rows, sheet("", "7"), "Ann", SHEET)
    assert merged.cells["1a"][0] == "910"
    assert [(left.label, left.before, left.after) for left in merged.left] == [("1a", "", "910")]
    assert not merge(rows, sheet("", "7"), "Ben", SHEET).left, "his sheet says nothing of it"


def test_a_blank_sheet_leaves_alone_what_its_own_assessor_typed_on_the_screen() -> None:
    rows = [ScriptRow(assessor="Ann", cells=cells_of(sheet("910")), source=ON_SCREEN)]
    merged = merge(rows, sheet(), "Ann", SHEET)
    assert (merged.cells["1a"][0], merged.changed, merged.left) == ("910", (), ())
