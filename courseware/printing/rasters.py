"""Pictures as PNG, for a file that can hold no drawing: the operators that a sheet prints, rastered."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from io import BytesIO

from courseware.drawings.picture import Picture
from courseware.printing.engine import render

_DOTS_PER_INCH = 200
_POINTS_PER_INCH = 72
_BARE = "@left-top { content: none } @bottom-left { content: none } @bottom-right { content: none }"


def rasters(pictures: Mapping[str, Picture]) -> dict[str, bytes]:
    """Each picture in grey at its own size, 200 dots to the inch; the same pictures give the same bytes."""
    import pypdfium2

    if not pictures:
        return {}
    pages = pypdfium2.PdfDocument(render(_a_page_each(pictures), pictures))
    found = {}
    for name, page in zip(pictures, pages, strict=True):
        written = BytesIO()
        image = page.render(scale=_DOTS_PER_INCH / _POINTS_PER_INCH, grayscale=True).to_pil()
        image.save(written, "PNG", optimize=True)
        found[name] = written.getvalue()
    pages.close()
    return found


def page_images(pdf: bytes, dots_per_inch: int = 110) -> tuple[bytes, ...]:
    """Each page of a PDF as a PNG in grey, so many dots to the inch."""
    import pypdfium2

    found: list[bytes] = []
    with pypdfium2.PdfDocument(pdf) as pages:
        for page in pages:
            written = BytesIO()
            image = page.render(scale=dots_per_inch / _POINTS_PER_INCH, grayscale=True).to_pil()
            image.save(written, "PNG", optimize=True)
            found.append(written.getvalue())
    return tuple(found)


def _a_page_each(pictures: Mapping[str, Picture]) -> str:
    sizes = "\n".join(
        f"@page picture{place} {{ size: {picture.width:.3f}mm {picture.height:.3f}mm; margin: 0; {_BARE} }}\n"
        f".picture{place} {{ page: picture{place}; line-height: 0 }}"
        for place, picture in enumerate(pictures.values())
    )
    drawn = "".join(
        f'<p class="picture{place}"><img src="courseware:{escape(name)}" alt="A picture"/></p>'
        for place, name in enumerate(pictures)
    )
    return f'<html lang="en-GB"><head><title>Pictures</title><style>{sizes}</style></head><body>{drawn}</body></html>'
