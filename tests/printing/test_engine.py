"""Printing itself: the fonts within, nothing fetched, the same bytes, drawings as their SVG shows them."""

from __future__ import annotations

import base64
import os
import subprocess
import sys
from io import BytesIO

import pypdfium2
import pytest
from pikepdf import Pdf
from PIL import ImageChops
from weasyprint import CSS
from weasyprint.urls import FatalURLFetchingError

from courseware.drawings import draw, to_svg
from courseware.papers.sitting_file import write_sitting
from courseware.printing.engine import OwnAssetsOnly, render
from courseware.printing.page_format import A4
from courseware.printing.render import key_pdf, paper_pdf
from courseware.printing.workers import Sheet, print_sheets


def picture(pdf: bytes, page: int = 0, dpi: int = 150):
    return pypdfium2.PdfDocument(pdf)[page].render(scale=dpi / 72).to_pil().convert("L")


def test_only_the_shipped_fonts_stand_in_a_sheet_and_stand_in_it_whole(printed) -> None:
    sheet = printed("opening_sizes")
    for pdf in (sheet.paper_pdf, sheet.key_pdf, sheet.grid_pdf):
        with Pdf.open(BytesIO(pdf)) as opened:
            fonts = [thing for thing in opened.objects if getattr(thing, "get", None) and thing.get("/Type") == "/Font"]
            names = {str(font.BaseFont).split("+")[-1] for font in fonts}
            assert names <= {"Sheet", "Sheet-Bold", "Signs", "Signs-Bold"}, names  # the last is Signs, emboldened
            files = [t for t in opened.objects if getattr(t, "get", None) and t.get("/Type") == "/FontDescriptor"]
            assert files
            assert all("/FontFile2" in file for file in files)


@pytest.mark.parametrize(
    "address",
    ["file:///etc/passwd", "http://localhost/x.png", "https://example.org/x.css", "data:text/css,p{}", "ftp://x/y",
     "courseware:../../pyproject.toml", "courseware:fonts/../press.py", "courseware:fonts", "courseware:", "x.png"],
)  # fmt: skip
def test_no_other_address_is_ever_read(address) -> None:
    with pytest.raises(FatalURLFetchingError):
        OwnAssetsOnly().fetch(address)


def test_a_picture_that_is_missing_stops_the_sheet() -> None:
    with pytest.raises(FatalURLFetchingError):
        render(
            '<html lang="en"><head><title>x</title></head><body><img src="courseware:none" alt="x"/></body></html>', {}
        )


def test_a_drawing_prints_as_its_svg_does(printed) -> None:
    """The PDF operators that we write, against WeasyPrint's own reading of the same drawing as SVG."""
    drawings = [e.drawing for e in printed("opening_sizes").key.exercises if e.drawing]
    drawings += [e.drawing for e in printed("projection_levelling").key.exercises if e.drawing]
    for call in {call.kind: call for call in drawings}.values():
        drawn = draw(call)
        page = '<html lang="en"><head><title>x</title></head><body><p class="drawing"><img src="courseware:{}" alt="x"/></p></body></html>'
        ours = picture(render(page.format("drawing"), {"drawing": drawn, **margins()}))
        theirs = picture(
            through_svg(page.format("drawing"), to_svg(drawn).replace("Atkinson Hyperlegible Next", "Sheet"))
        )
        apart = ImageChops.difference(ours, theirs).point(lambda grey: 255 if grey > 96 else 0)
        share = sum(1 for pixel in apart.get_flattened_data() if pixel) / (ours.width * ours.height)
        assert share < 0.0005, call.kind
        assert sum(1 for pixel in ours.get_flattened_data() if pixel < 128) > 1000, call.kind


def margins() -> dict:
    from courseware.printing.page_elements import gauge_scale, print_line
    from courseware.trade import UK_METRIC

    return {"scale": gauge_scale(UK_METRIC), "line": print_line()}


def through_svg(markup: str, svg: str) -> bytes:
    """The same page with one drawing as an SVG image, all else as `render` does it."""
    from courseware.printing import engine

    fonts, _ = engine.fonts_and_fetcher()

    class WithData(OwnAssetsOnly):
        def fetch(self, url, headers=None):
            if url.startswith("data:image/svg+xml;base64,"):
                from weasyprint.urls import URLFetcherResponse

                return URLFetcherResponse(url, base64.b64decode(url.split(",")[1]), {"Content-Type": "image/svg+xml"})
            return super().fetch(url, headers)

    data = "data:image/svg+xml;base64," + base64.b64encode(svg.encode()).decode()
    page = engine.OwnMarkup(markup.replace("courseware:drawing", data), WithData())
    cache = {"courseware:" + name: engine.Drawn(drawn) for name, drawn in margins().items()}
    return page.write_pdf(
        stylesheets=[engine.style_for(A4), CSS(string=A4.rules)],
        font_config=fonts,
        cache=cache,
        pdf_variant="pdf/ua-1",
        finisher=engine.finish,
    )


def test_one_process_or_two_print_the_same_bytes(composed) -> None:
    sitting, _ = composed("opening_sizes", 2)
    text = write_sitting(sitting)
    sheets = [Sheet(place=place, key=key) for place in range(3) for key in (False, True)]
    made: list[dict[Sheet, bytes]] = []
    for processes in (1, 2):
        made.append({})
        print_sheets(text, sheets, processes, made[-1].__setitem__)
    assert made[0] == made[1]


def test_another_hash_seed_another_zone_another_day_print_the_same_bytes(printed, composed, tmp_path) -> None:
    sitting, _ = composed("opening_sizes", 2)
    file = tmp_path / "sitting.json"
    file.write_text(write_sitting(sitting), encoding="utf-8")
    script = (
        "import sys, hashlib\n"
        "from courseware.printing.workers import Sheet, print_sheets\n"
        "print_sheets(open(sys.argv[1], encoding='utf-8').read(), [Sheet(place=0, key=k) for k in (False, True)], 1,\n"
        "             lambda sheet, pdf: print(hashlib.sha256(pdf).hexdigest()))\n"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", script, str(file)],
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
            check=True, capture_output=True, text=True, timeout=120,
        ).stdout
        for seed, zone in (("1", "UTC"), ("31", "Pacific/Auckland"))
    }  # fmt: skip
    assert len(told) == 1


def test_printing_a_sheet_twice_gives_the_same_bytes(printed) -> None:
    sheet = printed("opening_sizes")
    assert paper_pdf(sheet.paper) == sheet.paper_pdf
    assert key_pdf(sheet.key) == sheet.key_pdf
