"""WeasyPrint kept warm: fonts and styles read once, nothing fetched but the package's own, drawings as PDF operators.

The only module that knows WeasyPrint's inner names (pinned at 70): text layout in a drawing, and the drawing interface
of its images, which `cache=` takes as objects.
"""

from __future__ import annotations

import atexit
import logging
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from math import cos, inf, radians, sin
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from cssselect2 import ElementWrapper
from weasyprint import CSS, HTML
from weasyprint.draw.text import draw_first_line
from weasyprint.matrix import Matrix
from weasyprint.svg.text import TextBox
from weasyprint.text.ffi import harfbuzz_subset
from weasyprint.text.fonts import FontConfiguration
from weasyprint.text.line_break import split_first_line
from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

from courseware.drawings.picture import Label, Picture, Stroke
from courseware.printing.page_format import A4, PageFormat
from courseware.printing.tagging import finish

_ROOM = Path(__file__).parent
_OWN = "courseware:"
_STYLES = ("sheet", "board", "glossary")  # each after those it stands over
_MARGINS = f"{_OWN}margins"  # the picture that each page has its own of
Margins = Callable[[int, Sequence[str]], Picture]  # the margins of a page by its number and what is named on it
_PX = 96 / 25.4  # CSS pixels in a millimetre
logging.getLogger("weasyprint").setLevel(logging.ERROR)
logging.getLogger("fontTools").setLevel(logging.ERROR)


class OwnAssetsOnly(URLFetcher):  # type: ignore[misc]  # WeasyPrint publishes no types
    """Serves the package's fonts and styles; every other address stops the run."""

    def __init__(self) -> None:
        super().__init__(allowed_protocols=(), allow_redirects=False, fail_on_errors=True)

    def fetch(self, url: str, headers: Any = None) -> URLFetcherResponse:
        """The asset named by `courseware:fonts/…`. Raises `FatalURLFetchingError` for anything else."""
        path = (_ROOM / url.removeprefix(_OWN)).resolve()
        if not url.startswith(_OWN) or not path.is_relative_to(_ROOM / "fonts") or not path.is_file():
            raise FatalURLFetchingError(f"a sheet asked for {url[:80]}, which it may not have")
        return URLFetcherResponse(url, path.read_bytes(), {"Content-Type": "font/ttf"})


class OwnMarkup(HTML):  # type: ignore[misc]  # WeasyPrint publishes no types
    """A sheet's own well-formed markup, read by expat, under no style but the sheet's."""

    def __init__(self, markup: str, fetcher: OwnAssetsOnly) -> None:
        self.base_url = "courseware:sheet"
        self.url_fetcher = fetcher
        self.media_type = "print"
        self.wrapper_element = ElementWrapper.from_html_root(ElementTree.fromstring(markup), content_language=None)
        self.etree_element = self.wrapper_element.etree_element

    def _ua_stylesheets(self, forms: bool = False) -> list[CSS]:
        return []

    def _ph_stylesheets(self) -> list[CSS]:
        return []


class Drawn:
    """A picture as WeasyPrint draws an image: its size, and its operators."""

    def __init__(self, picture: Picture) -> None:
        self._picture = picture

    def get_intrinsic_size(self, _resolution: float, _font_size: float) -> tuple[float, float, float]:
        """Width, height in CSS pixels, and their ratio."""
        return self._picture.width * _PX, self._picture.height * _PX, self._picture.width / self._picture.height

    def draw(self, stream: Any, width: float, _height: float, style: Any) -> None:
        """Writes the picture's operators at the size the page gives it."""
        scale = width / self._picture.width
        stream.transform(a=scale, d=scale)
        if self._picture.clipped:
            stream.rectangle(0, 0, self._picture.width, self._picture.height)
            stream.clip()
            stream.end()
        for mark in self._picture.marks:
            if isinstance(mark, Stroke):
                _stroke(stream, mark)
            else:
                _label(stream, mark, style)


def cuts_fonts_fast() -> bool:
    """Whether HarfBuzz's own font cutter is there; without it a sheet takes about twice as long."""
    return bool(harfbuzz_subset)


class LaidOut:
    """A sheet laid out on its pages, not written yet."""

    def __init__(self, document: Any) -> None:
        self._document = document

    @property
    def pages(self) -> int:
        return len(self._document.pages)

    def pdf(self) -> bytes:
        """The sheet's PDF."""
        return self._document.write_pdf(pdf_variant="pdf/ua-1", finisher=finish)  # type: ignore[no-any-return]  # bytes where no target is given


