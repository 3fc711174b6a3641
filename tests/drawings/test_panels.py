"""Panels, surrounds, herringbone and the mitre, read back from their SVG: what is drawn is what is counted."""

from fractions import Fraction

import pytest

from courseware.drawings import draw
from courseware.drawings.picture import Stroke
from courseware.papers.sheets import DrawingCall
from courseware.trade import UK_METRIC, basket_weave, clear_height, herringbone, mitre_template, opening, surround

SVG = "{http://www.w3.org/2000/svg}"


def outlines(sheet) -> list[list[tuple[float, float]]]:
    """Every closed outline of the SVG, in mm of paper."""
    found = []
    for path in sheet.root.iter(f"{SVG}path"):
        for run in path.attrib["d"].split("M")[1:]:
            if run.endswith("Z"):
                found.append([tuple(map(float, point.split())) for point in run.rstrip("Z").split("L")])
    return found


def spans(outline) -> tuple[float, float]:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize(("bricks", "courses"), [(1, 3), (3, 12), (8, 24)])
@pytest.mark.parametrize("starts", ["stretcher", "soldier"])
def test_every_brick_of_a_panel_is_drawn_and_to_one_scale(drawn, bricks, courses, starts) -> None:
    sheet = drawn("panel", {}, bricks=bricks, courses=courses, starts=starts)
    weave = basket_weave(bricks, courses, starts=starts)
    shapes = outlines(sheet)
    assert len(shapes) == weave.stretchers + weave.soldiers
    one_to = 215 / max(max(spans(shape)) for shape in shapes)
    for shape in shapes:
        assert tuple(sorted(size * one_to for size in spans(shape))) == pytest.approx((65, 215), abs=0.1 * one_to)


@pytest.mark.parametrize("corner", ["mitred", "butted"])
@pytest.mark.parametrize(("bricks", "courses"), [(3, 9), (4, 15), (12, 36)])
def test_every_piece_of_a_surround_and_every_brick_of_its_panel_is_drawn(drawn, bricks, courses, corner) -> None:
    sheet = drawn("surround", {}, bricks=bricks, courses=courses, corner=corner)
    found = surround(bricks, courses, corner=corner)
    weave = basket_weave(found.panel_bricks, found.panel_courses)
    assert len(outlines(sheet)) == len(found.pieces) + weave.stretchers + weave.soldiers + 1  # and the opening


@pytest.mark.parametrize("angle", [45, 90])
def test_every_piece_of_herringbone_is_drawn(drawn, angle) -> None:
    laid = herringbone(opening(4), clear_height(12), angle=angle)
    assert len(outlines(drawn("herringbone", {}, bricks=4, courses=12, angle=angle))) == len(laid.pieces) + 1


def test_the_mitre_is_drawn_at_true_size_and_the_bat_on_the_key_alone(drawn) -> None:
    asked = outlines(drawn("mitre", {"leg": None, "cut_length": None}))
    told = outlines(drawn("mitre", {"leg": "34.6", "cut_length": "48.9"}))
    assert len(told) == len(asked) + 1
    assert any(spans(outline) == pytest.approx((65, 65), abs=0.01) for outline in asked)  # the corner piece
    bat = mitre_template()
    [drawn_bat] = [outline for outline in told if len(outline) == len(bat.outline)]
    assert spans(drawn_bat) == pytest.approx((65, 102.5), abs=0.01)


def test_a_size_asked_for_is_blank_and_one_told_is_written() -> None:
    figures = {"bricks": Fraction(4), "courses": Fraction(15), "corner": "mitred", "starts": "stretcher"}
    labels = {"width": "910", "height": "1135", "panel_width": None}
    picture = draw(DrawingCall(kind="surround", figures=figures, labels=labels, format=UK_METRIC, alt="x"))
    texts = {getattr(mark, "text", None) for mark in picture.marks}
    assert {"910", "1135"} <= texts
    assert "665" not in texts
    blanks = [m for m in picture.marks if isinstance(m, Stroke) and m.fill == 1.0 and len(m.outlines) == 1]
    assert blanks
