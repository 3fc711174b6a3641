"""What stands in a paper's margins: on each page its own code to scan, corner marks, the gauge of its own questions."""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from math import atan2, degrees, hypot

import numpy as np
import pypdfium2
import pytest
import zxingcpp
from pikepdf import Pdf
from PIL import Image
from scipy import ndimage

from courseware.drawings.picture import Label
from courseware.printing.leak_check import page_text
from courseware.printing.page_format import A4
from courseware.printing.page_margins import page_margins
from courseware.printing.render import paper_pdf
from courseware.trade import FORMATS, GERMAN_NF, UK_METRIC

DPI, SKEW = 100, 3.0
MM = DPI / 25.4
MARK = 4.0  # mm, a corner mark's side; the square within a corner of the code is 2.7 mm
ACROSS, DOWN = 210 - 2 * 7.0, 297 - 2 * 7.0  # mm between the middles of the corner marks
POINT = 72 / 25.4


@pytest.fixture(scope="module")
def paper(printed) -> tuple[bytes, str]:
    sheet = printed("course_gauge")
    return sheet.paper_pdf, sheet.paper.heading.code


def copies(pdf: bytes, turned: float) -> Iterator[Image.Image]:
    """Its pages as a copier's glass has them: 100 dpi, in greys, turned by so many degrees and whole."""
    for page in pypdfium2.PdfDocument(pdf):
        seen = page.render(scale=DPI / 72).to_pil().convert("L")
        yield seen.rotate(turned, resample=Image.Resampling.BILINEAR, fillcolor=255, expand=True)


def corner_marks(copy: Image.Image) -> list[tuple[float, float]]:
    """The middles, in pixels, of what is dark, square and of a mark's size, the outermost at each of the sheet's corners."""
    dark = np.asarray(copy) < 128
    reach = int(26 * MM)
    found = []
    for down, edge_y in ((slice(0, reach), 0), (slice(dark.shape[0] - reach, None), dark.shape[0])):
        for across, edge_x in ((slice(0, reach), 0), (slice(dark.shape[1] - reach, None), dark.shape[1])):
            labelled, _ = ndimage.label(dark[down, across])
            marks = []
            for piece, (rows, columns) in enumerate(ndimage.find_objects(labelled), 1):
                sides = (rows.stop - rows.start, columns.stop - columns.start)
                area = int((labelled[rows, columns] == piece).sum())
                if all(0.85 * MARK * MM < side < 1.25 * MARK * MM for side in sides) and area > 0.8 * (MARK * MM) ** 2:
                    y, x = ndimage.center_of_mass(labelled == piece)
                    marks.append((x + (across.start or 0), y + (down.start or 0)))
            if marks:  # a piece of the QR code may look like one, further in
                found.append(min(marks, key=lambda at: hypot(at[0] - edge_x, at[1] - edge_y)))
    return found


@pytest.mark.parametrize("turned", [0.0, SKEW, -SKEW, 180.0, 180.0 + SKEW])
def test_every_page_says_its_paper_and_its_number_to_a_scanner(paper, turned: float) -> None:
    """Read by zxing-cpp; the QR code is ISO/IEC 18004."""
    pdf, code = paper
    read = [[found.text for found in zxingcpp.read_barcodes(copy)] for copy in copies(pdf, turned)]
    assert read == [[f"{code}/{number}"] for number in range(1, len(read) + 1)]


def test_a_page_is_read_from_a_copy_in_two_tones(paper) -> None:
    pdf, code = paper
    [first, *_] = [copy.point(lambda grey: 255 if grey > 140 else 0) for copy in copies(pdf, SKEW)]
    assert [found.text for found in zxingcpp.read_barcodes(first)] == [f"{code}/1"]


