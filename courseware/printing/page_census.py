"""How many sides a PDF takes and how much of them is white, read back from its raster.

White is counted in rows of 1 mm across the area between the margins: a row is white that holds no ink. A box to work in
has its sides drawn, so the room in it is no white.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, floor
from pathlib import Path
from typing import Any, NamedTuple

from courseware.printing.page_format import PageFormat

INK = 230  # tones from 0, black, to 255: darker than this is ink; every ground of a sheet is lighter
_DOTS_PER_MM = 2  # 51 dots to the inch: a hairline still darkens a dot
_POINTS_PER_MM = 72 / 25.4
_A_HAIR = 1e-4  # share of a length: a page as written in points may be this much more or less than its whole mm
_STYLE = Path(__file__).parent / "styles" / "sheet.css"
_MARGIN = r"@page {} \{{[^@}}]*?margin: ((?:\d+mm ?){{3,4}})"
_END_OF_FILE, _LAST_BYTES = b"%%EOF", 1024


class PdfDamaged(ValueError):
    """What is no PDF, one that is not whole, or one with a page that has no room between the margins."""


class Margins(NamedTuple):
    """Of a page, in mm."""

    top: float
    right: float
    bottom: float
    left: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PageCensus:
    """The pages of one PDF, all counted together.

    `rows` are its rows of 1 mm between the margins, `white` those without ink.
    """

    sides: int
    rows: int
    white: int

    @property
    def sheets(self) -> int:
        """Of paper, printed on both sides."""
        return ceil(self.sides / 2)


def page_census(pdf: bytes, margins: Margins) -> PageCensus:
    """Counts the pages of a PDF whose pages all have these margins. Raises `PdfDamaged`."""
    import pypdfium2

    if _END_OF_FILE not in pdf[-_LAST_BYTES:]:  # ISO 32000-1, 7.5.5: the last line of the file
        raise PdfDamaged
    try:
        with pypdfium2.PdfDocument(pdf) as document:
            found = [_inked(page, margins) for page in document]
    except pypdfium2.PdfiumError:
        raise PdfDamaged from None
    if not found or not all(found):
        raise PdfDamaged
    return PageCensus(sides=len(found), rows=sum(map(len, found)), white=sum(not ink for rows in found for ink in rows))


def sides_of(file: Path) -> int:
    """How many pages a PDF has, without looking at them. Raises `PdfDamaged`."""
    import pypdfium2

    try:
        with pypdfium2.PdfDocument(file) as document:
            return len(document)
    except pypdfium2.PdfiumError:
        raise PdfDamaged from None


@lru_cache
def margins_of(page: str) -> Margins:
    """The margins that the style sheet gives the pages of this name: `key`, `grid`, `job`, `feedback`."""
    found = re.search(_MARGIN.format(page), _STYLE.read_text(encoding="utf-8"))
    if found is None:
        raise LookupError(page)
    top, right, bottom, *left = (float(length.removesuffix("mm")) for length in found.group(1).split())
    return Margins(top, right, bottom, *left or (right,))


def margins_of_paper(page: PageFormat) -> Margins:
    """The margins of a learner's paper."""
    return Margins(page.top, page.right, page.bottom, page.left)


def _inked(page: Any, margins: Margins) -> list[bool]:
    """Whether each whole row of 1 mm between the margins, from the top, holds ink. `page` is a pypdfium2 page."""
    width, height = (side / _POINTS_PER_MM for side in page.get_size())
    scale = _DOTS_PER_MM / _POINTS_PER_MM * (1 - _A_HAIR)  # what is over a whole dot would stretch the page by one
    bitmap = page.render(scale=scale, grayscale=True)
    dots, stride = bytes(bitmap.buffer), bitmap.stride
    left, right = round(margins.left * _DOTS_PER_MM), round((width - margins.right) * _DOTS_PER_MM)
    first, rows = round(margins.top * _DOTS_PER_MM), floor(height * (1 + _A_HAIR) - margins.top - margins.bottom)
    lines = [
        min(dots[line * stride + left : line * stride + right], default=0) < INK
        for line in range(first, first + rows * _DOTS_PER_MM)
    ]
    return [any(lines[row : row + _DOTS_PER_MM]) for row in range(0, len(lines), _DOTS_PER_MM)]
