"""What waits for a look: the list, and one answer after another, decided by lines seen or by marks with a reason."""

from __future__ import annotations

from datetime import UTC, datetime
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.database.errors import RecordRefuses
from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import Form, read_form
from courseware.desk.open_sittings import first_marks_open, record_open, sitting_open
from courseware.desk.render import page, said
from courseware.desk.shown_parts import drawing_of
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.marks import WHOLE_PAPER
from courseware.words import count
from courseware.workflows.waiting import CannotDecide, Look, Waiting, decide, decided_words, waiting, waiting_answer

MOST_SHOWN = 60  # in the list; the others come once these are settled


async def all_waiting(request: Request) -> Response:
    """Everything that waits in a sitting."""
    where = first_marks_open(request)
    found = await run_in_threadpool(waiting, record_open(desk_of(request)), where)
    return page(request, "all_waiting.html", where=where, found=found, most=MOST_SHOWN, first=_next(where, found))


async def one_waiting(request: Request) -> Response:
    """One answer with all that is needed to decide it."""
    return await _shown(request, Look(code=request.path_params["paper"], label=request.path_params["part"], written=""))


async def decided(request: Request) -> Response:
    """Enters what was decided, then goes on to the next that waits."""
    where, form = _where(request), await read_form(request)
    code, label = request.path_params["paper"], request.path_params["part"]
    look = _look(form, code, label)
    engine, who = record_open(desk_of(request)), session_of(request).who
    try:
        said_of = await run_in_threadpool(decide, engine, where, look, assessor=who, at=datetime.now(UTC))
    except (CannotDecide, RecordRefuses) as wrong:
        return await _shown(request, look, trouble=str(wrong))
    onward = _next(where, await run_in_threadpool(waiting, engine, where), code, label)
    marks = "the mark stands" if said_of.marks is None else count(said_of.marks, "mark")
    whose = next((paper.learner.name for paper in where.sitting.papers if paper.code == code), "") or code
    told = f"This paper's answers are {whose}'s." if label == WHOLE_PAPER else f"Decided: {whose}, {label}: {marks}."
    return said(request, told, to=onward or f"/sittings/{where.sitting.code}/waiting")


async def _shown(request: Request, look: Look, trouble: str = "") -> Response:
    where, engine = first_marks_open(request, look.code), record_open(desk_of(request))
    answer = await run_in_threadpool(waiting_answer, engine, where, look.code, look.label)
    if answer is None:
        raise HTTPException(404)
    found = await run_in_threadpool(waiting, engine, where)
    asked = next((one for one in found if (one.code, one.label) == (look.code, look.label)), None)
    return page(
        request,
        "one_waiting.html",
        status=422 if trouble else 200,
        where=where,
        code=look.code,
        label=look.label,
        answer=answer,
        decided=decided_words(answer.decided),
        asked=asked,
        drawing=drawing_of(answer.part.exercise),
        look=look,
        trouble=trouble,
        left=len(found),
        onward=_next(where, found, look.code, look.label),
    )


def _where(request: Request) -> SittingFolder:
    return sitting_open(desk_of(request), request.path_params["code"])


def _look(form: Form, code: str, label: str) -> Look:
    seen = tuple(int(place) for place in form.texts("seen") if place.isascii() and place.isdecimal() and len(place) < 4)
    written = "".join(form.texts("written")[-1:])
    texts = {name: form.text(name) for name in ("marks", "reason", "comment")}
    decided = form.text("decided") if form.texts("decided") else None
    return Look(code=code, label=label, written=written, seen=seen, decided=decided, **texts)


def _next(where: SittingFolder, found: tuple[Waiting, ...], code: str = "", label: str = "") -> str:
    """The address of the answer that waits after this one, round to the first; '' where none else waits."""
    order = [(paper.code, part.label) for paper in where.sitting.papers for part in paper.parts]
    waits = [(one.code, one.label) for one in found if (one.code, one.label) in set(order)]
    at = order.index((code, label)) if (code, label) in order else -1
    places = {one: place for place, one in enumerate(order)}
    left = [one for one in waits if one != (code, label)]
    after = [one for one in left if places[one] > at] or left
    return f"/sittings/{where.sitting.code}/waiting/{after[0][0]}/{quote(after[0][1], safe='')}" if after else ""


ROUTES = (
    Route("/sittings/{code}/waiting", all_waiting),
    Route("/sittings/{code}/waiting/{paper}/{part}", one_waiting),
    Route("/sittings/{code}/waiting/{paper}/{part}/decide", decided, methods=["POST"]),
)
