"""PDFs bound into one, each piece found by a bookmark."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO


def pages_of(pdf: bytes) -> int:
    """How many pages a PDF has."""
    from pikepdf import Pdf

    with Pdf.open(BytesIO(pdf)) as opened:
        return len(opened.pages)


def bind_pdfs(title: str, pieces: Sequence[tuple[str, bytes]]) -> bytes:
    """The pieces in their order as one PDF with a title and a bookmark to each.

    As with the files to print from, the tags that a screen reader follows stay in the single sheets.
    """
    from pikepdf import Dictionary, Name, OutlineItem, Pdf

    written = BytesIO()
    with Pdf.new() as bound:
        with bound.open_outline() as outline:
            for says, pdf in pieces:
                outline.root.append(OutlineItem(says, len(bound.pages)))
                with Pdf.open(BytesIO(pdf)) as one:
                    bound.pages.extend(one.pages)
        bound.docinfo["/Title"] = title
        bound.Root.Lang = "en-GB"
        bound.Root.ViewerPreferences = Dictionary(DisplayDocTitle=True, PrintScaling=Name("/None"))
        bound.save(written, deterministic_id=True)
    return written.getvalue()
