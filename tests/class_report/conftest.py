"""What the tests of the class picture's drawings share: how wide words are, by the font that they are printed in."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings.picture import Label
from courseware.papers.sheets import DrawingCall
from courseware.trade import UK_METRIC

_FACES = Path(__file__).parents[2] / "courseware" / "printing" / "fonts" / "atkinson-hyperlegible-next"
WALL = DrawingCall(
    kind="wall",
    figures={
        **{name: Fraction(size) for name, size in DRAWING_KINDS["wall"].optional.items()},
        "length": Fraction(2400),
        "height": Fraction(1200),
    },
    labels={"length": "2400", "height": "1200"},
    format=UK_METRIC,
    alt="A wall with its sizes",
)


@pytest.fixture(scope="session")
def wide() -> Callable[[Label], float]:
    """The width of a label in mm, by the advance widths of the sheet's own font."""
    fonts = {bold: TTFont(_FACES / f"{name}.ttf") for bold, name in ((False, "Regular"), (True, "Bold"))}
    known = {bold: (font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm) for bold, font in fonts.items()}

    def measured(label: Label) -> float:
        glyphs, widths, em = known[label.bold]
        return sum(widths[glyphs[ord(sign)]][0] for sign in label.text) / em * label.size

    return measured
