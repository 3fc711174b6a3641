"""What was measured and judged at a job, entered into the record: typed line by line, or by the sheets themselves."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.database.errors import RecordRefuses
from courseware.database.learners import held
from courseware.database.observations import KeptObservation, observations_of
from courseware.desk.desk import Desk, desk_of, session_of
from courseware.desk.forms import Form, read_form
from courseware.desk.observing import judged_fields, measured_fields, typed_observation
from courseware.desk.pages.jobs import SHELF
from courseware.desk.render import page, said
from courseware.desk.sent_files import sent_as_files
from courseware.files.atomic import slug
from courseware.files.bank_files import NotFound
from courseware.files.record_location import opened
from courseware.jobs.observation import (
    LONGEST_BAY,
    LONGEST_COMMENT,
    LONGEST_WHO,
    VERDICTS,
    Observation,
    ObservationFaulty,
)
from courseware.jobs.plan import Plan, plan_of
from courseware.papers.sitting_checks import is_plain
from courseware.text_files.faults import FileFaulty
from courseware.words import count
from courseware.workflows.jobs import find_job
from courseware.workflows.observe import (
    PHOTOGRAPHS,
    observe_sheets,
    observe_typed,
    photographs_there,
    withdraw_observed,
)
from courseware.workflows.own_jobs import JobText


async def observed(request: Request) -> Response:
    """What stands in the record of a job, and the form for the next learner."""
    return await _shown(request, await SHELF.opened(request))


async def enter(request: Request) -> Response:
    """Enters what was typed."""
    found, form, desk = await SHELF.opened(request), await read_form(request), desk_of(request)
    try:
        kept = await run_in_threadpool(_typed, desk, _named(request, found), form)
    except ObservationFaulty as faulty:
        return await _shown(request, found, form=form, wrong=dict(faulty.faults), told=_general(faulty))
    except NotFound as unknown:
        return await _shown(request, found, form=form, told=(str(unknown),))
    return said(request, _in_words(kept), to=f"{SHELF.at(request)}/results")


async def withdraw(request: Request) -> Response:
    """Withdraws what was entered by mistake, for a reason."""
    found, form, desk = await SHELF.opened(request), await read_form(request), desk_of(request)
    job, reason, by = _named(request, found), form.text("reason"), session_of(request).who
    if reason and not is_plain(reason, LONGEST_COMMENT):
        return await _shown(request, found, told=("Write the reason in plain characters.",))

    def carry_out() -> Observation:
        with opened(desk.record(), make=False) as engine:
            return withdraw_observed(engine, job, form.text("paper"), form.text("on"), reason=reason, by=by)

    try:
        gone = await run_in_threadpool(carry_out)
    except (NotFound, RecordRefuses) as refused:
        return await _shown(request, found, told=(f"{refused}.",))
    return said(
        request, f"Withdrawn: {gone.code}, {gone.day}. The history keeps it.", to=f"{SHELF.at(request)}/results"
    )


async def bring(request: Request) -> Response:
    """Enters what filled-in sheets say: all of them, or none where one has a fault."""
    found, form, desk = await SHELF.opened(request), await read_form(request), desk_of(request)
    uploads = form.uploads("sheets")
    if not uploads:
        return said(request, "First choose the sheets that were filled in.", to=f"{SHELF.at(request)}/results#sheets")
    with sent_as_files(uploads) as files:
        try:
            kept = await run_in_threadpool(_sheets, desk, _named(request, found), tuple(files))
        except (FileFaulty, NotFound) as faulty:
            told = str(faulty)
            for path, name in files.items():
                told = told.replace(Path(path).name, name)
            return await _shown(request, found, told=(*told.splitlines(), "Nothing was entered."))
    return said(request, " ".join(map(_in_words, kept)), to=f"{SHELF.at(request)}/results")


def _typed(desk: Desk, job: str, form: Form) -> KeptObservation:
    settings = desk.settings()
    typed = typed_observation(form, plan_of(find_job(job, settings)), _photos(desk))
    with opened(desk.record(), make=False) as engine:
        return observe_typed(engine, job, typed, settings)


def _sheets(desk: Desk, job: str, files: tuple[str, ...]) -> tuple[KeptObservation, ...]:
    with opened(desk.record(), make=False) as engine:
        return observe_sheets(engine, job, files, desk.settings(), photographs=desk.folder / PHOTOGRAPHS)


def _photos(desk: Desk) -> dict[str, Path]:
    """The photographs to choose from, by handle."""
    return {desk.handles.of(path): path for path in photographs_there(desk.folder / PHOTOGRAPHS)}


def _named(request: Request, found: JobText) -> str:
    """How workflows are told of the job: an own one by its file, a shipped one by its name."""
    return str(found.path) if SHELF.is_own(request) else found.name


def _general(faulty: ObservationFaulty) -> tuple[str, ...]:
    """What is wrong with no line in particular."""
    return tuple(wrong for line, wrong in faulty.faults if not line)


def _in_words(kept: KeptObservation) -> str:
    one = kept.observation
    done = "Entered" if kept.before is None else "Put right" if kept.is_new else "There already"
    return f"{done}: {one.code}, {one.day}: {VERDICTS[one.verdict]}."


def _result(one: Observation) -> str:
    photos = f", {count(len(one.photos), 'photograph')}" if one.photos else ""
    return f"{VERDICTS[one.verdict]}{photos}"


def _standing(desk: Desk, job: str) -> tuple[list[tuple[str, Observation, str]], list[tuple[str, str]]]:
    """Who, what and how it went of each observation of a job; and every learner of the record with a code."""
    try:
        with opened(desk.record(), make=False) as engine:
            papers = held(engine)
            names = {one.paper: one.name or one.reference or one.paper for one in papers}
            entered = [
                (names.get(one.code, one.code), one, _result(one)) for one in observations_of(engine) if one.job == job
            ]
    except NotFound:  # nothing was issued yet
        return [], []
    return entered, sorted(((one.paper, names[one.paper]) for one in papers), key=lambda pair: pair[1])


async def _shown(
    request: Request,
    found: JobText,
    *,
    form: Form | None = None,
    wrong: dict[str, str] | None = None,
    told: tuple[str, ...] = (),
) -> Response:
    desk = desk_of(request)
    plan: Plan = await run_in_threadpool(lambda: plan_of(find_job(_named(request, found), desk.settings())))
    entered, learners = await run_in_threadpool(_standing, desk, slug(found.path.stem))
    fresh = {"by": session_of(request).who, "day": date.today().isoformat()}
    return page(
        request, "observed.html", status=422 if told or wrong else 200, job=found, address=SHELF.at(request),
        entered=entered, learners=learners, measured=measured_fields(plan), judged=judged_fields(),
        value=(form.text if form else lambda name: fresh.get(name, "")), wrong=wrong or {}, told=told,
        longest_bay=LONGEST_BAY, longest_who=LONGEST_WHO, longest_comment=LONGEST_COMMENT,
        profile=plan.task.profile, photos=await run_in_threadpool(_photos, desk),
        folder_of_photos=desk.folder / PHOTOGRAPHS, chosen=form.texts("photo") if form else (),
    )  # fmt: skip


ROUTES = (
    Route("/jobs/{whose}/{name}/results", observed),
    Route("/jobs/{whose}/{name}/results/enter", enter, methods=["POST"]),
    Route("/jobs/{whose}/{name}/results/withdraw", withdraw, methods=["POST"]),
    Route("/jobs/{whose}/{name}/results/sheets", bring, methods=["POST"]),
)
