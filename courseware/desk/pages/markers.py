"""Other people's marks of a sitting: a second marker's, those settled between two, a pack to standardise with."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import Form, read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.marking_work import mark_and_tell
from courseware.desk.open_sittings import record_open, sitting_open
from courseware.desk.render import at_work, page, said
from courseware.desk.samples import keep_sent
from courseware.files.record_location import opened
from courseware.files.sitting_folders import SittingFolder
from courseware.papers.names import LONGEST_NAME, printable_text
from courseware.words import count, listed
from courseware.workflows.markers_seen import markers_seen
from courseware.workflows.second_marking import SecondMarked, enter_second, write_second_sheet
from courseware.workflows.standardise import enter_standard, make_pack
from courseware.workflows.watch import Watch


async def markers(request: Request) -> Response:
    """How far other people's marking is, and what can be done next."""
    return await _shown(request)


async def give_out(request: Request) -> Response:
    """Writes the second marker's sheet: the scripts as written, without the program's marks."""
    desk, where, at = desk_of(request), _where(request), _at(request)
    url = desk.record()

    def work(_: Watch) -> Made:
        with opened(url, make=False) as engine:
            path, new = write_second_sheet(engine, where)
        says = (
            "The scripts as written, for the second marker." if new else "The second marker’s sheet was there already."
        )
        return Made(says=says, files=(MadeFile(path=path, use="to give to another person"),), onward=_back(at))

    return at_work(request, f"For a second marker: {where.sitting.title}", work)


async def second(request: Request) -> Response:
    """Enters a second marker's sheet and compares."""
    desk, where, at = desk_of(request), _where(request), _at(request)
    url, settings = desk.record(), desk.settings()

    def enter(sheet: Path, marker: str, form: Form) -> Made:
        with opened(url, make=False) as engine:
            done = enter_second(engine, where, sheet, settings, marker=marker, names=form.ticked("names"))
        return Made(
            says=f"{count(done.added, 'mark')} by {marker} entered.",
            more=_compared(done),
            files=_files(done.files, "the differences, to talk about", "the same, to fill in once it is settled"),
            onward=_back(at),
        )

    return await _entered(request, f"A second marker: {where.sitting.title}", enter)


async def settled(request: Request) -> Response:
    """Marks with what two markers settled between them."""
    desk, where, who = desk_of(request), _where(request), session_of(request).who
    form, processes = await read_form(request), desk.processes
    upload = form.upload("sheet")
    if upload is None:
        return await _shown(request, told=("Choose the workbook that was filled in.",))
    sheet, names = await run_in_threadpool(keep_sent, upload), form.ticked("names")

    def work(watch: Watch) -> Made:
        return mark_and_tell(where, watch, assessor=who, names=names, processes=processes, sheet=str(sheet))

    return at_work(request, f"Settled: {where.sitting.title}", work)


async def pack(request: Request) -> Response:
    """Makes a pack of five scripts to standardise with."""
    desk, where, at = desk_of(request), _where(request), _at(request)
    typed = (await read_form(request)).text("assessors")
    who = [name[:LONGEST_NAME] for line in typed.split("\n")[:20] if (name := printable_text(line))]
    url, settings = desk.record(), desk.settings()

    def work(_: Watch) -> Made:
        with opened(url, make=False) as engine:
            files = make_pack(engine, where, settings, assessors=who, day=date.today().isoformat())
        uses = ("to print: the scripts, without names or marks", "a copy for each assessor to fill in alone")
        return Made(says="A pack to standardise with.", files=_files(files, *uses), onward=_back(at))

    return at_work(request, f"A pack to standardise with: {where.sitting.title}", work)


async def standard(request: Request) -> Response:
    """Enters one assessor's marks of the newest pack, and writes the spread."""
    desk, where, at = desk_of(request), _where(request), _at(request)
    url, settings = desk.record(), desk.settings()

    def enter(sheet: Path, marker: str, _: Form) -> Made:
        with opened(url, make=False) as engine:
            done = enter_standard(engine, where, sheet, settings, assessor=marker, day=date.today().isoformat())
        says = f"{count(done.added, 'mark')} by {marker} entered; {count(done.assessors, 'assessor')} so far."
        return Made(says=says, files=_files(done.files, "the spread of all marks", "every figure"), onward=_back(at))

    return await _entered(request, f"Standardising: {where.sitting.title}", enter)


async def _entered(request: Request, title: str, enter: Callable[[Path, str, Form], Made]) -> Response:
    """A sheet of marks by hand, entered as long work; it is told where its marker is not named."""
    form = await read_form(request)
    upload, marker = form.upload("sheet"), printable_text(form.text("by"))[:LONGEST_NAME]
    if upload is None or not marker:
        told = "Choose the workbook that was filled in." if marker else "Write who filled it in."
        return await _shown(request, told=(f"{told} Nothing was entered.",))
    sheet = await run_in_threadpool(keep_sent, upload)
    job = desk_of(request).jobs.start(title, lambda _: enter(sheet, marker, form))
    return said(request, "", to=f"/work/{job}")


def _compared(done: SecondMarked) -> tuple[str, ...]:
    found = done.found
    lines = [f"Not finished yet, so nothing is shown of {listed(found.waiting)}."] if found.waiting else []
    if found.compared:
        papers = count(len(found.both), "paper")
        lines.append(f"{len(found.differences)} of {count(found.parts, 'part')} marked differently, on {papers}.")
    if found.compared and found.alone:
        lines.append(
            f"{count(found.alone, 'part')} with one person’s mark alone: not compared. The program’s own reading "
            "counts as a marker where your settings say so."
        )
    return tuple(lines)


async def _shown(request: Request, *, told: Sequence[str] = ()) -> Response:
    desk, where = desk_of(request), _where(request)
    seen = await run_in_threadpool(markers_seen, record_open(desk), where)
    files = [(desk.handles.of(path), path.name, use) for path, use in seen.files]
    return page(
        request, "markers.html", status=422 if told else 200, where=where, seen=seen, files=files, told=told,
        at=_at(request), longest_name=LONGEST_NAME,
    )  # fmt: skip


def _where(request: Request) -> SittingFolder:
    return sitting_open(desk_of(request), request.path_params["code"])


def _at(request: Request) -> str:
    return f"/sittings/{request.path_params['code']}/markers"


def _back(at: str) -> tuple[tuple[str, str], ...]:
    return (("Other people’s marks", at),)


def _files(files: Sequence[Path], *uses: str) -> tuple[MadeFile, ...]:
    return tuple(MadeFile(path=path, use=use) for path, use in zip(files, uses, strict=False))


ROUTES = (
    Route("/sittings/{code}/markers", markers),
    Route("/sittings/{code}/markers/second/sheet", give_out, methods=["POST"]),
    Route("/sittings/{code}/markers/second/enter", second, methods=["POST"]),
    Route("/sittings/{code}/markers/settled", settled, methods=["POST"]),
    Route("/sittings/{code}/markers/pack", pack, methods=["POST"]),
    Route("/sittings/{code}/markers/pack/enter", standard, methods=["POST"]),
)
