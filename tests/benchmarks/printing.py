"""Papers and keys printed our way, WeasyPrint's plain way and by Chromium, turn about in one run.

    python tests/benchmarks/printing.py [papers]

Plain is one call a sheet: the same markup parsed as HTML, fonts and styles read anew, drawings as SVG within it with an
outline a brick. Chromium, where there is one, is started for each paper with the very same file.
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
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from weasyprint import CSS, HTML
from weasyprint.text.fonts import FontConfiguration

from courseware.banks import prove
from courseware.desk.shelf import read_shelf, shipped_banks
from courseware.drawings import to_svg
from courseware.drawings.picture import Picture, Stroke
from courseware.papers.compose import compose_key, compose_paper, read_sources
from courseware.papers.deal import Choosing, Heads, choose, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.sheets import Key, Paper
from courseware.papers.sitting import Sitting
from courseware.printing import press

ROOM = Path(press.__file__).parent
CHROMIUM = shutil.which("chromium")


def sitting(count: int) -> Sitting:
    """Papers of six exercises from the shipped topics."""
    banks, notes = read_shelf(shipped_banks(), "outline")
    chosen = choose(banks, Choosing(exercises=6), "benchmark")
    heads = Heads(title="Benchmark", date="2026-01-05", group=numbered(count), seed="benchmark", arris_rule="outline",
                  version="0")  # fmt: skip
    return deal_sitting(heads, banks, notes, chosen, [prove(exercise).space for _, exercise in chosen])


def plain_markup(sheet: Paper | Key) -> tuple[str, str]:
    """The sheet's markup with its drawings within it, and the styles it needs."""
    key = isinstance(sheet, Key)
    pictures = press.key_pictures(sheet) if key else press.paper_pictures(sheet)
    vectors = {name: to_svg(apart(picture)) for name, picture in pictures.items()}
    name, values = ("key.html", {"key": sheet}) if key else ("paper.html", {"paper": sheet})
    markup = "<!DOCTYPE html>" + press._templates().get_template(name).render(**values)
    markup = re.sub(r'<img [^>]*src="courseware:([^"]+)"[^>]*/>', lambda found: vectors[found[1]], markup)
    style = (ROOM / "styles" / "sheet.css").read_text(encoding="utf-8")
    for margin in ("scale", "line"):
        data = base64.b64encode(vectors[margin].encode()).decode()
        style = style.replace(f"url(courseware:{margin})", f"url(data:image/svg+xml;base64,{data})")
    return markup, style.replace("courseware:fonts", f"{ROOM.as_uri()}/fonts")


def apart(picture: Picture) -> Picture:
    """The picture with each outline, and so each brick, a path of its own."""
    marks = tuple(
        part
        for mark in picture.marks
        for part in ([replace(mark, outlines=(o,)) for o in mark.outlines] if isinstance(mark, Stroke) else [mark])
    )
    return replace(picture, marks=marks)


def plain(sheet: Paper | Key) -> bytes:
    """WeasyPrint as its manual shows it."""
    markup, style = plain_markup(sheet)
    fonts = FontConfiguration()
    return HTML(string=markup).write_pdf(
        stylesheets=[CSS(string=style, font_config=fonts)], font_config=fonts, pdf_variant="pdf/ua-1"
    )


def chromium(sheet: Paper | Key) -> bytes:
    """One process a sheet."""
    markup, style = plain_markup(sheet)
    with tempfile.TemporaryDirectory() as folder:
        page = Path(folder, "sheet.html")
        head = f'<head><meta charset="utf-8"/><style>{style}</style>'
        page.write_text(markup.replace("<head>", head), encoding="utf-8")
        target = Path(folder, "sheet.pdf")
        subprocess.run(
            [str(CHROMIUM), "--headless", "--no-sandbox", "--disable-gpu", f"--print-to-pdf={target}",
             "--no-pdf-header-footer", page.as_uri()],
            check=True, capture_output=True, timeout=60,
        )  # fmt: skip
        return target.read_bytes()


def main(count: int) -> None:
    """Prints the median milliseconds and the ratio to plain, for papers and for keys."""
    issued = sitting(count)
    sources = read_sources(issued)
    kinds = {
        "paper": (press.paper_pdf, [compose_paper(issued, n, sources) for n in range(count)]),
        "key": (press.key_pdf, [compose_key(issued, n, sources) for n in range(count)]),
    }
    for kind, (ours, sheets) in kinds.items():
        ways: dict[str, Callable[[Paper | Key], bytes]] = {"plain": plain, "ours": ours}
        if CHROMIUM and kind == "paper":
            ways["chromium"] = chromium
        for way in ways.values():
            way(sheets[0])
        times: dict[str, list[float]] = {name: [] for name in ways}
        for sheet in sheets:
            for name, way in ways.items():
                begun = time.perf_counter()
                way(sheet)
                times[name].append(time.perf_counter() - begun)
        base = statistics.median(times["plain"])
        for name, taken in times.items():
            middle = statistics.median(taken)
            print(f"{kind:6} {name:9} {1000 * middle:6.0f} ms   {middle / base:.2f} of plain")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 8)
