"""The course: topics over its weeks, a week's papers begun from there, and how far a class has come."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import partial
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.course.scheme import Lesson
from courseware.course.scheme_chart import scheme_chart
from courseware.desk.desk import Desk, desk_of
from courseware.desk.forms import read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.nav import Nav
from courseware.desk.render import at_work, page, said
from courseware.drawings import to_svg
from courseware.files.bank_files import NotFound
from courseware.files.record_location import opened
from courseware.settings.settings import Settings
from courseware.text_files.faults import FileFaulty
from courseware.words import count
from courseware.workflows.distance import pairs_in, travelled
from courseware.workflows.papers_begun import begin_week
from courseware.workflows.scheme import (
    PLAN,
    bank_of_each,
    in_folder,
    keep_table,
    lessons_of_week,
    lessons_there,
    mondays_of,
    plan,
)  # fmt: skip
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from sqlalchemy import URL

_ONWARD = (("On to the course", "/course"),)
NAV = (Nav(title="Course", address="/course", place=2),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """A week of the scheme: when it begins ('' beyond the course's own weeks), what is in it."""

    number: int
    monday: str
    lessons: tuple[Lesson, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheme:
    """The scheme as it stands, and its titles by topic; or why it cannot be read."""

    weeks: tuple[Week, ...] = ()
    titles: dict[str, str] | None = None
    svg: str = ""
    trouble: str = ""


async def course(request: Request) -> Response:
    """The scheme of work as its table stands, or how to come by one."""
    return await run_in_threadpool(_course, request)


def _course(request: Request) -> Response:
    desk = desk_of(request)
    settings = desk.settings()
    scheme = _scheme(desk.folder, desk.out / f"{PLAN}.xlsx", settings)
    files = [(desk.handles.of(desk.out / f"{PLAN}.{end}"), end) for end in ("xlsx", "pdf") if scheme]
    return page(
        request, "course.html", course=settings.course, scheme=scheme, files=files, pairs=pairs_in(desk.out),
        today=date.today().isoformat(),
    )  # fmt: skip


def _scheme(work: Path, table: Path, settings: Settings) -> Scheme | None:
    """None where there is no table yet."""
    if not table.is_file():
        return None
    try:
        lessons = lessons_there(table)
        banks, _ = bank_of_each(list(dict.fromkeys(one.topic for one in lessons)), settings, in_folder(work))
    except (NotFound, FileFaulty) as faulty:
        return Scheme(trouble=str(faulty))
    titles = {name: bank.topic for name, bank in banks.items()}
    mondays = mondays_of(settings.course) if settings.course else ()
    last = max(len(mondays), *(one.week for one in lessons))
    by_week = {
        week: tuple(own) for week, own in groupby(sorted(lessons, key=lambda one: one.week), lambda one: one.week)
    }
    weeks = tuple(
        Week(number=n, monday=mondays[n - 1].isoformat() if n <= len(mondays) else "", lessons=by_week.get(n, ()))
        for n in range(1, last + 1)
    )
    return Scheme(weeks=weeks, titles=titles, svg=to_svg(scheme_chart(lessons, titles, last)))


async def lay_out(request: Request) -> Response:
    """Lays the course over its weeks; over a table that is there only when that was asked for."""
    desk, form = desk_of(request), await read_form(request)
    anew, settings, out, find = form.ticked("anew"), desk.settings(), desk.out, in_folder(desk.folder)

    def work(_: Watch) -> Made:
        made = plan(settings, out, date.today().isoformat(), anew=anew, find=find)
        files = tuple(MadeFile(path=file, use=use) for file, use in zip(made.files, _USES, strict=True))
        says = f"{count(len({one.topic for one in made.lessons}), 'topic')} over {count(len(made.weeks), 'week')}."
        return Made(says=says, files=files, onward=_ONWARD)

    if not anew and (out / f"{PLAN}.xlsx").exists():
        return said(request, "The scheme is there. To lay it out anew, tick that its changes may go.", to="/course")
    return at_work(request, "Scheme of work", work)


async def table(request: Request) -> Response:
    """Takes back the table that the tutor changed."""
    desk, form = desk_of(request), await read_form(request)
    given = form.upload("table")
    if given is None or not given.data:
        return said(request, "First choose the table that you changed.", to="/course")
    try:
        lessons = await run_in_threadpool(keep_table, desk.out, given.data)
    except FileFaulty as faulty:
        return said(request, f"The table was not taken: {faulty}", to="/course")
    return said(request, f"Taken: {count(len(lessons), 'row')}.", to="/course")


async def week(request: Request) -> Response:
    """Begins the papers of a week: who gets them is asked next, and everything can still be changed."""
    desk, number = desk_of(request), request.path_params["week"]
    try:
        key = await run_in_threadpool(_begin, desk, number)
    except (NotFound, FileFaulty) as refused:
        return said(request, f"{refused}.", to="/course")
    return said(request, "", to=f"/papers/{key}/who")


def _begin(desk: Desk, number: int) -> str:
    lessons = lessons_of_week(number, desk.out / f"{PLAN}.xlsx")
    return begin_week(desk.folder, number, lessons, desk.settings())


async def distance(request: Request) -> Response:
    """Sets two sittings of the same exercises side by side."""
    desk, form = desk_of(request), await read_form(request)
    codes = (form.text("start"), form.text("end"))
    pairs = await run_in_threadpool(pairs_in, desk.out)
    if codes not in {(start.code, end.code) for start, end in pairs}:
        return said(request, "Those sittings are not in the folder of work any more.", to="/course")
    work = partial(_side_by_side, codes, desk.record(), desk.settings(), desk.out)
    return at_work(request, "Distance travelled", work)


def _side_by_side(codes: tuple[str, str], record: URL, settings: Settings, out: Path, _: Watch) -> Made:
    with opened(record, make=False) as engine:
        made = travelled(engine, codes, settings, out=out, day=date.today().isoformat())
    files = tuple(MadeFile(path=file, use=use) for file, use in zip(made.files, _DISTANCE_USES, strict=True))
    return Made(says=f"{count(made.found[0].both, 'learner')} wrote both.", files=files, onward=_ONWARD)


_USES = ("The table: change it as your course needs, then give it back here.", "Print this for the staff-room wall.")
_DISTANCE_USES = ("Print this for yourself: what was got and what went wrong, then and now.", "Every figure, to sort.")
ROUTES = (
    Route("/course", course),
    Route("/course/lay-out", lay_out, methods=["POST"]),
    Route("/course/table", table, methods=["POST"]),
    Route("/course/weeks/{week:int}", week, methods=["POST"]),
    Route("/course/distance", distance, methods=["POST"]),
)
