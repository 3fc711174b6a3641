"""Make papers: what was issued and what was begun; the steps from a class list to printed papers start here."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of
from courseware.desk.nav import Nav
from courseware.desk.render import page, said
from courseware.files.sitting_folders import SittingFolder, find_folders
from courseware.workflows.papers_begun import PapersBegun, begin_papers, begun, put_away
from courseware.workflows.sitting_at_hand import next_step

NAV = (Nav(title="Make papers", address="/papers", place=1),)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    where: SittingFolder
    next: str


async def papers(request: Request) -> Response:
    """Papers begun, and every sitting with what is to be done next."""
    desk = desk_of(request)
    found, kept = await run_in_threadpool(_look, desk.folder, desk.out)
    return page(request, "papers.html", sittings=found, begun=kept)


def _look(work: Path, out: Path) -> tuple[list[_Seen], tuple[tuple[str, PapersBegun], ...]]:
    found, _ = find_folders([out])
    latest = sorted(found, key=lambda one: (one.sitting.date, one.path), reverse=True)
    return [_Seen(where=one, next=next_step(one)) for one in latest], begun(work)


async def begin(request: Request) -> Response:
    """Begins new papers."""
    key = await run_in_threadpool(begin_papers, desk_of(request).folder)
    return said(request, "", to=f"/papers/{key}/who")


async def away(request: Request) -> Response:
    """Forgets papers begun."""
    await run_in_threadpool(put_away, desk_of(request).folder, request.path_params["key"])
    return said(request, "Put away. The class list is still there.", to="/papers")


ROUTES = (
    Route("/papers", papers),
    Route("/papers/begin", begin, methods=["POST"]),
    Route("/papers/{key}/away", away, methods=["POST"]),
)
