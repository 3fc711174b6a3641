"""The desk put together: the routes of every screen, its static files, and the guard before them all."""

from __future__ import annotations

import pkgutil
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from functools import cache, wraps
from importlib import import_module
from typing import TYPE_CHECKING, TypeAlias
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import FileResponse, Response
from starlette.routing import Route

from courseware.desk import pages, static_files
from courseware.desk.desk import Desk, NoFolder, desk_of
from courseware.desk.forms import read_form
from courseware.desk.guard import Guard, Refused
from courseware.desk.nav import Nav
from courseware.desk.render import page, said
from courseware.desk.templates import bare
from courseware.desk.ways_on import WayOn, ways_on
from courseware.workflows.messages import explain, keep_details

if TYPE_CHECKING:
    from starlette.types import ASGIApp

Handler: TypeAlias = Callable[[Request], Awaitable[Response]]
# A browser shows these; anything else is saved, since what it holds might run as a page of the desk.
_SHOWN = {
    ".pdf": "application/pdf",
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".txt": "text/plain; charset=utf-8",
}
_FILE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; frame-ancestors 'none'"


def make_app(desk: Desk) -> ASGIApp:
    """The desk as an ASGI application."""
    routes, nav = screens()
    inner = Starlette(
        routes=[
            static_files.ROUTE,
            Route("/file/{handle}", _checked(_file)),
            *(_guarded(route) for route in routes),
        ],
        exception_handlers={Refused: _refused, HTTPException: _no_page},
        lifespan=_lifespan,
    )
    inner.state.desk, inner.state.nav = desk, nav
    return Guard(inner, desk)


@cache
def screens() -> tuple[tuple[Route, ...], tuple[Nav, ...]]:
    """The routes of all screens, and the navigation in its order."""
    found = [import_module(f"{pages.__name__}.{one.name}") for one in pkgutil.iter_modules(pages.__path__)]
    nav = [entry for module in found for entry in getattr(module, "NAV", ())]
    return tuple(route for module in found for route in module.ROUTES), tuple(sorted(nav, key=lambda one: one.place))


@asynccontextmanager
async def _lifespan(app: Starlette) -> AsyncIterator[None]:
    app.state.desk.take_up()
    yield
    app.state.desk.jobs.close()


def _guarded(route: Route) -> Route:
    methods = (route.methods or {"GET"}) - {"HEAD"}
    return Route(route.path, _checked(route.endpoint), methods=sorted(methods), name=route.name)


def _checked(handler: Handler) -> Handler:
    """A page's handler, run once a form's token is checked; what goes wrong in it is told in plain words."""

    @wraps(handler)
    async def run(request: Request) -> Response:
        try:
            if request.method == "POST":
                await read_form(request)
            return await handler(request)
        except (Refused, HTTPException):
            raise
        except NoFolder:
            return said(request, "First choose the folder that you work in.", to="/folder")
        except Exception as error:
            message, _ = explain(error)
            told, status = message or keep_details(error), 422 if message else 500
            return page(request, "trouble.html", status=status, told=told, ways=_ways_on(request, error))

    return run


def _ways_on(request: Request, error: Exception) -> tuple[WayOn, ...]:
    """The links under what is told of an error, but to the very page on which it was met."""
    desk = desk_of(request)
    ways = ways_on(error, folder=desk.folder, centre=desk.centre_file) if desk.chosen else ()
    return tuple(way for way in ways if way.address != quote(request.url.path))


async def _file(request: Request) -> Response:
    path = desk_of(request).handles.path(request.path_params["handle"])
    if path is None or not path.is_file():
        raise HTTPException(404)
    shown = _SHOWN.get(path.suffix)
    return FileResponse(
        path,
        media_type=shown or "application/octet-stream",
        filename=path.name,
        content_disposition_type="inline" if shown else "attachment",
        headers={"content-security-policy": _FILE_POLICY} if shown else None,
    )


async def _refused(request: Request, refused: Exception) -> Response:
    assert isinstance(refused, Refused)
    return bare(refused.status, refused.why)


async def _no_page(request: Request, missing: Exception) -> Response:
    assert isinstance(missing, HTTPException)
    if getattr(request.state, "session", None) is None:
        return bare(missing.status_code, "There is nothing here.")
    return page(request, "nothing_here.html", status=missing.status_code)
