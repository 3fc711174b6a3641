"""Long work: all of it in a list, and each with how far it is and what came of it."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of
from courseware.desk.guard import cookies_of
from courseware.desk.job_queue import Job
from courseware.desk.render import page, said

_LOOK = 0.2  # seconds between two looks at work that somebody watches
_STILL_HERE = 15.0  # seconds after which a silent stream says that it is there


async def all_work(request: Request) -> Response:
    """All work of this run of the desk."""
    return page(request, "all_work.html", jobs=desk_of(request).jobs.all())


async def work(request: Request) -> Response:
    """One piece of work."""
    desk, job = desk_of(request), _job(request)
    files = [(desk.handles.of(file.path), file) for file in job.made.files] if job.made else []
    return page(request, "work.html", job=job, files=files)


async def stop(request: Request) -> Response:
    """Asks it to end."""
    job = _job(request)
    desk_of(request).jobs.stop(job.id)
    return said(request, "", to=f"/work/{job.id}")


async def events(request: Request) -> Response:
    """How far it is, as it goes on: server-sent events (HTML Living Standard, section 9.2)."""
    return StreamingResponse(
        _told(desk_of(request), _job(request), cookies_of(request)), media_type="text/event-stream"
    )


async def _told(desk: Desk, job: Job, cookies: tuple[str, ...]) -> AsyncIterator[str]:
    told, silent = -1, 0.0
    while any(desk.sessions.find(cookie, touch=False) for cookie in cookies):
        if told != job.told:
            told, silent = job.told, 0.0
            yield f"data: {json.dumps(job.seen())}\n\n"
            if job.over:
                return
        elif silent >= _STILL_HERE:
            silent = 0.0
            yield ": still here\n\n"
        await asyncio.sleep(_LOOK)
        silent += _LOOK


def _job(request: Request) -> Job:
    job = desk_of(request).jobs.find(request.path_params["id"])
    if job is None:
        raise HTTPException(404)
    return job


ROUTES = (
    Route("/work", all_work),
    Route("/work/{id}", work),
    Route("/work/{id}/stop", stop, methods=["POST"]),
    Route("/work/{id}/events", events),
)
