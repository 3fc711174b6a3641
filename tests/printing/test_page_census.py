"""Pages of known ink, counted: none, half, all, in the margins alone; what is ink and what is a tint; what is no PDF."""

from __future__ import annotations

from io import BytesIO

import numpy as np
import pypdfium2
import pytest
from pikepdf import Pdf

from courseware.papers.sheet_format import SheetFormat
from courseware.printing.page_census import (
    INK,
    Margins,
    PdfDamaged,
    margins_of,
    margins_of_paper,
    page_census,
    sides_of,
)
from courseware.printing.page_format import A4, page_for

POINT = 72 / 25.4  # to a mm
SHEET = (210, 297)  # mm: A4 in ISO 216
ROUND = Margins(10, 10, 10, 10)


def pdf(*pages: str, size: tuple[float, float] = SHEET) -> bytes:
    """Pages with what is drawn on each, as PDF operators in mm from the foot of the sheet."""
    written = BytesIO()
    with Pdf.new() as made:
        for drawn in pages:
            page = made.add_blank_page(page_size=(size[0] * POINT, size[1] * POINT))
            page.Contents = made.make_stream(f"{POINT} 0 0 {POINT} 0 0 cm {drawn}".encode())
        made.save(written)
    return written.getvalue()


def box(left: float, top: float, wide: float, high: float, tone: float = 0) -> str:
    """A filled box, `top` measured from the head of an A4 sheet; `tone` from 0, black, to 255."""
    return f"{tone / 255} g {left} {SHEET[1] - top - high} {wide} {high} re f "


ALL = box(0, 0, *SHEET)


@pytest.mark.parametrize(
    ("drawn", "white"),
    [
        ("", 277),
        (ALL, 0),
        (box(10, 10, 190, 138), 139),
        (box(10, 149, 190, 138), 139),
        (box(100, 100.1, 1, 9.8), 267),
        (box(0, 0, 210, 9.5) + box(0, 287.5, 210, 9.5) + box(0, 0, 9.5, 297) + box(200.5, 0, 9.5, 297), 277),
        (box(12, 50.4, 0.3, 0.15, 119), 276),  # the finest line of the style sheets: 0.15 mm of #777
        (box(10, 10.1, 1, 0.8), 276),
        (box(199, 286.1, 1, 0.8), 276),
    ],
    ids=["none", "all", "upper half", "lower half", "ten rows", "margins alone", "hairline", "first row", "last row"],
)
def test_white_is_the_rows_of_a_millimetre_that_hold_no_ink(drawn: str, white: int) -> None:
    found = page_census(pdf(drawn), ROUND)
    assert (found.sides, found.rows, found.white) == (1, 277, white)


@pytest.mark.parametrize(("tone", "white"), [(INK - 1, 0), (INK, 277), (INK + 1, 277)])
def test_ink_is_what_is_darker_than_the_lightest_tint(tone: int, white: int) -> None:
    assert page_census(pdf(box(0, 0, *SHEET, tone)), ROUND).white == white


@pytest.mark.parametrize("ground", ["cream", "blue", "green", "pink", "yellow"])
def test_the_ground_of_a_learners_sheet_is_no_ink_and_words_on_it_are(ground: str) -> None:
    colour = page_for(SheetFormat(ground=ground)).ground
    red, green, blue = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    tinted = f"{red} {green} {blue} rg 0 0 {SHEET[0]} {SHEET[1]} re f "
    assert page_census(pdf(tinted), ROUND).white == 277
    assert page_census(pdf(tinted + box(20, 50.1, 30, 2.8)), ROUND).white == 274


def test_part_of_a_row_at_the_foot_is_not_counted() -> None:
    assert page_census(pdf(""), Margins(10, 10, 10.4, 10)).rows == 276


def test_a_sheet_that_lies_goes_by_its_own_size() -> None:
    assert page_census(pdf("", size=(297, 210)), ROUND).rows == 190


@pytest.mark.parametrize(("sides", "sheets"), [(1, 1), (2, 1), (3, 2), (4, 2)])
def test_pages_are_counted_together_two_on_a_sheet_of_paper(sides: int, sheets: int) -> None:
    found = page_census(pdf(ALL, *[""] * (sides - 1)), ROUND)
    assert (found.sides, found.sheets, found.rows, found.white) == (sides, sheets, 277 * sides, 277 * (sides - 1))


WHOLE = pdf("", ALL)


@pytest.mark.parametrize(
    "damaged",
    [b"", b"a list of bricks\n", WHOLE[: len(WHOLE) // 2], WHOLE[:-40], b"%PDF-1.7\n%%EOF\n", pdf(), pdf("", size=(20, 20))],
    ids=["empty", "no PDF", "half of one", "its end cut off", "nothing in it", "no pages", "no room between the margins"],
)  # fmt: skip
def test_what_is_damaged_is_refused(damaged: bytes) -> None:
    with pytest.raises(PdfDamaged):
        page_census(damaged, ROUND)


def tones(sheet: bytes, dots: int) -> list[np.ndarray]:
    """Each page as tones, so many dots to the mm."""
    return [np.asarray(page.render(scale=dots / POINT).to_pil().convert("L")) for page in pypdfium2.PdfDocument(sheet)]


@pytest.mark.parametrize(("kind", "page"), [("key_pdf", "key"), ("grid_pdf", "grid")])
def test_what_is_printed_begins_at_the_margins_of_its_style_sheet(printed, kind: str, page: str) -> None:
    """Read back from the raster: the first ink within 1 mm of the left and the right margin, none outside."""
    sheet, margins = getattr(printed("opening_sizes"), kind), margins_of(page)
    inked = []
    for one in tones(sheet, 8):
        rows = one[int(margins.top * 8) : one.shape[0] - int(margins.bottom * 8)]
        inked.append(np.flatnonzero((rows < 200).any(axis=0)) / 8)
        across = one.shape[1] / 8
    assert min(found.min() for found in inked) == pytest.approx(margins.left, abs=1)
    assert max(found.max() for found in inked) == pytest.approx(across - margins.right, abs=1)


def test_three_margins_give_the_left_that_of_the_right() -> None:
    """CSS 2, 8.3: of three values the second is right and left; of four they go clockwise from the top."""
    key, job = margins_of("key"), margins_of("job")
    assert key.left == key.right
    assert job.left != job.right


def test_a_kind_of_page_that_no_style_sheet_has_is_an_error() -> None:
    with pytest.raises(LookupError, match="poster"):
        margins_of("poster")


def test_white_of_a_printed_paper_is_that_of_a_raster_twice_as_fine(printed) -> None:
    sheet, margins = printed("opening_sizes").paper_pdf, margins_of_paper(A4)
    rows = []
    for one in tones(sheet, 4):
        text = one[int(A4.top * 4) :, int(A4.left * 4) : int((SHEET[0] - A4.right) * 4)]
        many = int(SHEET[1] - A4.top - A4.bottom)
        rows += [not (text[row * 4 : row * 4 + 4] < INK).any() for row in range(many)]
    found = page_census(sheet, margins)
    assert found.rows == len(rows)
    assert found.white / found.rows == pytest.approx(sum(rows) / len(rows), abs=0.03)
    assert 0.05 < found.white / found.rows < 0.5


def test_sides_are_counted_without_looking_at_them(tmp_path) -> None:
    (tmp_path / "two.pdf").write_bytes(pdf("", ""))
    assert sides_of(tmp_path / "two.pdf") == 2
    (tmp_path / "none.pdf").write_bytes(b"no PDF")
    with pytest.raises(PdfDamaged):
        sides_of(tmp_path / "none.pdf")
