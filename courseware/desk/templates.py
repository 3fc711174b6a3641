"""The desk's templates, and pages that need nothing but a template."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from jinja2 import Environment
    from starlette.responses import Response

HERE = Path(__file__).parent


def bare(status: int, why: str, *, passphrase: bool = False) -> Response:
    """A page for whoever is not let in, or asked what no page asks: it shows nothing of what is at the desk."""
    text = templates().get_template("bare.html").render(why=why, passphrase=passphrase, status=status)
    headers = {"connection": "close"} if status in {408, 413} else None  # what is still being sent is not waited for
    return html(text, status, headers)


def html(text: str, status: int = 200, headers: Mapping[str, str] | None = None) -> Response:
    """A page's text, sent. A file's name may hold bytes that are no letters: `?` stands for each."""
    from starlette.responses import HTMLResponse

    return HTMLResponse(text.encode("utf-8", "replace"), status, headers)


@cache
def templates() -> Environment:
    """The desk's templates: every value escaped, every name known."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    from courseware.desk.static_files import address
    from courseware.papers.dates import in_full
    from courseware.words import count, listed, plural

    found = Environment(
        loader=FileSystemLoader(HERE / "templates"), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
        lstrip_blocks=True,
    )  # fmt: skip
    found.globals |= {"count": count, "in_full": in_full, "listed": listed, "plural": plural, "static": address}
    return found
