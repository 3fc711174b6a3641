"""Keep: appeals against marks, opened, marked again by another person, and ended."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.open_sittings import sitting_open
from courseware.desk.render import at_work, page
from courseware.desk.samples import keep_sent
from courseware.files.bank_files import NotFound
from courseware.files.record_location import opened
from courseware.files.sitting_folders import SittingFolder
from courseware.papers.names import LONGEST_NAME, printable_text
from courseware.quality.appeal_sheet import LONGEST_REASON, SAID
from courseware.text_files.faults import FileFaulty
from courseware.words import count
from courseware.workflows.appeal import begin_appeal, end_appeal, look_at_outcome
from courseware.workflows.appeals_seen import appeal_seen, appeals_seen
from courseware.workflows.keeping import LearnersPaper, papers_of
from courseware.workflows.watch import Watch

_AT = "/keep/appeals"
NAMED = "Write who marked again: another person than marked first."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sent:
    """A re-mark that was looked at: its handle, who marked, its outcome in words, its rows."""

    handle: str
    by: str
    outcome: str
    reason: str
    rows: tuple[tuple[str, ...], ...]
    changed: int


async def appeals(request: Request) -> Response:
    """All appeals, the open ones first, and the marked papers of a sitting to open one on."""
    desk = desk_of(request)
    asked = request.query_params.get("sitting", "")
    seen = await run_in_threadpool(appeals_seen, desk.record(), asked)
    return page(request, "appeals.html", seen=seen, asked=asked)


async def appeal(request: Request) -> Response:
    """One paper's appeal."""
    return await _shown(request)


async def begin(request: Request) -> Response:
    """Opens an appeal, and writes what is needed to mark the paper again."""
    desk, form, code = desk_of(request), await read_form(request), request.path_params["paper"]
    reason = printable_text(form.text("reason"))[:LONGEST_REASON]
    if not reason:
        return await _shown(request, told=("Write why the learner appeals.",))
    where, by, url, settings = await _sitting(request), session_of(request).who, desk.record(), desk.settings()

    def work(_: Watch) -> Made:
        with opened(url, make=False) as engine:
            begun = begin_appeal(
                engine, where, code, settings, reason=reason, by=by, day=date.today().isoformat()
            )  # fmt: skip
        return Made(
            says=f"An appeal on {code} is open; its answers and marks stay as they are.",
            files=(
                MadeFile(path=begun.sheet, use="for another person: the script to mark again, and the outcome"),
                MadeFile(path=begun.frozen, use="all that stood, as it stood"),
            ),
            onward=(("The appeal", f"{_AT}/{code}"),),
        )

    return at_work(request, f"An appeal on {code}", work)


async def look(request: Request) -> Response:
    """What a re-mark says, and what entering it does; nothing is entered."""
    desk, form = desk_of(request), await read_form(request)
    upload, by = form.upload("sheet"), printable_text(form.text("by"))[:LONGEST_NAME]
    if upload is None or not by:
        return await _shown(request, told=("Choose the workbook that was filled in." if by else NAMED,), by=by)
    where, sheet = await _sitting(request), await run_in_threadpool(keep_sent, upload)
    code = request.path_params["paper"]
    try:
        with opened(desk.record(), make=False) as engine:
            typed, rows = await run_in_threadpool(look_at_outcome, engine, where, code, sheet, by=by)
    except (FileFaulty, NotFound) as faulty:
        return await _shown(request, told=(*str(faulty).splitlines(), "Nothing was entered."), by=by)
    changed = sum(before != now for _, _, before, _, now, _ in rows)
    sent = _Sent(
        handle=desk.handles.of(sheet), by=by, outcome=SAID[typed.outcome], reason=typed.reason, rows=rows,
        changed=changed,
    )  # fmt: skip
    return await _shown(request, sent=sent, by=by)


async def end(request: Request) -> Response:
    """Enters the re-mark that was looked at, and its outcome."""
    desk, form, code = desk_of(request), await read_form(request), request.path_params["paper"]
    sheet, by = desk.handles.path(form.text("sheet")), printable_text(form.text("by"))[:LONGEST_NAME]
    if sheet is None or not sheet.is_file() or not by:
        return await _shown(request, told=("That workbook is not here any more: choose it again.",), by=by)
    where, url, settings, processes = await _sitting(request), desk.record(), desk.settings(), desk.processes
    chosen, names = sheet, form.ticked("names")

    def work(watch: Watch) -> Made:
        with opened(url, make=False) as engine:
            done = end_appeal(
                engine, where, code, chosen, settings, watch, by=by, names=names, processes=processes
            )  # fmt: skip
        return Made(
            says=f"The appeal on {code} is closed: {count(done.changed, 'mark')} changed.",
            files=_files(done.files, "the outcome, to hand over", "both markings side by side"),
            onward=(("All appeals", _AT), ("The learner’s page", f"/sittings/{where.sitting.code}/learners/{code}")),
        )

    return at_work(request, f"The outcome of the appeal on {code}", work)


def _files(files: Sequence[Path], *uses: str) -> tuple[MadeFile, ...]:
    return tuple(MadeFile(path=path, use=use) for path, use in zip(files, uses, strict=True))


def _paper(desk: Desk, code: str) -> LearnersPaper:
    """The paper of that code. Raises `NotFound`."""
    return next(one for one in papers_of(desk.record(), code) if one.code == code)


async def _sitting(request: Request) -> SittingFolder:
    desk = desk_of(request)
    paper = await _asked(request)
    return await run_in_threadpool(sitting_open, desk, paper.sitting)


async def _asked(request: Request) -> LearnersPaper:
    try:
        return await run_in_threadpool(_paper, desk_of(request), request.path_params["paper"])
    except (NotFound, StopIteration):
        raise HTTPException(404) from None


async def _shown(request: Request, *, told: Sequence[str] = (), sent: _Sent | None = None, by: str = "") -> Response:
    desk, paper = desk_of(request), await _asked(request)
    where = await run_in_threadpool(sitting_open, desk, paper.sitting)

    seen = await run_in_threadpool(appeal_seen, desk.record(), where, paper.code)
    return page(
        request, "appeal.html", status=422 if told else 200, paper=paper, seen=seen, told=told, sent=sent, by=by,
        files=[(desk.handles.of(path), path.name, use) for path, use in seen.files],
        longest_reason=LONGEST_REASON, longest_name=LONGEST_NAME,
    )  # fmt: skip


ROUTES = (
    Route(_AT, appeals),
    Route(f"{_AT}/{{paper}}", appeal),
    Route(f"{_AT}/{{paper}}/open", begin, methods=["POST"]),
    Route(f"{_AT}/{{paper}}/look", look, methods=["POST"]),
    Route(f"{_AT}/{{paper}}/end", end, methods=["POST"]),
)
