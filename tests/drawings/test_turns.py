"""Work as bars read back: pieces and shares to one scale, a person for each share, a total that is not drawn."""

from __future__ import annotations

import pytest

from tests.drawings.conftest import BRICK, HALF_BRICK, boxes, outlines, pens, shade

WORK = [(48, 5, 4, 20), (36, 4, 2, 40), (60, 6, 3, 30), (200, 1, 6, 60)]


def pieces(sheet):
    return sorted([*boxes(sheet, shade(BRICK)), *boxes(sheet, shade(HALF_BRICK))], key=lambda box: box.left)


@pytest.mark.parametrize(("count", "each", "people", "share"), WORK)
def test_pieces_and_shares_are_to_one_scale(drawn, count, each, people, share) -> None:
    sheet = drawn("turns", {}, pieces=count, each=each, people=people, share=share)
    shares, work = boxes(sheet, shade(1.0)), pieces(sheet)
    assert len(shares) == people
    for bar in shares:
        assert bar.width / work[0].width == pytest.approx(share / each, rel=2e-3)
    assert len(outlines(sheet, 0.3)) == 2 * people  # head and shoulders
    assert {round(bar.left, 2) for bar in (*shares, work[0])} == {round(work[0].left, 2)}


@pytest.mark.parametrize("count", [3, 4, 5, 6, 7, 8, 48, 200])
def test_some_pieces_are_always_in_the_gap(drawn, count) -> None:
    sheet = drawn("turns", {}, pieces=count, each=5)
    work = pieces(sheet)
    assert 2 <= len(work) < count
    assert len(work) <= 6
    breaks = [line for line in pens(sheet, "0.18") if len(line.coords) == 6]
    assert len(breaks) == 2
    left, right = (line.bounds for line in breaks)
    assert not any(piece.left < right[2] and piece.right > left[0] for piece in work)
    assert outlines(sheet, 0.3) == []


def test_the_total_is_a_box_over_the_whole_bar(drawn) -> None:
    sheet = drawn("turns", {"each": "5 minutes", "pieces": "48 in all", "total": None}, pieces=48, each=5)
    assert set(sheet.texts) == {"5 minutes", "48 in all"}
    assert sum(round(box.width, 1) == 20 for box in sheet.white) == 1
