"""How much room a mark is reckoned to take: at least what its letters take in the face that is printed."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw
from courseware.drawings.picture import SMALLEST_TYPE, Label, Stroke, extent, moved
from courseware.printing import engine
from tests.drawings.test_table_of_kinds import MIDDLING

FONTS = Path(engine.__file__).parent / "fonts" / "atkinson-hyperlegible-next"


def real_width(label: Label) -> float:
    font = TTFont(FONTS / ("Bold.ttf" if label.bold else "Regular.ttf"))
    names, widths = font.getBestCmap(), font["hmtx"]
    return sum(widths[names[ord(letter)]][0] for letter in label.text) / font["head"].unitsPerEm * label.size


@pytest.mark.parametrize("kind", DRAWING_KINDS)
def test_no_word_is_longer_than_it_is_reckoned_nor_half_as_long(kind, calling) -> None:
    labels = dict.fromkeys(DRAWING_KINDS[kind].dimensions, "1234.5")
    words = [mark for mark in draw(calling(kind, labels, **MIDDLING[kind])).marks if isinstance(mark, Label)]
    assert all(mark.width / 2 < real_width(mark) <= mark.width for mark in words)


def test_the_smallest_type_is_eight_points() -> None:
    assert pytest.approx(8, abs=0.03) == SMALLEST_TYPE / 25.4 * 72
    assert SMALLEST_TYPE / 25.4 * 72 >= 8


@pytest.mark.parametrize(("anchor", "left", "right"), [("start", 10, 23.4), ("middle", 3.3, 16.7), ("end", -3.4, 10)])
def test_a_label_reaches_from_its_anchor(anchor, left, right) -> None:
    label = Label(at=(10.0, 5.0), text="abcde", size=4.0, anchor=anchor)
    xs = [x for x, _ in extent(label)]
    assert (min(xs), max(xs)) == pytest.approx((left, right))
    turned = [y for _, y in extent(Label(at=(10.0, 5.0), text="abcde", size=4.0, anchor=anchor, turn=90))]
    assert max(turned) - min(turned) == pytest.approx(13.4)


def test_a_mark_is_moved_whole() -> None:
    stroke = Stroke(outlines=(((0.0, 0.0), (1.0, 2.0)),))
    assert moved(stroke, 3, 4).outlines == (((3.0, 4.0), (4.0, 6.0)),)
    assert moved(Label(at=(1.0, 1.0), text="x"), 3, 4).at == (4.0, 5.0)
