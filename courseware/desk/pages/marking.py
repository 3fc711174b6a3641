"""Mark: the sittings to mark, the grid of one, a form a learner for those without scripts, and marking as long work."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from courseware.database.entering import STATUS
from courseware.database.errors import RecordRefuses
from courseware.database.typed_cells import Otherwise, SavedCell, TypedCell
from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import Form, read_form
from courseware.desk.marking_work import mark_and_tell
from courseware.desk.nav import Nav
from courseware.desk.open_sittings import first_marks_open, record_open, sitting_open
from courseware.desk.render import at_work, page, said
from courseware.desk.shown_parts import drawing_of, piece
from courseware.files.sitting_folders import SittingFolder
from courseware.workflows.folders_of_work import overview
from courseware.workflows.marking_grid import (
    BesideCell,
    CellRefused,
    beside_cell,
    beside_script,
    keep_cell,
    marking_grid,
    typed_since,
)

if TYPE_CHECKING:
    from courseware.desk.job_queue import Made
    from courseware.workflows.watch import Watch


async def to_mark(request: Request) -> Response:
    """The sittings of the folder of work, each with its ways of marking."""
    seen = await run_in_threadpool(overview, desk_of(request).folder)
    return page(request, "to_mark.html", seen=seen)


async def grid(request: Request) -> Response:
    """The grid of the whole class."""
    where, engine = first_marks_open(request), record_open(desk_of(request))
    whole = await run_in_threadpool(marking_grid, engine, where)
    return page(
        request,
        "grid.html",
        where=where,
        grid=whole,
        otherwise={(one.code, one.attempt, one.label) for one in whole.otherwise},
        others=[_told(one) for one in whole.otherwise],
        by_code={row.code: row for row in whole.rows},
    )


async def cell(request: Request) -> Response:
    """Keeps one cell; the answer says what stands there. Once it is sent the cell is on the disk."""
    where, form = _where(request), await read_form(request)
    try:
        saved = await _keep(request, where, _typed(form))
    except (CellRefused, RecordRefuses) as refused:
        return JSONResponse({"saved": "refused", "why": str(refused)}, 422)
    return JSONResponse({"saved": saved.saved, "stands": saved.stands, "by": saved.by})


async def settle(request: Request) -> Response:
    """Settles a cell that two typed differently; back to the cell."""
    where, form = _where(request), await read_form(request)
    typed = _typed(form, settles=True)
    back = f"/sittings/{where.sitting.code}/grid/{typed.code}/{typed.attempt}"
    try:
        saved = await _keep(request, where, typed)
    except (CellRefused, RecordRefuses) as refused:
        return said(request, f"Not settled: {refused}.", to=back)
    if saved.saved == "otherwise":
        return said(request, f"Not settled: {saved.by} typed {saved.stands or 'nothing'} meanwhile.", to=back)
    return said(request, f"Settled: {typed.label or 'the status'} is {saved.stands or 'blank'}.", to=back)


async def beside(request: Request) -> Response:
    """What stands beside a cell, as a piece of the grid's page."""
    found = await _beside(request, None)
    return piece(request, "beside.html", one=found, drawing=drawing_of(found.exercise), where=_where(request))


async def reading(request: Request) -> Response:
    """How a cell is read while it is typed; nothing is kept."""
    found = await _beside(request, request.query_params.get("text", "")[:300])
    mark = found.read.mark
    told = {"reading": found.read.reading, "unclear": found.read.unclear, "carried": found.read.carried}
    if mark is not None:
        told |= {"marks": f"{mark.marks} of {mark.of}", "how": mark.how, "why": mark.why}
    return JSONResponse(told)


async def events(request: Request) -> Response:
    """What was typed since a number, by whomever; a page asks for it by itself every few seconds."""
    where, engine = _where(request), record_open(desk_of(request))
    since = await run_in_threadpool(typed_since, engine, where, _number(request.query_params.get("since", "0")))
    rows = [{"paper": r.code, "attempt": r.attempt, "cells": [r.status, *r.cells]} for r in since.rows]
    told = {"newest": since.newest, "rows": rows, "otherwise": [_told(one) for one in since.otherwise]}
    return JSONResponse(told)


async def script(request: Request) -> Response:
    """One learner's script as a plain form, each part with its question and key."""
    code = request.path_params["paper"]
    where = first_marks_open(request, code)
    attempt = _number(request.path_params["attempt"])
    try:
        found = await run_in_threadpool(beside_script, record_open(desk_of(request)), where, code, attempt)
    except RecordRefuses:
        raise HTTPException(404) from None
    whole = await run_in_threadpool(marking_grid, record_open(desk_of(request)), where)
    own = [row for row in whole.rows if row.code == code]
    numbers = [row.code for row in whole.rows if row.attempt == 1]
    at = numbers.index(code)
    return page(
        request,
        "script.html",
        where=where,
        code=code,
        attempt=attempt,
        parts=found,
        drawings={one.exercise.asked.number: drawing_of(one.exercise) for one in found},
        stands=next((row.status for row in own if row.attempt == attempt), ""),
        attempts=sorted({row.attempt for row in own} | {attempt}),
        before=numbers[at - 1] if at else "",
        after=numbers[at + 1] if at + 1 < len(numbers) else "",
    )


