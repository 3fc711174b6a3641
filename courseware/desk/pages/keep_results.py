"""Keep: what a quality assurer found in a sample, entered from the plan's workbook; actions listed until closed."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.database.sample_results import Assured, results_of
from courseware.desk.desk import Desk, desk_of
from courseware.desk.forms import read_form
from courseware.desk.render import page, said
from courseware.desk.samples import keep_sent
from courseware.files.bank_files import NotFound
from courseware.files.record_location import opened
from courseware.quality.sample_results import LONGEST, SampleResult, open_actions
from courseware.text_files.faults import FileFaulty
from courseware.words import count
from courseware.workflows.keeping import record_there
from courseware.workflows.quality import close_action, enter_results, look_at_results

if TYPE_CHECKING:
    from collections.abc import Mapping

_AT = "/keep/results"


async def results(request: Request) -> Response:
    """Open actions, all that was found so far, and the form for a workbook."""
    return await _shown(request)


async def look(request: Request) -> Response:
    """What a workbook says, and what entering it does; nothing is entered."""
    desk, upload = desk_of(request), (await read_form(request)).upload("plan")
    if upload is None:
        return await _shown(request, told=("First choose the workbook of a sample that was filled in.",))
    sheet = await run_in_threadpool(keep_sent, upload)
    try:
        does = await run_in_threadpool(_look, desk, sheet)
    except (FileFaulty, NotFound) as faulty:
        return await _shown(request, told=(*str(faulty).splitlines(), "Nothing was entered."))
    return await _shown(request, does=does, handle=desk.handles.of(sheet), file=sheet.name)


async def enter(request: Request) -> Response:
    """Enters the workbook that was looked at."""
    desk = desk_of(request)
    sheet = desk.handles.path((await read_form(request)).text("sheet"))
    if sheet is None or not sheet.is_file():
        return await _shown(request, told=("That workbook is not here any more: choose it again.",))
    try:
        done = await run_in_threadpool(_enter, desk, sheet)
    except (FileFaulty, NotFound) as faulty:
        return await _shown(request, told=(*str(faulty).splitlines(), "Nothing was entered."))
    entered = f"{_in_words(done)}: entered." if done.new or done.changed else "All was there already."
    return said(request, entered, to=_AT)


async def close(request: Request) -> Response:
    """Closes an action."""
    desk, form = desk_of(request), await read_form(request)
    code, plan, day = form.text("paper"), form.text("plan"), form.text("day")

    def work() -> SampleResult:
        with opened(desk.record(), make=False) as engine:
            return close_action(engine, code, plan, day=day, note=form.text("note"))

    try:
        closed = await run_in_threadpool(work)
    except NotFound as refused:
        return await _shown(request, told=(f"Nothing was closed: {refused}.",), typed=form.fields)
    return said(request, f"The action on {closed.code} is closed.", to=_AT)


def _look(desk: Desk, sheet: Path) -> Assured:
    with opened(desk.record(), make=False) as engine:
        return look_at_results(engine, sheet)


def _enter(desk: Desk, sheet: Path) -> Assured:
    with opened(desk.record(), make=False) as engine:
        return enter_results(engine, sheet)


def _standing(desk: Desk) -> Sequence[SampleResult]:
    with record_there(desk.record()) as engine:
        return results_of(engine) if engine is not None else ()


def _in_words(does: Assured) -> str:
    return f"{count(len(does.new), 'result')} new, {len(does.changed)} changed"


async def _shown(
    request: Request,
    *,
    told: Sequence[str] = (),
    does: Assured | None = None,
    handle: str = "",
    file: str = "",
    typed: Mapping[str, tuple[str, ...]] | None = None,
) -> Response:
    found = await run_in_threadpool(_standing, desk_of(request))
    return page(
        request, "results.html", status=422 if told else 200, told=told, open_ones=open_actions(found), found=found,
        does=does, handle=handle, file=file, today=date.today().isoformat(), longest=LONGEST, typed=typed or {},
    )  # fmt: skip


ROUTES = (
    Route(_AT, results),
    Route(f"{_AT}/look", look, methods=["POST"]),
    Route(f"{_AT}/enter", enter, methods=["POST"]),
    Route(f"{_AT}/close", close, methods=["POST"]),
)
