"""Keep: all that is kept of one learner, given out or deleted for good; addresses hold a paper's code, never a name."""

from __future__ import annotations

import hashlib
from datetime import date

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of
from courseware.desk.forms import read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.render import at_work, page, said
from courseware.files.bank_files import NotFound
from courseware.words import count
from courseware.workflows.erasing import erase, found_to_erase, what_goes, what_went
from courseware.workflows.export import export_everything
from courseware.workflows.keeping import papers_of
from courseware.workflows.watch import Watch

_ONWARD = (("Back to Keep", "/keep"),)


async def find(request: Request) -> Response:
    """Finds a learner by code, reference or name."""
    desk, who = desk_of(request), (await read_form(request)).text("who")
    try:
        papers = await run_in_threadpool(papers_of, desk.record(), who)
    except NotFound as refused:
        return page(request, "find_learner.html", status=422, trouble=f"{refused}.", who_typed=who)
    return said(request, "", to=f"/keep/learners/{papers[0].code}")


async def looked_for(request: Request) -> Response:
    """Who is looked for."""
    return page(request, "find_learner.html", trouble="", who_typed="")


async def learner(request: Request) -> Response:
    """The learner's papers, and what can be done with what is kept."""
    desk, code = desk_of(request), request.path_params["code"]
    papers = await run_in_threadpool(papers_of, desk.record(), code)
    return page(request, "kept_learner.html", code=code, papers=papers, out=desk.out)


async def export(request: Request) -> Response:
    """Writes all that is kept of the learner."""
    desk, code = desk_of(request), request.path_params["code"]
    url, out = desk.record(), desk.out
    await run_in_threadpool(papers_of, url, code)

    def work(watch: Watch) -> Made:
        folder, papers = export_everything(url, out, code, date.today().isoformat(), watch)
        return Made(
            says=f"Everything that the record has of this learner, {count(papers, 'paper')}, in {folder}.",
            more=("It shows the answers to the papers: read it before you hand it on.",),
            files=(
                MadeFile(path=folder / "learner.xlsx", use="to read"),
                MadeFile(path=folder / "learner.json", use="the same as data, with all that belongs to it"),
            ),
            onward=(("Back to the learner", f"/keep/learners/{code}"),),
        )

    return at_work(request, "All that is kept of a learner", work)


async def before_deleting(request: Request) -> Response:
    """What would be deleted, line by line."""
    desk, code = desk_of(request), request.path_params["code"]
    lines, more = await run_in_threadpool(_lines, desk, code)
    return page(request, "delete_learner.html", code=code, lines=lines, more=more, seen=_mark(lines), trouble="")


async def delete(request: Request) -> Response:
    """Deletes what was shown; where that is another by now, it is shown again."""
    desk, form, code = desk_of(request), await read_form(request), request.path_params["code"]
    lines, more = await run_in_threadpool(_lines, desk, code)
    trouble = "" if form.ticked("sure") else "Nothing was deleted: tick that you are sure."
    if form.text("seen") != _mark(lines):
        trouble = "Nothing was deleted: what there is of this learner has changed since you looked. Look again."
    if trouble:
        return page(
            request, "delete_learner.html", status=422, code=code, lines=lines, more=more, seen=_mark(lines),
            trouble=trouble,
        )  # fmt: skip

    url, out, elsewhere = desk.record(), desk.out, form.ticked("elsewhere")

    def work(watch: Watch) -> Made:
        with found_to_erase(url, out, code, (), elsewhere=elsewhere) as (engine, found):
            lines = what_went(erase(engine, found, watch))
        return Made(says="The learner is deleted for good.", more=lines, onward=_ONWARD)

    return at_work(request, "A learner deleted", work)


def _lines(desk: Desk, code: str) -> tuple[tuple[str, ...], int]:
    """What would be deleted, line by line; and how much there is outside the folder of work."""
    with found_to_erase(desk.record(), desk.out, code, ()) as (_, found):
        return what_goes(found), len(found.elsewhere)


def _mark(lines: tuple[str, ...]) -> str:
    """A short sign of what was shown."""
    return hashlib.sha256("\n".join(lines).encode("utf-8", "surrogateescape")).hexdigest()[:16]


ROUTES = (
    Route("/keep/learners", looked_for),
    Route("/keep/learners/find", find, methods=["POST"]),
    Route("/keep/learners/{code}", learner),
    Route("/keep/learners/{code}/export", export, methods=["POST"]),
    Route("/keep/learners/{code}/delete", before_deleting),
    Route("/keep/learners/{code}/delete/now", delete, methods=["POST"]),
)
