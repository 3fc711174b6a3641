"""Papers and keys printed our way, WeasyPrint's plain way and by Chromium, turn about in one run.

    python tests/benchmarks/printing.py [papers]

All print the same pages, or the run ends: the same markup and styles, with the browser's own margins taken off (the others have
the first page's margins on every page). Plain is
one call a sheet as WeasyPrint's manual shows it: markup parsed as HTML, fonts and styles read each time, drawings as SVG within
it, one path for each kind of brick. Ours counts the reading back of papers before they are released. Chromium, where
there is one, is kept open, and started for each sheet as well.
"""

from __future__ import annotations

import base64
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from weasyprint import CSS, HTML
from weasyprint.text.fonts import FontConfiguration

from courseware.banks import prove
from courseware.drawings import to_svg
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.compose import compose_key, compose_paper, read_sources
from courseware.papers.deal import Choosing, Heads, choose, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.key_secrets import Secrets, secrets
from courseware.papers.sheets import Key, Paper
from courseware.papers.sitting import Sitting
from courseware.printing import render
from courseware.printing.bind_pdfs import pages_of
from courseware.printing.leak_check import release
from courseware.printing.page_format import A4
from courseware.printing.page_margins import page_margins

ROOM = Path(render.__file__).parent
CHROMIUM = shutil.which("chromium")
QUIET = ("--headless", "--no-sandbox", "--disable-gpu")
NO_MARGINS = (
    "html, body, h1, h2, h3, p, table { margin: 0; padding: 0 } table { font: inherit; text-indent: inherit }\n"
)
Way = Callable[[Paper | Key], bytes]


def sitting(count: int) -> Sitting:
    """Papers of six exercises from the shipped topics."""
    banks, notes = read_banks(shipped_banks())
    chosen = choose(banks, Choosing(exercises=6), "benchmark")
    heads = Heads(title="Benchmark", date="2026-01-05", group=numbered(count), seed="benchmark",
                  version="0")  # fmt: skip
    return deal_sitting(heads, banks, notes, chosen, [prove(exercise).space for _, exercise in chosen])


def plain_markup(sheet: Paper | Key) -> tuple[str, str]:
    """The sheet's markup with its drawings within it, and the styles it needs."""
    if isinstance(sheet, Key):
        markup, pictures = render.key_sheet(sheet)
    else:
        markup, pictures = render.paper_sheet(sheet)
        bricks = [exercise.format for exercise in sheet.exercises if exercise.format]
        pictures = {**pictures, "margins": page_margins(sheet.heading.code, 1, bricks[:1], A4)}
    vectors = {name: to_svg(picture) for name, picture in pictures.items()}
    markup = "<!DOCTYPE html>" + markup
    markup = re.sub(r'<img ([^>]*)src="courseware:([^"]+)"[^>]*/>', lambda found: placed(found, vectors), markup)
    style = (ROOM / "styles" / "sheet.css").read_text(encoding="utf-8") + A4.rules
    for margin in {"margins", "line"} & vectors.keys():
        data = base64.b64encode(vectors[margin].encode()).decode()
        style = style.replace(f"url(courseware:{margin})", f"url(data:image/svg+xml;base64,{data})")
    return markup, NO_MARGINS + style.replace("courseware:fonts", f"{ROOM.as_uri()}/fonts")


def placed(image: re.Match[str], vectors: Mapping[str, str]) -> str:
    """The drawing in the place of its image, of the same class."""
    kind = re.search(r'class="[^"]*"', image[0])
    return vectors[image[2]].replace("<svg ", f"<svg {kind[0]} " if kind else "<svg ", 1)


def plain(sheet: Paper | Key) -> bytes:
    """WeasyPrint as its manual shows it."""
    markup, style = plain_markup(sheet)
    fonts = FontConfiguration()
    return HTML(string=markup).write_pdf(
        stylesheets=[CSS(string=style, font_config=fonts)], font_config=fonts, pdf_variant="pdf/ua-1"
    )


@contextmanager
def page_file(sheet: Paper | Key) -> Iterator[Path]:
    """The sheet as one file for a browser."""
    markup, style = plain_markup(sheet)
    with tempfile.TemporaryDirectory() as folder:
        page = Path(folder, "sheet.html")
        head = f'<head><meta charset="utf-8"/><style>{style}</style>'
        page.write_text(markup.replace("<head>", head), encoding="utf-8")
        yield page


def chromium_started(sheet: Paper | Key) -> bytes:
    """One process a sheet."""
    with page_file(sheet) as page:
        target = page.with_suffix(".pdf")
        subprocess.run(
            [str(CHROMIUM), *QUIET, f"--print-to-pdf={target}", "--no-pdf-header-footer", page.as_uri()],
            check=True, capture_output=True, timeout=60,
        )  # fmt: skip
        return target.read_bytes()


@contextmanager
def chromium_open() -> Iterator[Way]:
    """One process for all sheets, a tab kept open."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        tab = browser.new_page()

        def printed(sheet: Paper | Key) -> bytes:
            with page_file(sheet) as page:
                tab.goto(page.as_uri())
                return tab.pdf(prefer_css_page_size=True, tagged=True)

        yield printed
        browser.close()


def measured(ways: Mapping[str, Way], sheets: Sequence[Paper | Key]) -> dict[str, float]:
    """The median seconds a sheet of each way, turn about. Ends the run where plain has another number of pages than ours."""
    pages = {name: [pages_of(way(sheet)) for sheet in sheets[:3]] for name, way in ways.items()}
    if pages["plain"] != pages["ours"]:
        raise SystemExit(f"the yardstick prints other pages: {pages}")
    times: dict[str, list[float]] = {name: [] for name in ways}
    for sheet in sheets:
        for name, way in ways.items():
            begun = time.perf_counter()
            way(sheet)
            times[name].append(time.perf_counter() - begun)
    return {name: statistics.median(taken) for name, taken in times.items()}


def both_kinds(count: int) -> dict[str, dict[str, float]]:
    """Median seconds by kind of sheet and way."""
    issued = sitting(count)
    sources = read_sources(issued)
    papers = [compose_paper(issued, place, sources) for place in range(count)]
    keys = [compose_key(issued, place, sources) for place in range(count)]
    hidden: dict[str, Secrets] = {
        paper.heading.code: secrets(paper, key, render.margin_words(paper))
        for paper, key in zip(papers, keys, strict=True)
    }

    def released(paper: Paper) -> bytes:
        return release(render.paper_pdf(paper), hidden[paper.heading.code])

    found: dict[str, dict[str, float]] = {}
    for kind, ours, sheets in (("paper", released, papers), ("key", render.key_pdf, keys)):
        ways: dict[str, Way] = {"plain": plain, "ours": ours}
        if not CHROMIUM:
            found[kind] = measured(ways, sheets)
            continue
        with chromium_open() as kept:
            found[kind] = measured(ways | {"chromium": kept, "chromium started": chromium_started}, sheets)
    return found


def main(count: int) -> None:
    """Prints the median milliseconds and the ratio to plain, for papers and for keys."""
    for kind, times in both_kinds(count).items():
        for name, taken in times.items():
            print(f"{kind:6} {name:17} {1000 * taken:6.0f} ms   {taken / times['plain']:.2f} of plain")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 8)
