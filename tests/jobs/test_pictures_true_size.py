"""Templates, rod and corner of a job, read back and measured as they print."""

from __future__ import annotations

import math
from io import BytesIO

import pypdfium2
import pytest
from pikepdf import Pdf

from courseware.drawings.lines import SEEN, TICK
from courseware.drawings.picture import Label, Stroke
from courseware.drawings.tiles import TILE
from courseware.jobs.pictures import (
    bats_at_true_size,
    corner_at_true_size,
    per_strip,
    rod_strips,
)
from courseware.jobs.plan import plan_of
from courseware.jobs.sheets import job_sheets
from courseware.printing.render import job_pdf
from courseware.workflows.jobs import find_job
from tests.jobs.a_panel import JOBS, job


def test_the_bats_are_drawn_at_true_size(plan) -> None:
    outlines = [m.outlines[0] for m in bats_at_true_size(plan).marks if isinstance(m, Stroke) and m.closed]
    assert len(outlines) == 2
    for outline in outlines:
        xs, ys = [x for x, _ in outline], [y for _, y in outline]
        assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((65, 102.5), abs=1e-6)


def test_the_strips_of_the_rod_mark_every_course_at_true_size(plan) -> None:
    marks = 0
    for picture in rod_strips(plan):
        for mark in picture.marks:
            if isinstance(mark, Stroke) and mark.weight == TICK.weight:
                marks += 1
        strips = [m.outlines[0] for m in picture.marks if isinstance(m, Stroke) and m.closed]
        assert all(max(y for _, y in strip) - min(y for _, y in strip) == pytest.approx(225) for strip in strips)
    courses = plan.task.shape.wall.courses
    assert marks == courses + math.ceil(courses / 3)  # each strip marks its own foot as well


@pytest.mark.parametrize(
    ("format", "each"),
    # A strip of at most 226 mm: UK 3 × 75 = 225; German NF 3 × 83.3 = 250 is too long; US modular 3 × 67.7 = 203.
    [("UK_METRIC", 3), ("GERMAN_NF", 2), ("US_MODULAR", 3)],
)
def test_every_strip_of_the_rod_stands_on_the_page_of_its_heading(format: str, each: int) -> None:
    plan = job(("job: A panel", f"job: A panel\nformat: {format}"))
    assert per_strip(plan.task.brick) == each
    sheet = next(sheet for sheet in job_sheets(plan, None, "") if sheet.file == "templates")
    with Pdf.open(BytesIO(job_pdf(sheet))) as opened:
        assert len(opened.pages) == len(sheet.blocks)
    pages = rod_strips(plan)
    strips = sum(len(m.outlines) for p in pages for m in p.marks if isinstance(m, Stroke) and m.closed)
    assert strips == math.ceil(24 / each)
    numbers = [m.text for p in pages for m in p.marks if isinstance(m, Label) and m.bold]
    assert numbers == [str(n) for n in range(1, 25)]


def test_a_template_page_has_a_100_mm_line_on_both_axes() -> None:
    plan = plan_of(find_job(JOBS[-1]))
    sheet = next(sheet for sheet in job_sheets(plan, None, "2026-01-05") if sheet.file == "templates")
    for block in sheet.blocks:
        runs = [run for m in block.picture.marks if isinstance(m, Stroke) for run in m.outlines if len(run) == 2]
        assert any(abs(b[0] - a[0]) == pytest.approx(100) and a[1] == b[1] for a, b in runs)
        assert any(abs(b[1] - a[1]) == pytest.approx(100) and a[0] == b[0] for a, b in runs)
    with Pdf.open(BytesIO(job_pdf(sheet))) as opened:
        assert str(opened.Root.ViewerPreferences.PrintScaling) == "/None"
        assert len(opened.pages) == len(sheet.blocks)


def test_the_bat_measures_right_on_a_picture_of_the_page_at_300_dpi() -> None:
    plan = plan_of(find_job("porch-panel"))
    sheet = next(sheet for sheet in job_sheets(plan, None, "2026-01-05") if sheet.file == "templates")
    picture = pypdfium2.PdfDocument(job_pdf(sheet))[0].render(scale=300 / 72).to_pil().convert("L")
    longest: list[int] = []
    for y in range(picture.height):
        run = 0
        for dark in (pixel < 128 for pixel in picture.crop((0, y, picture.width, y + 1)).get_flattened_data()):
            run = run + 1 if dark else 0
            longest.append(run)
    lengths = {length for length in longest if length > 700}
    assert any(abs(length * 25.4 / 300 - 65) < 0.6 for length in lengths)  # the bat's outer end, with its pen
    assert any(abs(length * 25.4 / 300 - 100) < 0.35 for length in lengths)  # the line to check the print by


def test_tiles_join_on_crosses_that_both_of_them_show() -> None:
    plan = plan_of(find_job("porch-panel"))
    sheets = corner_at_true_size(plan)
    assert len(sheets) == 4  # 300 mm either way, on tiles of 160 by 225 that share 10
    wide, high = TILE[0] - 10, TILE[1] - 10
    crosses = [
        next(m for m in tile.marks if isinstance(m, Stroke) and m.weight == SEEN.weight and not m.closed)
        for tile in sheets
    ]
    first, beside_it = crosses[0].outlines, crosses[1].outlines
    assert {(round(x - wide, 6), round(y, 6)) for run in first for x, y in run} == {
        (round(x, 6), round(y, 6)) for run in beside_it for x, y in run
    }
    assert high == 215
    assert all(tile.clipped and (tile.width, tile.height) == TILE for tile in sheets)


def test_every_piece_of_the_corner_is_at_true_size_on_its_tiles() -> None:
    plan = plan_of(find_job("porch-panel"))
    pieces = next(
        m for m in corner_at_true_size(plan)[0].marks if isinstance(m, Stroke) and m.closed and m.weight == 0.35
    )
    sizes = {
        tuple(sorted(round(max(p) - min(p), 3) for p in zip(*outline, strict=True))) for outline in pieces.outlines
    }
    assert sizes == {(65.0, 65.0), (65.0, 102.5)}
