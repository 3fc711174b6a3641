"""Mark: a second marker's grid of scripts as written, the same as a plain form a script, and differences settled."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from courseware.database.errors import RecordRefuses
from courseware.database.typed_cells import CellKey, SavedCell
from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import Form, read_form
from courseware.desk.open_sittings import record_open, sitting_open
from courseware.desk.render import page, said
from courseware.desk.shown_parts import drawing_of, piece
from courseware.files.sitting_folders import SittingFolder
from courseware.quality.second_marking_sheet import about_differences, agreement_table, differences_by_code
from courseware.words import count
from courseware.workflows.marking_by_hand import (
    BesideMark,
    CannotSettle,
    HandGrid,
    beside_marks,
    hand_grid,
    keep_hand_mark,
    read_hand_mark,
    settle,
    settled_marks,
)
from courseware.workflows.marking_grid import CellRefused
from courseware.workflows.quality import compare_markers
from courseware.workflows.waiting import decided_words


async def grid(request: Request) -> Response:
    """The grid of the scripts that whoever sits here may mark as second marker."""
    return page(request, "second_grid.html", where=_where(request), grid=await _grid(request), marker=_who(request))


async def cell(request: Request) -> Response:
    """Keeps one mark; the answer says what stands there. Once it is sent the mark is on the disk."""
    where, form = _where(request), await read_form(request)
    try:
        saved = await _keep(request, where, _key(form), _whole(form, "text"))
    except (CellRefused, RecordRefuses) as refused:
        return JSONResponse({"saved": "refused", "why": str(refused)}, 422)
    return JSONResponse({"saved": saved.saved, "stands": saved.stands, "by": saved.by})


async def beside(request: Request) -> Response:
    """What stands beside a cell, as a piece of the grid's page."""
    asked = request.query_params
    parts = await _parts(request, asked.get("paper", ""), _number(asked.get("attempt", "1")))
    one = next((one for one in parts if one.label == asked.get("part", "")), None)
    if one is None:
        raise HTTPException(404)
    return piece(request, "second_beside.html", one=one, drawing=drawing_of(one.exercise))


async def reading(request: Request) -> Response:
    """How a mark is read while it is typed; nothing is kept."""
    asked, where = request.query_params, _where(request)
    key = (asked.get("paper", ""), _number(asked.get("attempt", "1")), asked.get("part", ""))
    text = asked.get("text", "")[:300]
    if not text.strip():
        return JSONResponse({"reading": "", "unclear": ""})
    engine = record_open(desk_of(request))
    try:
        mark = await run_in_threadpool(read_hand_mark, engine, where, key, text, marker=_who(request))
    except CellRefused as refused:
        return JSONResponse({"reading": "", "unclear": str(refused)})
    says = "taken back" if mark.withdrawn else count(mark.marks, "mark")
    why = mark.withdrawn or mark.note
    return JSONResponse({"reading": f"{says}: {why}" if why else says, "unclear": ""})


async def events(request: Request) -> Response:
    """What this marker typed since a number, in another window; a page asks for it by itself every few seconds."""
    found = await _grid(request)
    since = _number(request.query_params.get("since", "0"))
    rows = [
        {
            "paper": row.script.code,
            "attempt": row.script.attempt,
            "cells": [row.given.get(part.label, "") for part in row.script.parts],
        }
        for row in found.rows
    ]
    return JSONResponse({"newest": found.newest, "rows": rows if found.newest > since else [], "otherwise": []})


async def script(request: Request) -> Response:
    """One script as a plain form, each part with its question and key."""
    code, attempt = request.path_params["paper"], _number(request.path_params["attempt"])
    parts = await _parts(request, code, attempt)
    if not parts:
        raise HTTPException(404)
    keys = [(row.script.code, row.script.attempt) for row in (await _grid(request)).rows]
    at = keys.index((code, attempt))
    return page(
        request, "second_script.html", where=_where(request), code=code, attempt=attempt, parts=parts,
        marker=_who(request), before=keys[at - 1] if at else None, after=keys[at + 1] if at + 1 < len(keys) else None,
        drawings={one.exercise.asked.number: drawing_of(one.exercise) for one in parts},
    )  # fmt: skip


