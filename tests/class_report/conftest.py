"""What the tests of the class picture's drawings share: how wide words are, by the font that they are printed in."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from courseware.drawings.picture import Label

_FACES = Path(__file__).parents[2] / "courseware" / "printing" / "fonts" / "atkinson-hyperlegible-next"


@pytest.fixture(scope="session")
def wide() -> Callable[[Label], float]:
    """The width of a label in mm, by the advance widths of the sheet's own font."""
    fonts = {bold: TTFont(_FACES / f"{name}.ttf") for bold, name in ((False, "Regular"), (True, "Bold"))}
    known = {bold: (font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm) for bold, font in fonts.items()}

    def measured(label: Label) -> float:
        glyphs, widths, em = known[label.bold]
        return sum(widths[glyphs[ord(sign)]][0] for sign in label.text) / em * label.size

    return measured
