"""Keep: how long each kind of data is kept, and what is past that. Nothing is deleted here."""

from __future__ import annotations

from datetime import date

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.render import page, said
from courseware.files.bank_files import NotFound
from courseware.workflows.keeping import keep_for, kept_times, months_typed, past_then


async def times(request: Request) -> Response:
    """The times as they are; asked with `kind` and `months`, what would be past then."""
    asked = request.query_params
    return await _times(request, asked.get("kind", ""), asked.get("months", ""))


async def keep(request: Request) -> Response:
    """Keeps a kind of data for so long."""
    desk, form = desk_of(request), await read_form(request)
    kind, typed, centre = form.text("kind"), form.text("months"), desk.settings().retention
    try:
        months = months_typed(typed)
        by = session_of(request).who
        new = await run_in_threadpool(keep_for, desk.record(), centre, kind, months, by=by)
    except NotFound as refused:
        return await _times(request, kind, typed, trouble=f"Nothing was changed: {refused}.")
    long = "always" if months is None else f"for {months} months after the sitting"
    return said(request, f"{kind}: kept {long}{'' if new else ', as before'}.", to="/keep/times")


async def _times(request: Request, kind: str, typed: str, *, trouble: str = "") -> Response:
    desk, today = desk_of(request), date.today()
    centre = desk.settings().retention
    kept = await run_in_threadpool(kept_times, desk.record(), centre, today)
    then = None
    if kind and not trouble:
        try:
            then = await run_in_threadpool(past_then, desk.record(), centre, today, kind, months_typed(typed))
        except NotFound as refused:
            trouble = f"{refused}."
    return page(
        request, "times.html", status=422 if trouble else 200, kept=kept, kind=kind, typed=typed, then=then,
        trouble=trouble,
    )  # fmt: skip


ROUTES = (Route("/keep/times", times), Route("/keep/times/keep", keep, methods=["POST"]))
