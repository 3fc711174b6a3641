"""A practical task chosen value by value, its elevation beside it; saved as the tutor's own, its sheets printed."""

from __future__ import annotations

from datetime import date
from functools import partial
from pathlib import Path
from urllib.parse import urlencode

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of
from courseware.desk.forms import Form, read_form
from courseware.desk.job_fields import FIELDS, GROUPS, LONGEST, MEASURED, choices_of, offered, shown, typed
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.job_seen import JobSeen, job_seen, nearest, small_picture
from courseware.desk.nav import Nav
from courseware.desk.render import at_work, page, said
from courseware.desk.shelf import Shelf
from courseware.desk.templates import html, templates
from courseware.files.bank_files import shipped_notes
from courseware.files.own_files import ChangedMeanwhile
from courseware.jobs.task import Task
from courseware.settings.settings import Settings
from courseware.text_files.faults import FileFaulty
from courseware.workflows.class_lists import kept_lists
from courseware.workflows.jobs import has_worksheets, profiles_beside, write_job
from courseware.workflows.own_jobs import (
    JOBS,
    JobCannotBe,
    JobText,
    changed,
    examples,
    open_example,
    open_own,
    own_jobs,
    save_changed,
    save_job,
    task_of,
    tried,
)
from courseware.workflows.watch import Watch

SHELF = Shelf(address="/jobs", shipped="examples", open_own=open_own, open_shipped=open_example)
NAV = (Nav(title="Job", address="/jobs", place=5),)
_SHEETS = {
    "job-sheet.pdf": "for whoever builds it: drawings, figures in the order of use, sequence",
    "templates.pdf": "templates and gauge rod at true size: print at 100 % and measure both lines",
    "stores-order.pdf": "for the stores: what is ordered, for one bay and for the class",
    "stores-order.xlsx": "the same order as a workbook",
    "risk-prompts.pdf": "prompts for a named assessor; no finished assessment",
    "observation-sheet.pdf": "for the assessor, to fill in by hand",
    "observation-sheet.xlsx": "for the assessor, says pass or fail as figures are typed",
}


async def jobs(request: Request) -> Response:
    """The tutor's own jobs, and the shipped ones to begin from."""
    desk = desk_of(request)
    own, shipped = await run_in_threadpool(lambda: (own_jobs(desk.folder), examples()))
    return page(request, "jobs.html", own=own, shipped=shipped)


async def job(request: Request) -> Response:
    """A job's form with its elevation, as the file or the address has its values."""
    return await _shown(request, await SHELF.opened(request))


async def drawing(request: Request) -> Response:
    """The part of the page that changes with the values: elevation and figures, or why it cannot be built."""
    found, asked = await SHELF.opened(request), _asked(request)
    seen = await run_in_threadpool(_seen, desk_of(request), found, asked)
    links, near = _links(request, seen, asked), _near(request, found, asked)
    text = templates().get_template("job_drawing.html").render(seen=seen, links=links, near=near)
    return html(text)


async def picture(request: Request) -> Response:
    """A job as it is saved, small: its elevation as an SVG; there is none of one that cannot be built."""
    found, desk = await SHELF.opened(request), desk_of(request)
    try:
        drawn = await run_in_threadpool(lambda: small_picture(task_of(found, desk.settings())))
    except (JobCannotBe, FileFaulty):
        raise HTTPException(404) from None
    return Response(drawn, media_type="image/svg+xml")


async def draw(request: Request) -> Response:
    """Draws it anew without JavaScript: goes on to the address that has the values."""
    return said(request, "", to=f"{SHELF.at(request)}?{urlencode(_fields(await read_form(request)))}")


async def save(request: Request) -> Response:
    """Saves the tutor's own job over itself; what the form does not show stays."""
    found, form, desk = await SHELF.opened(request), await read_form(request), desk_of(request)
    try:
        text = changed(found, _changes(found, form))
        await run_in_threadpool(save_changed, found, text, form.text("was"), desk.settings())
    except JobCannotBe:
        return await _shown(request, found, form=form, told="It cannot be built as it stands, so nothing was saved.")
    except ChangedMeanwhile as meanwhile:
        told = f"Nothing was saved: {meanwhile}. Save it as a new job, or load the page again."
        return await _shown(request, found, form=form, told=told, status=409)
    return said(request, "Saved.", to=SHELF.at(request))


async def save_new(request: Request) -> Response:
    """Saves it as a new job of the tutor's own."""
    found, form, desk = await SHELF.opened(request), await read_form(request), desk_of(request)
    try:
        title = form.text("job")[:LONGEST]
        text = changed(found, _changes(found, form))
        name = await run_in_threadpool(save_job, desk.folder, title, text, desk.settings())
    except JobCannotBe:
        return await _shown(request, found, form=form, told="It cannot be built as it stands, so nothing was saved.")
    return said(request, f"Saved as a job of your own: {title}.", to=f"/jobs/own/{name}")