def lay_out(
    markup: str, pictures: Mapping[str, Picture], margins: Margins | None = None, page: PageFormat = A4
) -> LaidOut:
    """A sheet's markup on its pages; `pictures` by the names its images have after `courseware:`.

    `margins` draws those of each page, once it is known what stands on it: the `data-name`s of the body's own children.
    """
    fonts, fetcher = fonts_and_fetcher()
    cache = {_OWN + name: Drawn(picture) for name, picture in pictures.items()}
    blank = Drawn(Picture(width=page.sheet[0], height=page.sheet[1], marks=(), alt=""))
    if margins:
        cache[_MARGINS] = blank
    document = OwnMarkup(markup, fetcher).render(
        stylesheets=[style_for(page if page.large else A4), _rules(page)],
        font_config=fonts,
        cache=cache,
        pdf_variant="pdf/ua-1",
    )
    if margins:
        for number, laid in enumerate(document.pages, 1):
            _with_margins(laid._page_box, blank, number, margins)
    return LaidOut(document)


def render(
    markup: str, pictures: Mapping[str, Picture], margins: Margins | None = None, page: PageFormat = A4
) -> bytes:
    """The PDF of a sheet's markup, as `lay_out` lays it out."""
    return lay_out(markup, pictures, margins, page).pdf()


def _with_margins(page_box: Any, blank: Drawn, number: int, margins: Margins) -> None:
    """Puts a page's own margins in the place of the blank picture that it was laid out with."""
    root, *around = page_box.children
    names = [box.element.get("data-name") for box in root.children[0].children]
    own = Drawn(margins(number, [name for name in names if name]))
    for box in (box for margin in around for box in margin.descendants()):
        if getattr(box, "replacement", None) is blank:
            box.replacement = own


@lru_cache(maxsize=1)
def fonts_and_fetcher() -> tuple[FontConfiguration, OwnAssetsOnly]:
    atexit.register(_clear)  # a font configuration must go before the libraries that it calls
    return FontConfiguration(), OwnAssetsOnly()


@lru_cache(maxsize=8)
def style_for(page: PageFormat) -> CSS:
    """The sheets' style as a page's type asks for it: all but large type is set by one."""
    fonts, fetcher = fonts_and_fetcher()
    text = "\n".join((_ROOM / "styles" / f"{name}.css").read_text(encoding="utf-8") for name in _STYLES)
    return CSS(string=page.styled(text), font_config=fonts, url_fetcher=fetcher, base_url="courseware:styles")


@lru_cache(maxsize=8)
def _rules(page: PageFormat) -> CSS:
    return CSS(string=page.rules)


def _clear() -> None:
    style_for.cache_clear()
    fonts_and_fetcher.cache_clear()


def _stroke(stream: Any, mark: Stroke) -> None:
    with stream.stacked():
        if mark.weight:
            stream.set_line_width(mark.weight)
            stream.set_color_rgb(mark.grey, mark.grey, mark.grey, True)
        if mark.fill is not None:
            stream.set_color_rgb(mark.fill, mark.fill, mark.fill, False)
        if mark.dash:
            stream.set_dash(list(mark.dash), 0)
        for (x, y), *others in mark.outlines:
            stream.move_to(round(x, 3), round(y, 3))
            for x_next, y_next in others:
                stream.line_to(round(x_next, 3), round(y_next, 3))
            if mark.closed:
                stream.close()
        if mark.fill is not None and mark.weight:
            stream.fill_and_stroke()
        elif mark.fill is not None:
            stream.fill()
        else:
            stream.stroke()


def _label(stream: Any, mark: Label, style: Any) -> None:
    own = style.copy()
    own["font_size"] = mark.size
    own["font_weight"] = 700 if mark.bold else 400
    layout, _, _, width, _, baseline = split_first_line(mark.text, own, None, inf, 0)
    layout.reactivate(own)
    box = TextBox(layout, own)
    box.baseline = baseline
    shift = {"start": 0.0, "middle": -width / 2, "end": -width}[mark.anchor]
    angle = radians(mark.turn)
    c, s = cos(angle), sin(angle)
    x, y = mark.at[0] + c * shift, mark.at[1] - s * shift
    stream.set_color_rgb(0, 0, 0, False)
    stream.begin_text()
    draw_first_line(stream, box, "none", "none", Matrix(c, -s, -s, -c, x, y))
    stream.end_text()
