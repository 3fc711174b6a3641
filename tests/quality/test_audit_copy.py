"""The sheets of an audit copy: every mark with its why, every change with who, when and reason."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import get_args

import pytest
from pypdf import PdfReader

from courseware.marking.marks import How, Mark, MarkedPaper, NamedSlip
from courseware.papers.sitting import Sitting
from courseware.printing.render import job_pdf
from courseware.quality.audit_copy import HOW_SAID, Contents, EventRow, Marking, front_sheet, history_sheet, marks_sheet
from courseware.reports.as_typed import as_typed, by_code
from courseware.settings.settings import DEFAULTS


@pytest.fixture
def sitting(dealt) -> Sitting:
    return dealt("opening_sizes", exercises=2)


def marking(code: str, *marks: Mark, title: str = "First marker: J. Marsh") -> Marking:
    return Marking(title=title, paper=MarkedPaper(code=code, status="", marks=marks))


SLIP = Mark(
    label="1a", marks=1, of=2, how="slip", why="A slip that earns 1.", written="900 mm",
    slips=(NamedSlip(key="x/y/1", says="The extra joint was left out"),), comment="Look at the joint",
)  # fmt: skip


def rows_of(sheet) -> list[tuple[str, ...]]:
    return [row for block in sheet.blocks if block.table for row in block.table.rows]


def test_every_way_a_mark_is_reached_has_its_words() -> None:
    assert set(HOW_SAID) == set(get_args(How))


def test_a_mark_stands_with_what_was_typed_how_it_was_reached_and_why(sitting) -> None:
    issued = sitting.papers[0]
    (row,) = rows_of(marks_sheet(issued, [marking(issued.code, SLIP)], [], named=False))
    assert row == (
        "1a",
        "900 mm",
        "1 of 2",
        "a known slip",
        "A slip that earns 1. Slip: The extra joint was left out. Comment: Look at the joint",
    )


def test_both_markers_and_the_mark_that_stands_are_set_side_by_side(sitting) -> None:
    issued = sitting.papers[0]
    stands = replace(SLIP, marks=2, how="decided", why="Agreed: the joint is in the sketch")
    sheet = marks_sheet(
        issued, [marking(issued.code, stands)], [marking(issued.code, SLIP, title="Second")], named=False
    )
    assert sheet.blocks[-1].heading == "Both markers"
    assert rows_of(sheet)[-1] == (
        "1a", "1 of 2", "2 of 2", "decided by the assessor", "Agreed: the joint is in the sketch",
    )  # fmt: skip


def test_a_script_that_is_not_marked_yet_is_shown_as_typed(sitting) -> None:
    issued = sitting.papers[0]
    waiting = replace(marking(issued.code), cells={"1a": "12 or 13", "1b": ""})
    assert rows_of(marks_sheet(issued, [waiting], [], named=False)) == [("1a", "12 or 13"), ("1b", "–")]


def test_the_history_has_every_change_with_who_when_and_reason(sitting) -> None:
    change = EventRow(
        when="2026-01-06 09:30",
        who="J. Marsh",
        what="mark for 1a",
        before="0 of 2",
        after="1 of 2",
        reason="Seen again",
    )
    made = replace(change, before="", who="")
    assert rows_of(history_sheet(sitting.papers[0], [change, made], named=False)) == [
        ("2026-01-06 09:30", "J. Marsh", "mark for 1a", "0 of 2 → 1 of 2", "Seen again"),
        ("2026-01-06 09:30", "–", "mark for 1a", "1 of 2", "Seen again"),
    ]


def test_the_front_sheet_has_every_file_with_its_hash(sitting) -> None:
    pieces = (Contents(title="The paper", first=2, last=2), Contents(title="Its key", first=3, last=5))
    rows = rows_of(front_sheet(sitting, sitting.papers[0], pieces, "2026-01-06", settings=DEFAULTS, named=False))
    assert ("The paper", "2") in rows
    assert ("Its key", "3 to 5") in rows
    hashes = {name: digest.replace(" ", "") for name, digest in rows if len(digest) > 60}
    assert hashes == {file.file: file.sha256 for file in (*sitting.banks, sitting.safety)}


@pytest.mark.parametrize("named", [False, True])
def test_the_learner_is_named_only_where_asked(sitting, named) -> None:
    issued = sitting.papers[0]
    name = issued.learner.name
    told = replace(SLIP, comment=f"I asked {name.upper()} about it")
    sheets = (
        front_sheet(sitting, issued, (), "2026-01-06", settings=DEFAULTS, named=named),
        marks_sheet(issued, [marking(issued.code, told)], [], named=named),
    )
    for sheet in sheets:
        text = " ".join(cell for row in rows_of(sheet) for cell in row)
        assert (name.casefold() in text.casefold()) is named


# ------------------------------------------------------------------ what people typed


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("910 mm", "910 mm"),
        ("two\nlines", "two lines"),
        ("a\x07b", "a<U+0007>b"),
        ("\u202e019", "<U+202E>019"),
        ("abcdefghijklmnopqrst", "abcdefghijklmnop\u200bqrst"),
        ("abcdefghijklmnop", "abcdefghijklmnop"),  # sixteen characters fit
        ("x " * 500, "x " * 500),  # a thousand characters are printed whole
        ("x " * 500 + "yz", "x " * 500 + "… (2 more characters)"),
        ("x " * 600, "x " * 500 + "… (200 more characters)"),
    ],
)
def test_what_was_typed_is_fit_for_print(typed, shown) -> None:
    assert as_typed(typed) == shown


def test_a_name_gives_way_to_the_code_in_any_case() -> None:
    assert by_code("amara okafor; AMARA OKAFOR", "Amara Okafor", "KTRA") == "KTRA; KTRA"
    assert by_code("no name on this paper", "", "KTRA") == "no name on this paper"


def test_nasty_text_is_printed_whole(sitting) -> None:
    issued = sitting.papers[0]
    nasty = replace(SLIP, written='<b>&amp;"\x00</b>', why="w" * 900)
    text = "".join(
        PdfReader(BytesIO(job_pdf(marks_sheet(issued, [marking(issued.code, nasty)], [], named=False))))
        .pages[0]
        .extract_text()
        .split()
    )
    assert '<b>&amp;"<U+0000></b>' in text.replace("\u200b", "")
