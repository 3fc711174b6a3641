"""Who gets papers: a class list dropped or chosen, seen as it was read, mended row by row."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of
from courseware.desk.forms import Form, read_form
from courseware.desk.render import page, said
from courseware.papers.class_list import MOST_LEARNERS
from courseware.papers.class_list_rows import TypedRow
from courseware.papers.names import LONGEST_NAME, LONGEST_REFERENCE
from courseware.papers.sheet_format import KNOWN_WORDS, LONGEST_FORMAT
from courseware.spreadsheets.rows import TableFaulty
from courseware.text_files.faults import visible
from courseware.workflows.class_lists import KeptList, ListChanged, keep_list, kept_lists, mend_row, open_list
from courseware.workflows.papers_begun import PapersBegun, change_papers, papers_begun

_LONGEST = {"name": LONGEST_NAME, "reference": LONGEST_REFERENCE, "level": 10, "paper": LONGEST_FORMAT}


async def who(request: Request) -> Response:
    """The class list as it was read, or the ways to give one."""
    return await _who(request)


async def _who(request: Request, trouble: str = "") -> Response:
    work, key = desk_of(request).folder, request.path_params["key"]
    papers = await run_in_threadpool(papers_begun, work, key)
    kept: KeptList | None = None
    if papers.class_list:
        try:
            kept = await run_in_threadpool(open_list, work, papers.class_list)
        except (LookupError, ValueError) as gone:
            trouble = trouble or f"The class list cannot be read: {visible(str(gone))}."
    asked = request.query_params.get("mend", "")
    return page(
        request,
        "papers_who.html",
        status=422 if trouble else 200,
        key=key,
        papers=papers,
        kept=kept,
        lists=await run_in_threadpool(kept_lists, work),
        mend=int(asked) if asked.isascii() and asked.isdigit() and len(asked) < 5 else None,
        other="other" in request.query_params or (kept is None and not papers.learners),
        trouble=trouble,
        longest=_LONGEST,
        most=MOST_LEARNERS,
        words=KNOWN_WORDS,
    )


async def take_list(request: Request) -> Response:
    """A class list that was sent."""
    desk, form, key = desk_of(request), await read_form(request), request.path_params["key"]
    sent = form.upload("list")
    if sent is None or not sent.data:
        return await _who(request, "Choose a class list first: a CSV or XLSX file with a name on each row.")
    try:
        kept, notes = await run_in_threadpool(keep_list, desk.folder, sent.data, sent.name)
    except TableFaulty as faulty:
        fault = faulty.faults[0]
        return await _who(request, f"{visible(sent.name)}, line {fault.line}: {fault.wrong}; {fault.expected}.")
    await run_in_threadpool(_change, request, key, class_list=kept.key, learners=0, read=notes)
    return said(request, "", to=f"/papers/{key}/who")


async def choose(request: Request) -> Response:
    """A list that is kept already, or so many papers without names."""
    form, key = await read_form(request), request.path_params["key"]
    if form.text("do") == "numbered":
        typed = form.text("learners")
        number = int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 5 else 0
        if not 1 <= number <= MOST_LEARNERS:
            return await _who(request, f"Write how many papers, 1 to {MOST_LEARNERS}.")
        await run_in_threadpool(_change, request, key, class_list="", learners=number, read=())
        return said(request, "", to=f"/papers/{key}/exercises")
    kept = await run_in_threadpool(open_list, desk_of(request).folder, form.text("kept"))
    await run_in_threadpool(_change, request, key, class_list=kept.key, learners=0, read=())
    return said(request, "", to=f"/papers/{key}/who")


async def row(request: Request) -> Response:
    """A row mended, left out or added; leads on to the next that is to be mended, so that nobody looks for it."""
    desk, form, key = desk_of(request), await read_form(request), request.path_params["key"]
    papers = await run_in_threadpool(papers_begun, desk.folder, key)
    place = form.text("place")
    new = form.text("do") == "add"
    was = None if new else _typed(form, "was-")
    now = None if form.text("do") == "leave-out" else _typed(form, "")
    at = int(place) if place.isascii() and place.isdigit() and len(place) < 5 else 0
    try:
        kept = await run_in_threadpool(mend_row, desk.folder, papers.class_list, at, was, now)
    except ListChanged as changed:
        return said(request, f"{str(changed).capitalize()}.", to=f"/papers/{key}/who")
    left = sorted(kept.checked.wrong, key=lambda one: (one < at, one))
    return said(
        request, "", to=f"/papers/{key}/who" + (f"?mend={left[0]}#row-{left[0]}" if left and not new else "#list")
    )


def _typed(form: Form, before: str) -> TypedRow:
    return TypedRow(**{name: form.text(before + name) for name in _LONGEST})


def _change(request: Request, key: str, **changed: object) -> PapersBegun:
    return change_papers(desk_of(request).folder, key, **changed)


ROUTES = (
    Route("/papers/{key}/who", who),
    Route("/papers/{key}/who/list", take_list, methods=["POST"]),
    Route("/papers/{key}/who/choose", choose, methods=["POST"]),
    Route("/papers/{key}/who/row", row, methods=["POST"]),
)
