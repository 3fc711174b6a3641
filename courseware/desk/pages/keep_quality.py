"""Keep: papers drawn for a quality assurer, and the centre's criteria mapped."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of
from courseware.desk.forms import read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.render import at_work, page
from courseware.files.bank_files import NotFound, own_banks
from courseware.files.record_location import opened
from courseware.papers.codes import LETTERS
from courseware.papers.sitting_checks import LONGEST_TITLE, is_plain
from courseware.quality.sampling_sheet import chance_line
from courseware.words import count
from courseware.workflows.criteria import map_criteria
from courseware.workflows.keeping import kept_sittings, marked_papers, record_there, size_asked
from courseware.workflows.quality import sample, sittings_meant
from courseware.workflows.watch import Watch

_USUAL = "10 %"


async def sampling(request: Request) -> Response:
    """Which papers would be drawn from, and how many: nothing is drawn by looking."""
    asked = request.query_params
    return await _sampling(request, asked.getlist("sitting"), asked.get("size", _USUAL), asked.get("seed", ""))


async def draw(request: Request) -> Response:
    """Draws them and writes the plan."""
    desk, form = desk_of(request), await read_form(request)
    codes, size, seed = form.texts("sitting"), form.text("size"), form.text("seed")
    marked = await run_in_threadpool(marked_papers, desk.record(), codes)
    try:
        wanted = size_asked(size, marked)
        if not is_plain(seed, LONGEST_TITLE):
            raise NotFound(f"the seed has at most {LONGEST_TITLE} characters, all of which can be seen")
    except NotFound as refused:
        return await _sampling(request, codes, size, seed, trouble=str(refused))
    names, settings, url, out = form.ticked("names"), desk.settings(), desk.record(), desk.out

    def work(_: Watch) -> Made:
        with opened(url, make=False) as engine:
            found = sample(
                engine, sittings_meant(engine, codes), wanted, settings, seed=seed or None, pass_lines=(), names=names,
                out=out, day=date.today().isoformat(),
            )  # fmt: skip
        plan = found.plan
        return Made(
            says=f"{len(plan.picks)} of {plan.of} marked papers, drawn with the seed {plan.seed}.",
            more=tuple(chance_line(plan, chance) for chance in plan.chances),
            files=_files(found.files, "which papers, and why each of them", "to fill in: agreed or not, by whom"),
            onward=(("Once its workbook is filled in: enter what was found", "/keep/results"),),
        )

    return at_work(request, "Papers for a quality assurer", work)


async def criteria(request: Request) -> Response:
    """The centre's own criteria, and over which sittings they can be mapped."""
    desk = desk_of(request)
    sittings = await run_in_threadpool(kept_sittings, desk.record())
    return page(request, "criteria.html", criteria=desk.settings().criteria, sittings=sittings)


async def map_all(request: Request) -> Response:
    """Maps them."""
    desk, form = desk_of(request), await read_form(request)
    names, codes, settings = form.ticked("names"), form.texts("sitting"), desk.settings()
    url, out, banks = desk.record(), desk.out, [str(path) for path in own_banks(desk.folder)]

    def work(_: Watch) -> Made:
        with record_there(url) as engine:
            meant = sittings_meant(engine, codes) if engine is not None and codes else ()
            day = date.today().isoformat()
            found, files = map_criteria(engine, meant, settings, banks, names=names, out=out, day=day)
        return Made(
            says=f"{count(len(found.rows), 'criterion', 'criteria')}, {count(len(found.people), 'learner')}.",
            more=tuple(f"Not secure yet, {row.criterion.code}: {row.gap}." for row in found.rows if row.gap),
            files=_files(files, "the map, to print", "the same as a workbook"),
            onward=(("Back to the criteria", "/keep/criteria"),),
        )

    return at_work(request, "Criteria mapped", work)


async def _sampling(request: Request, codes: Sequence[str], size: str, seed: str, *, trouble: str = "") -> Response:
    desk = desk_of(request)
    sittings = await run_in_threadpool(kept_sittings, desk.record())
    known = [one.code for one in sittings]
    chosen = [code for code in codes if code in known]
    marked = await run_in_threadpool(marked_papers, desk.record(), chosen or known)
    wanted = 0
    try:
        wanted = size_asked(size, marked)
    except NotFound as refused:
        trouble = trouble or str(refused)
    return page(
        request, "sampling.html", status=422 if trouble else 200, sittings=sittings, chosen=chosen or known,
        marked=marked, wanted=min(wanted, marked), size=size, trouble=trouble, looked="size" in request.query_params,
        seed=seed or _seed(), out=desk.out, longest=LONGEST_TITLE,
    )  # fmt: skip


def _seed() -> str:
    return "".join(secrets.choice(LETTERS) for _ in range(6))


def _files(files: Sequence[Path], *uses: str) -> tuple[MadeFile, ...]:
    return tuple(MadeFile(path=path, use=use) for path, use in zip(files, uses, strict=True))


ROUTES = (
    Route("/keep/sampling", sampling),
    Route("/keep/sampling/draw", draw, methods=["POST"]),
    Route("/keep/criteria", criteria),
    Route("/keep/criteria/map", map_all, methods=["POST"]),
)
