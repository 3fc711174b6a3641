"""Make papers: what was issued and what was begun; the steps from a class list to printed papers start here."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.job_queue import Made
from courseware.desk.nav import Nav
from courseware.desk.open_sittings import record_there
from courseware.desk.pages.papers_issue import made_of
from courseware.desk.render import at_work, page, said
from courseware.files.sitting_files import APPROVED, DEALT
from courseware.files.sitting_folders import SittingFolder, find_folders
from courseware.papers.names import LONGEST_NAME, printable_text
from courseware.workflows.approval import waiting_for_approval
from courseware.workflows.issue import IssueOptions
from courseware.workflows.papers_begun import PapersBegun, begin_papers, begun, put_away
from courseware.workflows.print_approved import issue_approved
from courseware.workflows.sitting_at_hand import next_step
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from sqlalchemy import Engine

NAV = (Nav(title="Make papers", address="/papers", place=1, also=r"/sittings/[^/]+"),)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    where: SittingFolder
    next: str


async def papers(request: Request) -> Response:
    """Papers begun, and every sitting with what is to be done next."""
    desk = desk_of(request)
    found, kept = await run_in_threadpool(_look, desk.folder, desk.out, record_there(desk))
    dealt = await run_in_threadpool(waiting_for_approval, desk.out)
    waiting = [(desk.handles.of(one.path), desk.handles.of(one.path / APPROVED), one) for one in dealt]
    return page(request, "papers.html", sittings=found, begun=kept, waiting=waiting, longest_name=LONGEST_NAME)


def _look(work: Path, out: Path, engine: Engine | None) -> tuple[list[_Seen], tuple[tuple[str, PapersBegun], ...]]:
    found, _ = find_folders([out])
    latest = sorted(found, key=lambda one: (one.sitting.date, one.path), reverse=True)
    return [_Seen(where=one, next=next_step(one, engine)) for one in latest], begun(work)


async def begin(request: Request) -> Response:
    """Begins new papers."""
    key = await run_in_threadpool(begin_papers, desk_of(request).folder)
    return said(request, "", to=f"/papers/{key}/who")


async def away(request: Request) -> Response:
    """Forgets papers begun."""
    await run_in_threadpool(put_away, desk_of(request).folder, request.path_params["key"])
    return said(request, "Put away. The class list is still there.", to="/papers")


async def approved(request: Request) -> Response:
    """Prints papers as they were dealt, once somebody has approved them."""
    desk, form = desk_of(request), await read_form(request)
    folder, name = desk.handles.path(form.text("dealt")), printable_text(form.text("approved_by"))
    if folder is None or not (folder / DEALT).is_file():
        return said(request, "These papers do not wait for approval any more.", to="/papers")
    if not name or len(name) > LONGEST_NAME:
        return said(request, f"Write who approved them, in at most {LONGEST_NAME} characters.", to="/papers")
    options = IssueOptions(
        out=desk.out, settings=await run_in_threadpool(desk.settings), processes=desk.processes, approved_by=name,
        by=session_of(request).who,
    )  # fmt: skip

    def carry_out(watch: Watch) -> Made:
        return made_of((issue_approved(folder, options, watch),))

    return at_work(request, f"Papers approved by {name}", carry_out)


ROUTES = (
    Route("/papers", papers),
    Route("/papers/begin", begin, methods=["POST"]),
    Route("/papers/approved", approved, methods=["POST"]),
    Route("/papers/{key}/away", away, methods=["POST"]),
)