@pytest.mark.parametrize("turned", [0.0, SKEW, 180.0 + SKEW])
def test_the_corner_marks_are_found_and_say_how_a_copy_lies(paper, turned: float) -> None:
    for copy in copies(paper[0], turned):
        marks = corner_marks(copy)
        assert len(marks) == 4, marks
        top_left, top_right, foot_left, foot_right = marks
        for one, other, apart in (
            (top_left, top_right, ACROSS), (foot_left, foot_right, ACROSS),
            (top_left, foot_left, DOWN), (top_right, foot_right, DOWN),
        ):  # fmt: skip
            assert hypot(other[0] - one[0], other[1] - one[1]) / MM == pytest.approx(apart, abs=0.4)
        lies = degrees(atan2(top_left[1] - top_right[1], top_right[0] - top_left[0]))
        assert lies == pytest.approx(turned % 180, abs=0.2)


def scales_on(pdf: bytes) -> list[set[str]]:
    """The bricks whose gauge is drawn on each page."""
    with Pdf.open(BytesIO(pdf)) as opened:
        said = [page_text(page) for page in opened.pages]
    return [set(re.findall(r"Course gauge at true size, [\d.]+ mm: (.+?), bed", text)) for text in said]


@pytest.mark.parametrize("topic", ["course_gauge", "safe_cutting", "squaring_and_datums"])
def test_a_page_has_the_gauge_of_the_bricks_in_its_own_questions_and_of_no_other(printed, topic: str) -> None:
    """Course gauge has UK, German and other bricks; most of safe cutting and of squaring has none."""
    sheet = printed(topic)
    for page, drawn in zip(exercises_by_page(sheet.paper_pdf, sheet.paper), scales_on(sheet.paper_pdf), strict=True):
        bricks = {exercise.format.name for exercise in page if exercise.format}
        assert drawn <= bricks
        assert drawn or not bricks
        if len(bricks) == 1:
            assert drawn == bricks


def exercises_by_page(pdf: bytes, paper) -> list[list]:
    """The exercises of which a part stands on each page, by the labels that are printed there."""
    found = []
    for page in pypdfium2.PdfDocument(pdf):
        said = page.get_textpage().get_text_bounded()
        found.append(
            [
                exercise
                for exercise in paper.exercises
                if any(re.search(rf"(?m)^{part.label}\b", said) for part in exercise.parts)
                or exercise.pose[:25] in said.replace("\r\n", " ")
            ]
        )
    return found


def test_the_brick_stands_in_words_where_its_gauge_does(printed) -> None:
    for topic in ("safe_cutting", "course_gauge"):
        for exercise in printed(topic).paper.exercises:
            assert bool(exercise.brick) is bool(exercise.format)


@pytest.mark.parametrize("bricks", [(UK_METRIC,), (UK_METRIC, GERMAN_NF), (UK_METRIC, GERMAN_NF, UK_METRIC)])
def test_two_bricks_have_a_scale_each_one_over_the_other(bricks) -> None:
    picture = page_margins("ABCD-EFGH-J", 1, bricks, A4)
    says = [mark for mark in picture.marks if isinstance(mark, Label) and mark.text.startswith("Course gauge")]
    assert len(says) == len(set(bricks))
    lows = [mark.at[1] for mark in says]
    assert lows == sorted(lows)


@pytest.mark.parametrize("name", FORMATS)
def test_scales_of_any_two_formats_keep_clear_of_the_code(name: str) -> None:
    picture = page_margins("ABCD-EFGH-J", 12, (FORMATS[name], UK_METRIC), A4)
    marks = [mark for mark in picture.marks if not isinstance(mark, Label) and mark.fill != 0.0]  # the scales' lines
    lows = [y for mark in marks for run in mark.outlines for x, y in run if x < A4.left - 2]
    code = [y for mark in picture.marks if not isinstance(mark, Label) and mark.fill == 0.0 for run in mark.outlines
            for x, y in run if x < A4.left and 20 < y < 287]  # fmt: skip
    assert max(lows) < min(code) - 3.5  # four modules of 0.9 mm, the quiet zone of ISO/IEC 18004


def test_the_margins_are_the_same_bytes_every_time(printed) -> None:
    sheet = printed("opening_sizes")
    assert paper_pdf(sheet.paper) == sheet.paper_pdf