async def save_script(request: Request) -> Response:
    """Keeps the cells of a script that are others than the form showed; on to the next learner where asked."""
    where, form, code = _where(request), await read_form(request), request.path_params["paper"]
    attempt = _number(request.path_params["attempt"])
    back = f"/sittings/{where.sitting.code}/grid/{code}/{attempt}"
    told: list[str] = []
    kept = 0
    for label in (STATUS, *(part.label for part in where.sitting.papers[0].parts)):
        if not form.texts(f"cell-{label}"):
            continue
        text, seen = form.texts(f"cell-{label}")[-1], "".join(form.texts(f"seen-{label}")[-1:])
        if text == seen:
            continue
        typed = TypedCell(code=code, attempt=attempt, label=label, text=text, seen=seen)
        try:
            saved = await _keep(request, where, typed)
        except (CellRefused, RecordRefuses) as refused:
            told.append(f"{label or 'status'} was not kept: {refused}.")
            continue
        kept += 1
        if saved.saved == "otherwise":
            told.append(
                f"{label or 'status'}: {saved.by} typed {saved.stands or 'nothing'} meanwhile, which stands; "
                "yours is kept beside it."
            )
    says = " ".join([f"{kept} {'cell' if kept == 1 else 'cells'} saved.", *told])
    onward = form.text("then")
    return said(request, says, to=f"/sittings/{where.sitting.code}/grid/{onward}/1" if onward and not told else back)


async def mark(request: Request) -> Response:
    """Marks the sitting and writes what is handed back, as `courseware mark` does."""
    desk, where, who = desk_of(request), _where(request), session_of(request).who
    names = (await read_form(request)).ticked("names")
    processes = desk.processes

    def work(watch: Watch) -> Made:
        return mark_and_tell(where, watch, assessor=who, names=names, processes=processes)

    return at_work(request, f"Marking {where.sitting.title}", work)


def _where(request: Request) -> SittingFolder:
    return sitting_open(desk_of(request), request.path_params["code"])


async def _keep(request: Request, where: SittingFolder, typed: TypedCell) -> SavedCell:
    engine, who = record_open(desk_of(request)), session_of(request).who
    return await run_in_threadpool(keep_cell, engine, where, typed, assessor=who, at=datetime.now(UTC))


async def _beside(request: Request, text: str | None) -> BesideCell:
    asked = request.query_params
    key = (asked.get("paper", ""), _number(asked.get("attempt", "1")), asked.get("part", ""))
    where = first_marks_open(request, key[0])
    try:
        return await run_in_threadpool(beside_cell, record_open(desk_of(request)), where, key, text)
    except RecordRefuses:
        raise HTTPException(404) from None


def _typed(form: Form, *, settles: bool = False) -> TypedCell:
    """The cell in a form; its text exactly as typed."""
    whole = {name: "".join(form.texts(name)[-1:]) for name in ("text", "seen")}
    code, label = form.text("paper"), form.text("part")
    return TypedCell(code=code, attempt=_number(form.text("attempt")), label=label, settles=settles, **whole)


def _told(one: Otherwise) -> Mapping[str, Any]:
    return {
        "paper": one.code, "attempt": one.attempt, "part": one.label, "stands": one.stands,
        "stands_by": one.stands_by, "text": one.text, "by": one.by,
    }  # fmt: skip


def _number(text: str) -> int:
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 10 else 1


NAV = (Nav(title="Mark", address="/mark", place=3, also=r"/sittings/[^/]+/(grid|waiting|second).*"),)
ROUTES = (
    Route("/mark", to_mark),
    Route("/sittings/{code}/grid", grid),
    Route("/sittings/{code}/grid/cell", cell, methods=["POST"]),
    Route("/sittings/{code}/grid/settle", settle, methods=["POST"]),
    Route("/sittings/{code}/grid/beside", beside),
    Route("/sittings/{code}/grid/reading", reading),
    Route("/sittings/{code}/grid/events", events),
    Route("/sittings/{code}/grid/{paper}/{attempt}", script),
    Route("/sittings/{code}/grid/{paper}/{attempt}/save", save_script, methods=["POST"]),
    Route("/sittings/{code}/mark", mark, methods=["POST"]),
)
