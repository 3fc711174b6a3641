"""The typeface that drawings are measured in, as papers have it: their words stand on the screen as they should."""

from __future__ import annotations

from importlib.resources import files

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

_FACES = {"regular.ttf": "Regular.ttf", "bold.ttf": "Bold.ttf"}
_FOLDER = ("fonts", "atkinson-hyperlegible-next")


async def face(request: Request) -> Response:
    """A face of it."""
    name = _FACES.get(request.path_params["name"])
    if name is None:
        raise HTTPException(404)
    data = files("courseware.printing").joinpath(*_FOLDER, name).read_bytes()
    return Response(data, media_type="font/ttf", headers={"cache-control": "private, max-age=86400"})


ROUTES = (Route("/type/{name}", face),)
