"""True size: the gauge scale and the 100 mm line, from the PDF's own operators and from a picture of the page.

A PDF unit is 1/72 inch and an inch 25.4 mm (ISO 32000-1, 8.3.2.3).
"""

import itertools
from fractions import Fraction
from io import BytesIO

import pypdfium2
import pytest
from pikepdf import Pdf

from courseware.printing.page_elements import gauge_scale, print_line, squared
from courseware.trade import FORMATS, gauge_rod

POINT = 25.4 / 72
DPI = 300


def rules(pdf: bytes) -> list[tuple[float, float, float, float]]:
    """Every straight line of two points on the first page, in mm from its lower left corner."""
    with Pdf.open(BytesIO(pdf)) as opened:
        stream = opened.pages[0].Contents.read_bytes().decode("latin-1")
    here, kept, found, last = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), [], [], (0.0, 0.0)
    for line in stream.split("\n"):
        *numbers, operator = line.split() or [""]
        if operator == "q":
            kept.append(here)
        elif operator == "Q":
            here = kept.pop()
        elif operator == "cm":
            a, b, c, d, e, f = map(float, numbers)
            p, q, r, s, t, u = here
            here = (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)
        elif operator in "ml" and len(numbers) == 2:
            x, y = map(float, numbers)
            p, q, r, s, t, u = here
            point = ((x * p + y * r + t) * POINT, (x * q + y * s + u) * POINT)
            if operator == "l":
                found.append((*last, *point))
            last = point
    return found


def test_the_print_line_is_100_mm_in_the_pdf(printed) -> None:
    level = [
        abs(x2 - x1) for x1, y1, x2, y2 in rules(printed("opening_sizes").paper_pdf) if abs(y2 - y1) < 1e-6 and y1 < 25
    ]
    assert any(abs(length - 100) < 0.001 for length in level), level


def test_the_gauge_scale_ticks_stand_a_course_apart_in_the_pdf(printed) -> None:
    """UK courses: 75 mm, Technical Information Sheet 9."""
    ticks = sorted(
        {
            round(y1, 3)
            for x1, y1, x2, y2 in rules(printed("opening_sizes").paper_pdf)
            if abs(y2 - y1) < 1e-6 and 2.4 < abs(x2 - x1) < 2.6 and x1 < 27
        }
    )
    apart = [upper - lower for lower, upper in itertools.pairwise(ticks)]
    assert apart == pytest.approx([75.0, 75.0, 75.0], abs=0.002)


def test_the_print_line_is_100_mm_in_a_picture_at_300_dpi(printed) -> None:
    document = pypdfium2.PdfDocument(printed("opening_sizes").paper_pdf)
    picture = document[0].render(scale=DPI / 72).to_pil().convert("L")
    longest = 0
    for y in range(int(270 / 25.4 * DPI), picture.height):
        run = 0
        for dark in (pixel < 128 for pixel in picture.crop((0, y, picture.width, y + 1)).get_flattened_data()):
            run = run + 1 if dark else 0
            longest = max(longest, run)
    assert longest * 25.4 / DPI == pytest.approx(100, abs=0.35)  # the pen's own width at both ends


@pytest.mark.parametrize("name", FORMATS)
def test_the_scale_marks_every_course_of_any_format_within_its_height(name) -> None:
    brick = FORMATS[name]
    picture = gauge_scale(brick)
    ticks = next(mark for mark in picture.marks if len(getattr(mark, "outlines", ((),))[0]) == 2)
    heights = [Fraction(0), *gauge_rod(len(ticks.outlines) - 1, brick)]
    foot = ticks.outlines[0][0][1]
    assert [foot - run[0][1] for run in ticks.outlines] == pytest.approx([float(h) for h in heights], abs=1e-9)
    assert all(0 <= y <= picture.height for run in ticks.outlines for _, y in run)


def test_the_viewer_is_asked_not_to_scale(printed) -> None:
    for sheet in (printed("opening_sizes").paper_pdf, printed("opening_sizes").key_pdf):
        with Pdf.open(BytesIO(sheet)) as opened:
            assert str(opened.Root.ViewerPreferences.PrintScaling) == "/None"


def test_the_squares_to_draw_in_are_5_mm() -> None:
    runs = squared().marks[0].outlines
    plumb = sorted(run[0][0] for run in runs if run[0][0] == run[1][0])
    assert {b - a for a, b in itertools.pairwise(plumb)} == {5}


def test_the_line_says_what_it_is_for() -> None:
    assert any("100 mm" in getattr(mark, "text", "") for mark in print_line().marks)
