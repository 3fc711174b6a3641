"""Worksheets on a job's own figures, issued for a class list of the folder of work or as numbered papers."""

from __future__ import annotations

from datetime import date
from functools import partial
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.job_queue import Made
from courseware.desk.pages.jobs import SHELF
from courseware.desk.pages.papers_issue import made_of
from courseware.desk.render import at_work, said
from courseware.jobs.task import Task
from courseware.workflows.class_lists import kept_lists, open_list
from courseware.workflows.issue import IssueOptions, group_of, issue_worksheet
from courseware.workflows.own_jobs import JobCannotBe, task_of
from courseware.workflows.watch import Watch

_MOST = 1000  # numbered papers, as the commands take


async def issue(request: Request) -> Response:
    """Issues worksheets of the job as it is saved."""
    found, form, desk = await SHELF.opened(request), await read_form(request), desk_of(request)
    key, number = form.text("list"), form.text("learners")
    lists = await run_in_threadpool(kept_lists, desk.folder)
    if key and key not in lists:
        return said(request, "That class list is not there any more. Nothing was issued.", to=SHELF.at(request))
    if not key and not (number.isascii() and number.isdigit() and 1 <= int(number[:5]) <= _MOST):
        told = f"Choose a class list, or write for how many learners: 1 to {_MOST}. Nothing was issued."
        return said(request, told, to=SHELF.at(request))
    try:
        task = await run_in_threadpool(task_of, found, desk.settings())
    except JobCannotBe:
        return said(request, "It cannot be built as it is saved, so it has no worksheets.", to=SHELF.at(request))
    file = (await run_in_threadpool(open_list, desk.folder, key)).file if key else None
    options = IssueOptions(out=desk.out, settings=task.settings, processes=desk.processes, by=session_of(request).who)
    work = partial(_issue, task, file, int(number or 1), options)
    return at_work(request, f"Worksheets: {task.shape.job}", work)


def _issue(task: Task, file: Path | None, learners: int, options: IssueOptions, watch: Watch) -> Made:
    group = group_of(file, learners, None, watch)
    return made_of((issue_worksheet(task, group, date.today().isoformat(), options, watch),))


ROUTES = (Route("/jobs/{whose}/{name}/worksheets", issue, methods=["POST"]),)
