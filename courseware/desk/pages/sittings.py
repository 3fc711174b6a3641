"""One sitting's page: its files with what each is for, its learners, and what can be done with them."""

from __future__ import annotations

from datetime import date

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of
from courseware.desk.open_sittings import record_there
from courseware.desk.render import page
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import SittingFolder, folder_of
from courseware.papers.codes import read_code
from courseware.papers.dates import in_full
from courseware.papers.names import LONGEST_NAME, LONGEST_REFERENCE
from courseware.workflows.approval import REQUIRED
from courseware.workflows.class_lists import kept_lists
from courseware.workflows.sitting_at_hand import next_step, sitting_at_hand


async def sitting(request: Request) -> Response:
    """The sitting's files and learners."""
    return await sitting_page(request)


async def sitting_page(request: Request, trouble: str = "") -> Response:
    """The page, with what was wrong with a form on it."""
    where = await sitting_asked(request)
    desk = desk_of(request)
    return page(
        request,
        "sitting.html",
        status=422 if trouble else 200,
        sitting=where.sitting,
        found=await run_in_threadpool(sitting_at_hand, where),
        where=where.path,
        day=in_full(where.sitting.date),
        due=in_full(where.sitting.due) if where.sitting.due else "",
        next_step=await run_in_threadpool(next_step, where, record_there(desk)),
        handle=desk.handles.of,
        lists=await run_in_threadpool(kept_lists, desk.folder),
        rename=read_code(request.query_params.get("rename", "")) or "",
        approval_required=(await run_in_threadpool(desk.settings)).approval == REQUIRED,
        today=date.today().isoformat(),
        longest_name=LONGEST_NAME,
        longest_reference=LONGEST_REFERENCE,
        trouble=trouble,
    )


async def sitting_asked(request: Request) -> SittingFolder:
    """The sitting whose code stands in the address."""
    try:
        return await run_in_threadpool(folder_of, desk_of(request).out, request.path_params["code"])
    except NotFound:
        raise HTTPException(404) from None


ROUTES = (Route("/sittings/{code}", sitting),)
