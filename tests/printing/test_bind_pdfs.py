"""Pieces bound into one file: in order, each found by its bookmark, the same bytes each time."""

from __future__ import annotations

from io import BytesIO

import pytest
from pikepdf import Pdf
from pypdf import PdfReader

from courseware.printing.bind_pdfs import bind_pdfs, pages_of
from courseware.printing.render import job_pdf
from courseware.quality.audit_copy import front_sheet
from courseware.settings.settings import DEFAULTS


def piece(*widths: int) -> bytes:
    """A PDF with a page of each width, to be known by."""
    written = BytesIO()
    with Pdf.new() as made:
        for wide in widths:
            made.add_blank_page(page_size=(wide, 300))
        made.save(written)
    return written.getvalue()


@pytest.mark.parametrize("pages", [1, 2, 11])
def test_pages_are_counted(pages: int) -> None:
    assert pages_of(piece(*[200] * pages)) == pages


def test_each_piece_is_found_where_its_first_page_is() -> None:
    bound = PdfReader(
        BytesIO(bind_pdfs("All", [("First", piece(201, 202)), ("Second", piece(203)), ("Third", piece(204))]))
    )
    assert [round(page.mediabox.width) for page in bound.pages] == [201, 202, 203, 204]
    found = [(item.title, bound.get_destination_page_number(item)) for item in bound.outline]
    assert found == [("First", 0), ("Second", 2), ("Third", 3)]


def test_it_has_a_title_a_language_and_is_printed_at_its_own_size() -> None:
    with Pdf.open(BytesIO(bind_pdfs("Audit copy of a paper", [("First", piece(200))]))) as bound:
        assert str(bound.docinfo["/Title"]) == "Audit copy of a paper"
        assert str(bound.Root.Lang) == "en-GB"
        assert bound.Root.ViewerPreferences.DisplayDocTitle
        assert str(bound.Root.ViewerPreferences.PrintScaling) == "/None"


def test_pieces_are_bound_in_order_with_bookmarks(dealt) -> None:
    sitting = dealt("opening_sizes", exercises=2)
    one = job_pdf(front_sheet(sitting, sitting.papers[0], (), "2026-01-06", settings=DEFAULTS, named=False))
    bound = bind_pdfs("Audit copy", [("First", one), ("Second", one)])
    assert pages_of(bound) == 2 * pages_of(one)
    pdf = PdfReader(BytesIO(bound))
    assert [(item.title, pdf.get_destination_page_number(item)) for item in pdf.outline] == [
        ("First", 0),
        ("Second", 1),
    ]
    assert bind_pdfs("Audit copy", [("First", one), ("Second", one)]) == bound
