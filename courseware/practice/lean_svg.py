"""An SVG in fewer bytes: outlines by their steps, to a tenth of a mm, which no screen shows more of.

Bricks of a size then have the same steps, and what repeats packs well.
"""

from __future__ import annotations

from collections.abc import Iterator

from courseware.drawings.picture import Picture, Stroke
from courseware.drawings.svg import to_svg

_TENTHS = 10


def lean_svg(picture: Picture) -> str:
    """The picture as SVG, each path's points as steps from the one before."""
    return to_svg(picture, by_steps)


def by_steps(mark: Stroke) -> str:
    """A stroke's outlines as the data of a path, in steps of tenths of a mm.

    >>> by_steps(Stroke(outlines=(((1, 2), (3.04, 2), (3.04, 5)), ((10, 20), (10, 21)))))
    'm1 2h2v3m7 15v1'
    """
    return "".join(_steps(mark))


def _steps(mark: Stroke) -> Iterator[str]:
    at_x = at_y = 0
    for outline in mark.outlines:
        points = [(round(x * _TENTHS), round(y * _TENTHS)) for x, y in outline]
        x, y = points[0]
        yield f"m{_figures(x - at_x, y - at_y)}"
        at_x, at_y = x, y
        for x, y in points[1:]:
            if y == at_y:
                yield f"h{_figure(x - at_x)}"
            elif x == at_x:
                yield f"v{_figure(y - at_y)}"
            else:
                yield f"l{_figures(x - at_x, y - at_y)}"
            at_x, at_y = x, y
        if mark.closed:
            yield "z"
            at_x, at_y = points[0]


def _figures(across: int, down: int) -> str:
    second = _figure(down)
    return _figure(across) + (second if second.startswith("-") else f" {second}")


def _figure(tenths: int) -> str:
    """A number of tenths as short as it can be written: `.5`, `-3`, `12.1`."""
    whole, part = divmod(abs(tenths), _TENTHS)
    text = f"{whole or ''}.{part}" if part else str(whole)
    return f"-{text}" if tenths < 0 else text
