"""One file to print from: every sheet in it starts on a right-hand page."""

from __future__ import annotations

from collections.abc import Iterable
from io import BytesIO
from pathlib import Path


def gather(sheets: Iterable[Path]) -> bytes:
    """The PDFs joined, with a blank page after an odd count, and the print dialog asked to keep the size.

    The joined file is for printing alone and carries no tags; the single sheets are the ones to read on a screen.
    """
    from pikepdf import Dictionary, Name, Pdf

    written = BytesIO()  # a library that writes a file itself ends the program on a full disk
    with Pdf.new() as joined:
        for sheet in sheets:
            with Pdf.open(sheet) as one:
                joined.pages.extend(one.pages)
            if len(joined.pages) % 2:
                joined.add_blank_page(page_size=(595.28, 841.89))
        joined.Root.ViewerPreferences = Dictionary(PrintScaling=Name("/None"))
        joined.save(written, deterministic_id=True)
    return written.getvalue()