async def save_script(request: Request) -> Response:
    """Keeps the marks of a script that are others than the form showed; on to the next script where asked."""
    where, form = _where(request), await read_form(request)
    code, attempt = request.path_params["paper"], _number(request.path_params["attempt"])
    told: list[str] = []
    kept = 0
    for part in where.sitting.papers[0].parts:
        text = _whole(form, f"cell-{part.label}")
        if text == _whole(form, f"seen-{part.label}"):
            continue
        try:
            await _keep(request, where, (code, attempt, part.label), text)
        except (CellRefused, RecordRefuses) as refused:
            told.append(f"{part.label} was not kept: {refused}.")
            continue
        kept += 1
    onward = form.text("then") if not told else ""
    to = f"{_at(request)}/{onward or f'{code}/{attempt}'}"
    return said(request, " ".join([f"{count(kept, 'mark')} saved.", *told]), to=to)


async def differences(request: Request) -> Response:
    """How far the two agree, and what they marked differently, to settle one by one."""
    return await _differences(request)


async def settle_one(request: Request) -> Response:
    """Enters what two markers agreed of one part."""
    where, form, desk = _where(request), await read_form(request), desk_of(request)
    typed = (form.text("paper"), form.text("part"), form.text("marks"), form.text("reason"))
    engine, settings, now = record_open(desk), desk.settings(), datetime.now(UTC)
    seen = form.text("settled") if form.texts("settled") else None
    try:
        await run_in_threadpool(settle, engine, where, settings, typed, by=_who(request), at=now, seen=seen)
    except (CannotSettle, RecordRefuses) as wrong:
        return await _differences(request, trouble=f"Not settled: {wrong}.", typed=typed)
    told = f"Settled: {typed[0]}, {typed[1]}: {count(int(typed[2]), 'mark')}."
    return said(request, told, to=f"{_at(request)}/differences")


async def _differences(request: Request, trouble: str = "", typed: Sequence[str] = ("", "", "", "")) -> Response:
    where, desk = _where(request), desk_of(request)
    engine, settings = record_open(desk), desk.settings()
    found = await run_in_threadpool(compare_markers, engine, where.sitting.code, settings)
    return page(
        request, "second_differences.html", status=422 if trouble else 200, where=where, found=found,
        about=list(about_differences(found, where.sitting, datetime.now(UTC).date().isoformat()))[1:],
        figures=agreement_table(found) if found.compared else None,
        listed=differences_by_code(found, where.sitting, {}),
        settled=await run_in_threadpool(settled_marks, engine, where), in_words=decided_words,
        trouble=trouble, typed=typed,
    )  # fmt: skip


def _where(request: Request) -> SittingFolder:
    return sitting_open(desk_of(request), request.path_params["code"])


def _at(request: Request) -> str:
    return f"/sittings/{request.path_params['code']}/second"


def _who(request: Request) -> str:
    return session_of(request).who


async def _grid(request: Request) -> HandGrid:
    return await run_in_threadpool(hand_grid, record_open(desk_of(request)), _where(request), _who(request))


async def _parts(request: Request, code: str, attempt: int) -> tuple[BesideMark, ...]:
    engine, where = record_open(desk_of(request)), _where(request)
    return await run_in_threadpool(beside_marks, engine, where, code, attempt, marker=_who(request))


async def _keep(request: Request, where: SittingFolder, key: CellKey, text: str) -> SavedCell:
    engine, now = record_open(desk_of(request)), datetime.now(UTC)
    return await run_in_threadpool(keep_hand_mark, engine, where, key, text, marker=_who(request), at=now)


def _key(form: Form) -> CellKey:
    return form.text("paper"), _number(form.text("attempt")), form.text("part")


def _whole(form: Form, name: str) -> str:
    """A field exactly as typed."""
    return "".join(form.texts(name)[-1:])


def _number(text: str) -> int:
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 10 else 1


ROUTES = (
    Route("/sittings/{code}/second", grid),
    Route("/sittings/{code}/second/cell", cell, methods=["POST"]),
    Route("/sittings/{code}/second/beside", beside),
    Route("/sittings/{code}/second/reading", reading),
    Route("/sittings/{code}/second/events", events),
    Route("/sittings/{code}/second/differences", differences),
    Route("/sittings/{code}/second/settle", settle_one, methods=["POST"]),
    Route("/sittings/{code}/second/{paper}/{attempt}", script),
    Route("/sittings/{code}/second/{paper}/{attempt}/save", save_script, methods=["POST"]),
)
