"""See: the class picture, a starter on the whiteboard, one learner's page; marks confirmed and released."""

from __future__ import annotations

from collections.abc import Callable

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.class_report.heat_map import shade_step
from courseware.class_report.slip_bars import capital, counted
from courseware.database.errors import RecordRefuses
from courseware.database.states import Moved
from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.marking_work import files_of_marking
from courseware.desk.nav import Nav
from courseware.desk.open_sittings import first_marks_open, record_open, sitting_open
from courseware.desk.render import page, said
from courseware.desk.shown_parts import drawing_of, drawn, shown
from courseware.files.bank_files import NotFound
from courseware.files.sitting_files import feedback_file, key_file, paper_file
from courseware.files.sitting_folders import SittingFolder
from courseware.words import count
from courseware.workflows.folders_of_work import overview
from courseware.workflows.register import confirm_scripts, release_scripts, take_scripts_back
from courseware.workflows.seeing import class_on_screen, learner_on_screen, starter_on_screen


async def to_see(request: Request) -> Response:
    """The sittings of the folder of work, each with its class picture."""
    seen = await run_in_threadpool(overview, desk_of(request).folder)
    return page(request, "to_see.html", seen=seen)


async def picture(request: Request) -> Response:
    """The class picture of a sitting."""
    desk, where = desk_of(request), first_marks_open(request)
    seen = await run_in_threadpool(class_on_screen, record_open(desk), where)
    files = [(desk.handles.of(file.path), file) for file in files_of_marking(where)]
    pictures = [
        (block, shown(block.picture) if block.picture else None, bars)
        for block, bars in zip(seen.blocks, seen.bars, strict=True)
    ]
    states = {state: [one.code for one in seen.states if one.state == state] for state in _STATES}
    return page(
        request,
        "picture.html",
        where=where,
        seen=seen,
        pictures=pictures,
        files=files,
        states=states,
        known={paper.code for paper in where.sitting.papers},
        step=shade_step,
        counted=counted,
        capital=capital,
    )


async def learner(request: Request) -> Response:
    """One learner's page."""
    desk, code = desk_of(request), request.path_params["paper"]
    where = first_marks_open(request, code)
    try:
        seen = await run_in_threadpool(learner_on_screen, record_open(desk), where, code)
    except RecordRefuses:
        raise HTTPException(404) from None
    named = (
        (feedback_file(code), "feedback, to print and hand back"),
        (paper_file(code), "the paper"),
        (key_file(code), "its key"),
    )
    files = [(desk.handles.of(where.path / name), use) for name, use in named if (where.path / name).is_file()]
    drawings = {part.number: drawing_of(part.exercise) for part in seen.parts}
    return page(request, "learner.html", where=where, seen=seen, files=files, drawings=drawings)


async def board(request: Request) -> Response:
    """A starter, large, for the whiteboard; its answer once it is asked for."""
    where, number = _where(request), request.path_params["number"]
    try:
        slip, starter = await run_in_threadpool(starter_on_screen, record_open(desk_of(request)), where, number)
    except NotFound as none:
        return said(request, f"{str(none)[:1].upper()}{str(none)[1:]}.", to=f"/sittings/{where.sitting.code}/picture")
    return page(
        request,
        "board.html",
        where=where,
        slip=slip,
        number=number,
        starter=starter,
        drawing=drawn(starter.drawing) if starter.drawing else None,
        answered=request.query_params.get("show") == "answer",
    )


async def confirm(request: Request) -> Response:
    """Confirms every marked script of a sitting, or of one learner."""
    return await _move(request, "confirmed", confirm_scripts)


async def release(request: Request) -> Response:
    """Releases every confirmed script of a sitting, or of one learner."""
    return await _move(request, "released", release_scripts)


async def take_back(request: Request) -> Response:
    """Takes a confirmation or release back, for a reason."""
    reason = (await read_form(request)).text("reason")

    def back(*args: object, by: str) -> Moved:
        return take_scripts_back(*args, reason=reason, by=by)  # type: ignore[arg-type]

    return await _move(request, "taken back", back)


async def _move(request: Request, what: str, move: Callable[..., Moved]) -> Response:
    where, form = _where(request), await read_form(request)
    at = f"/sittings/{where.sitting.code}"
    paper = form.text("paper") if form.text("paper") in {one.code for one in where.sitting.papers} else ""
    to = f"{at}/learners/{paper}" if paper else f"{at}/picture#release"
    engine, who = record_open(desk_of(request)), session_of(request).who
    try:
        moved = await run_in_threadpool(move, engine, where.sitting.code, [paper] if paper else [], by=who)
    except (RecordRefuses, NotFound) as refused:
        return said(request, f"Not {what}: {refused}.", to=to)
    left = f" {count(len(moved.left), 'script')} left as they are." if moved.left else ""
    return said(request, f"{count(len(moved.codes), 'script')} {what}.{left}", to=to)


def _where(request: Request) -> SittingFolder:
    return sitting_open(desk_of(request), request.path_params["code"])


_STATES = ("entered", "provisional", "marked", "confirmed", "released")
NAV = (Nav(title="See", address="/see", place=4, also=r"/sittings/[^/]+/(picture|learners|board).*"),)
ROUTES = (
    Route("/see", to_see),
    Route("/sittings/{code}/picture", picture),
    Route("/sittings/{code}/learners/{paper}", learner),
    Route("/sittings/{code}/board/{number:int}", board),
    Route("/sittings/{code}/confirm", confirm, methods=["POST"]),
    Route("/sittings/{code}/release", release, methods=["POST"]),
    Route("/sittings/{code}/take-back", take_back, methods=["POST"]),
)