async def sheets(request: Request) -> Response:
    """Prints the sheets of a job as it is saved."""
    found, desk = await SHELF.opened(request), desk_of(request)
    try:
        task = await run_in_threadpool(task_of, found, desk.settings())
    except JobCannotBe:
        return await _shown(request, found, told="It cannot be built as it is saved, so it has no sheets yet.")
    work = partial(_print, task, desk.out, SHELF.at(request))
    return at_work(request, f"Sheets of the job: {task.shape.job}", work)


def _print(task: Task, out: Path, at: str, watch: Watch) -> Made:
    with watch.progress("Printing the sheets of the job", 1) as tell:
        folder = write_job(task, shipped_notes(), date.today().isoformat(), out, watch.waiting)
        tell(1)
    files = tuple(MadeFile(path=folder / name, use=use) for name, use in _SHEETS.items())
    onward = (("Enter what was measured and judged", f"{at}/results"), ("Back to the job", at))
    return Made(says=f"The sheets of the job are in {folder.name}.", files=files, onward=onward)


def _fields(form: Form) -> dict[str, str]:
    return {name: form.text(name)[:LONGEST] for name in (*FIELDS, *MEASURED) if name in form.fields}


def _asked(request: Request) -> dict[str, str]:
    """The values that stand in the address."""
    sent = request.query_params
    return {name: sent[name][:LONGEST] for name in (*FIELDS, *MEASURED) if name in sent}


def _changes(found: JobText, form: Form) -> dict[tuple[str, ...], str | None]:
    fields = _fields(form)
    return typed(lambda name: fields[name], fields.__contains__, found.values)


def _seen(desk: Desk, found: JobText, asked: dict[str, str]) -> JobSeen:
    settings: Settings = desk.settings()
    text = changed(found, typed(lambda name: asked[name], asked.__contains__, found.values))
    return job_seen(tried(found, text, desk.folder, settings))


def _links(request: Request, seen: JobSeen, asked: dict[str, str]) -> list[tuple[str, str]]:
    """What would work, each in words and as the address that has it."""
    found = []
    for one in seen.instead:
        words, value = offered(one)
        found.append((words, f"{SHELF.at(request)}?{urlencode({**asked, '.'.join(one.key): value})}"))
    return found


def _near(request: Request, found: JobText, asked: dict[str, str]) -> list[tuple[str, str]]:
    """The openings nearest to one measured on site, each in words and as the address that has it."""
    words = nearest(asked, asked.get("format", shown(found.values)["format"]))
    return [(says, f"{SHELF.at(request)}?{urlencode({**asked, field: value})}") for field, value, says in words]


async def _shown(
    request: Request, found: JobText, *, form: Form | None = None, told: str = "", status: int = 422
) -> Response:
    """The form, with what the address or a form that was refused asks for."""
    desk = desk_of(request)
    asked = _fields(form) if form else _asked(request)
    seen = await run_in_threadpool(_seen, desk, found, asked)
    lists = await run_in_threadpool(kept_lists, desk.folder)
    profiles = [one.name for one in await run_in_threadpool(profiles_beside, desk.folder / JOBS)]
    values = {**dict.fromkeys(MEASURED, ""), **shown(found.values), **asked}
    return page(
        request, "job.html", status=status if told else 200, job=found, address=SHELF.at(request),
        own=SHELF.is_own(request), groups=GROUPS, values=values, told=told, seen=seen,
        changed=bool(asked) and any(values[name] != shown(found.values)[name] for name in asked if name in FIELDS),
        links=_links(request, seen, asked), near=_near(request, found, asked), lists=lists,
        worksheets=has_worksheets(values["format"]), longest=LONGEST,
        choices={name: choices_of(field, values[name], profiles) for name, field in FIELDS.items() if field.choices},
    )  # fmt: skip


ROUTES = (
    Route("/jobs", jobs),
    Route("/jobs/{whose}/{name}", job),
    Route("/jobs/{whose}/{name}/drawing", drawing),
    Route("/jobs/{whose}/{name}/picture", picture),
    Route("/jobs/{whose}/{name}/draw", draw, methods=["POST"]),
    Route("/jobs/{whose}/{name}/new", save_new, methods=["POST"]),
    Route("/jobs/{whose}/{name}/sheets", sheets, methods=["POST"]),
    Route("/jobs/own/{name}/save", save, methods=["POST"]),
)
