"""Style, scripts and typeface of the pages. Their address has their version in it, so that a browser keeps them."""

from __future__ import annotations

from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.routing import Route

if TYPE_CHECKING:
    from starlette.requests import Request

HERE = Path(__file__).parent
_FACE = HERE.parent / "printing" / "fonts" / "atkinson-hyperlegible-next"  # in which drawings are lettered
_KINDS = {
    ".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml",
    ".ttf": "font/ttf",
}  # fmt: skip
_KEPT = "private, max-age=31536000, immutable"


def address(name: str) -> str:
    """The address of a static file on the desk: another as soon as any of them changes."""
    return f"/static/{_version()}/{name}"


async def static(request: Request) -> Response:
    """A static file by its name: a request chooses among these, and opens nothing."""
    asked, found = request.path_params, _assets().get(request.path_params["name"])
    if found is None or asked["version"] != _version():
        raise HTTPException(404)
    return Response(found[0], media_type=found[1], headers={"cache-control": _KEPT})


@cache
def _assets() -> dict[str, tuple[bytes, str]]:
    return {
        file.name: (file.read_bytes(), _KINDS[file.suffix])
        for file in sorted([*(HERE / "static").iterdir(), *_FACE.iterdir()])
        if file.suffix in _KINDS
    }


@cache
def _version() -> str:
    found = blake2b(digest_size=6)
    for name, (data, _) in _assets().items():
        found.update(name.encode() + blake2b(data).digest())
    return found.hexdigest()


ROUTE = Route("/static/{version}/{name}", static)
