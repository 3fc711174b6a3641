"""One file to print from: every sheet in it starts on a right-hand page."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path


def gather(sheets: Iterable[Path], target: Path) -> None:
    """Joins the PDFs, with a blank page after an odd count, and asks the print dialog to keep the size.

    The joined file is for printing alone and carries no tags; the single sheets are the ones to read on a screen.
    """
    from pikepdf import Dictionary, Name, Pdf

    with Pdf.new() as joined:
        for sheet in sheets:
            with Pdf.open(sheet) as one:
                joined.pages.extend(one.pages)
            if len(joined.pages) % 2:
                joined.add_blank_page(page_size=(595.28, 841.89))
        joined.Root.ViewerPreferences = Dictionary(PrintScaling=Name("/None"))
        joined.save(target, deterministic_id=True)
