"""An SVG in fewer bytes: outlines by their steps, to a tenth of a mm, which no screen shows more of.

Bricks of a size then have the same steps, and what repeats packs well.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

_OUTLINES = re.compile(r' d="([^"]*)"')
_RUN = re.compile(r"M([^MZ]*)(Z?)")
_TENTHS = 10


def lean(svg: str) -> str:
    """The SVG with each path's points, written absolutely by `to_svg`, as steps from the one before.

    >>> lean('<path d="M1 2L3.04 2L3.04 5ZM10 20L10 21" fill="none"/>')
    '<path d="m1 2h2v3zm9 18v1" fill="none"/>'
    """
    return _OUTLINES.sub(lambda found: f' d="{"".join(_steps(found.group(1)))}"', svg)


def _steps(outlines: str) -> Iterator[str]:
    at = (0, 0)
    for run, closed in _RUN.findall(outlines):
        points = [_in_tenths(point) for point in run.split("L")]
        start = points[0]
        yield f"m{_figures(start[0] - at[0], start[1] - at[1])}"
        for before, point in pairwise(points):
            yield _step(point[0] - before[0], point[1] - before[1])
        at = points[-1]
        if closed:
            yield "z"
            at = start


def _in_tenths(point: str) -> tuple[int, int]:
    x, y = point.split()
    return round(float(x) * _TENTHS), round(float(y) * _TENTHS)


def _step(across: int, down: int) -> str:
    if not down:
        return f"h{_figure(across)}"
    return f"v{_figure(down)}" if not across else f"l{_figures(across, down)}"


def _figures(across: int, down: int) -> str:
    second = _figure(down)
    return _figure(across) + (second if second.startswith("-") else f" {second}")


def _figure(tenths: int) -> str:
    """A number of tenths as short as it can be written: `.5`, `-3`, `12.1`."""
    whole, part = divmod(abs(tenths), _TENTHS)
    text = f"{whole or ''}.{part}" if part else str(whole)
    return f"-{text}" if tenths < 0 else text
