"""Keep: what the record knows of every paper; scripts confirmed and released."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.database.register import ENTRIES
from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.nav import Nav
from courseware.desk.render import page, said
from courseware.files.bank_files import NotFound
from courseware.words import count, listed
from courseware.workflows.keeping import MOVES, enter_in_register, kept_sittings, move_scripts, register_shown

NAV = (Nav(title="Keep", address="/keep", place=7, also=r"/sittings/[^/]+/markers"),)
_SAID = {"confirm": "confirmed", "release": "released", "take back": "taken back"}
_ENTRIES = {
    "absent": "was absent (say why)",
    "late": "hands in later (say why, and until when)",
    "resubmission": "hands in again (say until when)",
    "withdrawn": "the paper is withdrawn (say why)",
    "back": "take back what was entered last (say why)",
}


async def keep(request: Request) -> Response:
    """All that is kept, and what can be done with it."""
    return page(request, "keep.html", sittings=await run_in_threadpool(kept_sittings, desk_of(request).record()))


async def register(request: Request) -> Response:
    """The register of one sitting."""
    return await _register(request)


async def enter(request: Request) -> Response:
    """Enters something of one paper."""
    desk, form, code = desk_of(request), await read_form(request), request.path_params["code"]
    entry, paper = form.text("entry"), form.text("paper")
    try:
        if entry not in ENTRIES[1:]:
            raise NotFound("choose what happened")
        by, due, reason = session_of(request).who, form.text("until"), form.text("reason")
        stands = await run_in_threadpool(enter_in_register, desk.record(), code, paper, entry, due, reason, by=by)
    except NotFound as refused:
        return await _register(request, trouble=f"Nothing was entered: {refused}.", typed=form.fields)
    return said(request, f"{paper} stands as {stands}.", to=f"/keep/register/{code}")


async def move(request: Request) -> Response:
    """Confirms, releases or takes back scripts."""
    desk, form, code = desk_of(request), await read_form(request), request.path_params["code"]
    asked = form.text("move")
    whose = [form.text("whose")] if form.text("whose") else []
    try:
        if asked not in MOVES:
            raise NotFound("choose what to do")
        by = session_of(request).who
        moved = await run_in_threadpool(move_scripts, desk.record(), code, whose, asked, form.text("reason"), by=by)
    except NotFound as refused:
        return await _register(request, trouble=f"Nothing was changed: {refused}.", typed=form.fields)
    left = f" Not {listed([f'{one.code}, {one.words}' for one in moved.left])}." if moved.left else ""
    return said(request, f"{count(len(moved.codes), 'script')} {_SAID[asked]}.{left}", to=f"/keep/register/{code}")


async def _register(request: Request, *, trouble: str = "", typed: object = None) -> Response:
    desk, code = desk_of(request), request.path_params["code"]
    head, lines = await run_in_threadpool(register_shown, desk.record(), code)
    states = [line.script.state for line in lines if line.script is not None and line.paper.scripts]
    return page(
        request, "register.html", status=422 if trouble else 200, head=head, lines=lines, entries=_ENTRIES,
        counted={state: states.count(state) for state in ("provisional", "marked", "confirmed", "released")},
        trouble=trouble, typed=typed or {},
    )  # fmt: skip


ROUTES = (
    Route("/keep", keep),
    Route("/keep/register/{code}", register),
    Route("/keep/register/{code}/enter", enter, methods=["POST"]),
    Route("/keep/register/{code}/move", move, methods=["POST"]),
)
