"""The first page: the folder of work, and what there is to do in it."""

from __future__ import annotations

from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of
from courseware.desk.forms import read_form
from courseware.desk.looking_on import Noted
from courseware.desk.open_sittings import record_there
from courseware.desk.render import page, said
from courseware.papers.dates import in_full
from courseware.words import count
from courseware.workflows.folders_of_work import FolderRefused, folders_in, made_folder, overview
from courseware.workflows.going_on import stopped_issues, throw_away
from courseware.workflows.papers_begun import begun


async def start(request: Request) -> Response:
    """What there is to do in the folder of work."""
    desk = desk_of(request)
    seen = await run_in_threadpool(overview, desk.folder, record_there(desk))
    left = await run_in_threadpool(stopped_issues, desk.out)
    papers = await run_in_threadpool(begun, desk.folder)
    jobs = [job for job in desk.jobs.all() if not job.over]
    return page(
        request,
        "start.html",
        seen=seen,
        begun=papers,
        in_full=in_full,
        where=desk.folder,
        jobs=jobs,
        stopped=[] if jobs else [(desk.handles.of(one.path), one) for one in left],
    )


async def stopped(request: Request) -> Response:
    """Goes on with papers that a stopped run left unfinished, or throws them away."""
    desk, form = desk_of(request), await read_form(request)
    path = desk.handles.path(form.text("of"))
    found = [one for one in await run_in_threadpool(stopped_issues, desk.out) if one.path == path]
    if not found:
        return said(request, "These papers were finished or thrown away meanwhile.", to="/")
    if form.text("do") == "go on":
        return said(request, "", to=f"/work/{desk.go_on(found[0].path, found[0].title)}")
    await run_in_threadpool(throw_away, desk.out, found[0].path, Noted())
    return said(request, f"Thrown away: {found[0].title}, {count(found[0].papers, 'paper')}.", to="/")


async def folder(request: Request) -> Response:
    """The folders in one place, to choose from or to make one in."""
    desk = desk_of(request)
    asked = request.query_params.get("in")
    place = desk.handles.path(asked) if asked is not None else _usual_place(desk)
    if place is None:
        raise HTTPException(404)
    return await _folders(request, place)


async def choose(request: Request) -> Response:
    """Works in a folder that the page showed, or in a new one in it."""
    desk, form = desk_of(request), await read_form(request)
    place = desk.handles.path(form.text("in"))
    if place is None:
        raise HTTPException(404)
    if form.text("do") == "make":
        try:
            place = await run_in_threadpool(made_folder, place, form.text("name"))
        except FolderRefused as refused:
            return await _folders(request, place, trouble=str(refused), name=form.text("name"))
    desk.choose(place)
    return said(request, f"You work in {place} from now on.", to="/")


async def _folders(request: Request, place: Path, *, trouble: str = "", name: str = "") -> Response:
    desk = desk_of(request)
    inside = await run_in_threadpool(folders_in, place)
    return page(
        request,
        "folder.html",
        status=422 if trouble else 200,
        place=place,
        at=desk.handles.of(place),
        above=desk.handles.of(place.parent) if place.parent != place else "",
        inside=[(desk.handles.of(one.path), one) for one in inside],
        trouble=trouble,
        name=name,
    )


def _usual_place(desk: Desk) -> Path:
    return desk.folder.parent if desk.chosen else Path.home()


ROUTES = (
    Route("/", start),
    Route("/folder", folder),
    Route("/folder/choose", choose, methods=["POST"]),
    Route("/stopped", stopped, methods=["POST"]),
)
