"""What is done with a sitting that was issued: late joiners, a name put right, lost papers, a retake, another group."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import Form, read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.pages.papers_issue import made_of
from courseware.desk.pages.sittings import sitting_asked, sitting_page
from courseware.desk.render import at_work
from courseware.files.sitting_files import ALL_KEYS, ALL_PAPERS, key_file, paper_file
from courseware.files.sitting_folders import SittingFolder
from courseware.papers.group import Learner
from courseware.papers.names import LONGEST_NAME, LONGEST_REFERENCE, printable_text
from courseware.papers.sheet_format import FormatUnknown, read_format
from courseware.words import count
from courseware.workflows import changes, issuing
from courseware.workflows.class_lists import open_list
from courseware.workflows.issue import Issued, IssueOptions, group_of, issue_like, retake
from courseware.workflows.papers_begun import entries_wrong
from courseware.workflows.retaking import learners_of
from courseware.workflows.watch import Watch


async def join(request: Request) -> Response:
    """Papers for one learner, or for a class list, who come late."""
    desk, form = desk_of(request), await read_form(request)
    where, by = await sitting_asked(request), session_of(request).who
    file = (await run_in_threadpool(open_list, desk.folder, form.text("kept"))).file if form.text("kept") else None
    learner = None if file else _learner(form)
    if isinstance(learner, str):
        return await sitting_page(request, learner)

    def carry_out(watch: Watch) -> Made:
        joining = (learner,) if learner else group_of(file, 1, None, watch).learners
        changed = changes.join(str(where.path), joining, desk.processes, watch, by=by)
        return _changed(where, changed, f"{count(len(changed.papers), 'paper')} more; nobody else's changed.")

    return _started(request, f"{learner.name if learner else 'A class list'} joins: {where.sitting.title}", carry_out)


async def rename(request: Request) -> Response:
    """A name put right on paper, key and sheets."""
    desk, form = desk_of(request), await read_form(request)
    where, learner, code = await sitting_asked(request), _learner(form), form.text("paper")
    if isinstance(learner, str):
        return await sitting_page(request, learner)

    def carry_out(watch: Watch) -> Made:
        changed = changes.rename(str(where.path), code, learner.name, learner.reference, desk.processes, watch)
        return _changed(where, changed, f"{code} is {learner.name}'s now.")

    return _started(request, f"{learner.name}: {where.sitting.title}", carry_out)


async def again(request: Request) -> Response:
    """Papers and keys made again from the sitting's file, of one learner or of all: the same bytes, in a new folder."""
    desk, form = desk_of(request), await read_form(request)
    where, codes = await sitting_asked(request), form.texts("paper")
    papers = learners_of(where.sitting, codes)
    places = tuple(where.sitting.papers.index(paper) for paper in papers) if codes else ()

    def carry_out(watch: Watch) -> Made:
        with watch.progress("Printing", issuing.sheets_each(word=False) * len(papers)) as tell:
            folder = issuing.again(
                where.text, where.sitting, where.path.resolve().parent, desk.processes, tell, watch.waiting,
                places=places,
            )  # fmt: skip
        files = [_file(folder, paper_file(one.code), f"{one.learner.name or one.code}: print this.") for one in papers]
        if not places:
            files = [_file(folder, ALL_PAPERS, "Print this."), _file(folder, ALL_KEYS, "The keys, for you alone.")]
        return Made(says="Made again as it was issued.", files=tuple(files), onward=_onward(where))

    return _started(request, f"Made again: {where.sitting.title}", carry_out)


async def take_again(request: Request) -> Response:
    """A retake: the same exercises, in variants that the learner has not had."""
    form, where = await read_form(request), await sitting_asked(request)
    codes = form.texts("paper")
    if not codes:
        return await sitting_page(request, "Tick who takes it again.")
    return await _issued(request, lambda day, options, watch: retake(str(where.path), codes, day, options, watch))


async def like(request: Request) -> Response:
    """The same exercises for another group, dealt anew."""
    form, where = await read_form(request), await sitting_asked(request)
    file = (await run_in_threadpool(open_list, desk_of(request).folder, form.text("kept"))).file

    def issue(day: str, options: IssueOptions, watch: Watch) -> Issued:
        return issue_like(str(where.path), group_of(file, 1, None, watch), day, options, watch)

    return await _issued(request, issue)


async def _issued(request: Request, issue: Callable[[str, IssueOptions, Watch], Issued]) -> Response:
    """Another sitting from this one, on the day that the form says."""
    desk, form, where = desk_of(request), await read_form(request), await sitting_asked(request)
    if wrong := entries_wrong({"date": form.text("date")}):
        return await sitting_page(request, wrong["date"])
    options = IssueOptions(
        out=desk.out, settings=await run_in_threadpool(desk.settings), processes=desk.processes,
        by=session_of(request).who, approved_by=printable_text(form.text("approved_by"))[:LONGEST_NAME],
    )  # fmt: skip
    day = form.text("date") or date.today().isoformat()
    return _started(request, f"Papers: {where.sitting.title}", lambda watch: made_of((issue(day, options, watch),)))


def _started(request: Request, title: str, work: Callable[[Watch], Made]) -> Response:
    return at_work(request, title, work)


def _learner(form: Form) -> Learner | str:
    """The learner typed, or what is wrong with what was."""
    name, reference = printable_text(form.text("name")), printable_text(form.text("reference"))
    if not name or len(name) > LONGEST_NAME or len(reference) > LONGEST_REFERENCE:
        return f"Write a name of at most {LONGEST_NAME} characters, and a reference of at most {LONGEST_REFERENCE}."
    try:
        return Learner(name=name, reference=reference, sheets=read_format(form.text("sheets")))
    except FormatUnknown as unknown:
        return f"{unknown}."


def _changed(where: SittingFolder, changed: changes.Changed, says: str) -> Made:
    files: list[MadeFile] = []
    for paper in changed.papers:
        files.append(_file(changed.folder, paper_file(paper.code), f"{paper.learner.name}: print this."))
        files.append(_file(changed.folder, key_file(paper.code), "The key to it, for you alone."))
    return Made(says=says, files=tuple(files), onward=_onward(where))


def _file(folder: Path, name: str, use: str) -> MadeFile:
    return MadeFile(path=folder / name, use=use)


def _onward(where: SittingFolder) -> tuple[tuple[str, str], ...]:
    return ((f"Back to {where.sitting.title}", f"/sittings/{where.sitting.code}"),)


ROUTES = (
    Route("/sittings/{code}/join", join, methods=["POST"]),
    Route("/sittings/{code}/rename", rename, methods=["POST"]),
    Route("/sittings/{code}/again", again, methods=["POST"]),
    Route("/sittings/{code}/retake", take_again, methods=["POST"]),
    Route("/sittings/{code}/like", like, methods=["POST"]),
)
