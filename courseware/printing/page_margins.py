"""The margins of a paper's pages: corner marks and a QR code to sort copies by, gauge scales, the 100 mm line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from courseware.drawings.dimension import box
from courseware.drawings.picture import Picture, Stroke, moved
from courseware.printing.page_elements import QR_BORDER, gauge_scale, print_line, qr
from courseware.printing.page_format import PageFormat
from courseware.trade import Format

_CORNER, _FROM_EDGE = 4.0, 5.0  # mm: a corner mark's side, and how far it stands from the sheet's edges
_QR_LEFT = 4.6  # mm: within what printers reach, and four modules short of the text
_COLUMN = 2.0, 12.0  # mm: where the gauge scales stand
_LINE_UP = 13.5  # mm from the sheet's foot


def page_margins(code: str, number: int, bricks: Iterable[Format], page: PageFormat) -> Picture:
    """All that is drawn in the margins of page `number` of the paper with this code, as large as the sheet.

    The QR code holds code and page, `CODE/3`, and nothing else. `bricks` are those in the page's questions: each has
    its gauge scale, as far as a course of it has room.
    """
    across, down = page.sheet
    code_drawn = qr(f"{code}/{number}")
    foot = down - _FROM_EDGE - _CORNER - QR_BORDER
    parts = [(code_drawn, (_QR_LEFT, foot - code_drawn.height)), (print_line(), (page.left - 2, down - _LINE_UP))]
    parts += _scales(tuple(dict.fromkeys(bricks)), foot - code_drawn.height - QR_BORDER)
    marks = [moved(mark, *at) for picture, at in parts for mark in picture.marks]
    return Picture(width=across, height=down, marks=(_corners(page.sheet), *marks), alt="")


def _scales(bricks: Sequence[Format], foot: float) -> list[tuple[Picture, tuple[float, float]]]:
    """The scales one over the other, in as many parts of the column as there are bricks."""
    left, top = _COLUMN
    each = (foot - top) / max(1, len(bricks))
    scales = [gauge_scale(brick, int(each)) for brick in bricks]
    return [(scale, (left, top + each * place)) for place, scale in enumerate(scales)]


@lru_cache(maxsize=4)
def _corners(sheet: tuple[float, float]) -> Stroke:
    """A dark square at each corner of the sheet."""
    xs, ys = ((_FROM_EDGE, side - _FROM_EDGE - _CORNER) for side in sheet)
    return Stroke(
        outlines=tuple(box(x, y, x + _CORNER, y + _CORNER) for x in xs for y in ys), closed=True, weight=0, fill=0.0
    )
