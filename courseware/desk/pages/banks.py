"""A bank's text with its faults beside the line, its proof, and a paper with its key as they would print."""

from __future__ import annotations

from datetime import date
from functools import partial
from pathlib import Path
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of
from courseware.desk.forms import read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.nav import Nav
from courseware.desk.render import at_work, page, said
from courseware.desk.samples import keep_sample
from courseware.desk.shelf import Shelf
from courseware.desk.templates import html, templates
from courseware.files.own_files import ChangedMeanwhile, save_again
from courseware.settings.settings import Settings
from courseware.words import count
from courseware.workflows.bank_reference import bank_reference
from courseware.workflows.own_banks import (
    BankText,
    banks_shipped,
    begin_bank,
    copy_shipped,
    open_bank,
    open_shipped,
    own_banks,
)
from courseware.workflows.watch import Watch
from courseware.workflows.writing_banks import ProofLine, look_at, prove_text, sample_sheets

SHELF = Shelf(address="/banks", shipped="shipped", open_own=open_bank, open_shipped=open_shipped)
NAV = (Nav(title="Banks", address="/banks", place=6),)
_LONGEST_NAME = 80


async def banks(request: Request) -> Response:
    """The tutor's own banks, and the shipped ones to read or to copy."""
    desk = desk_of(request)
    own, shipped = await run_in_threadpool(lambda: (own_banks(desk.folder), banks_shipped()))
    return page(request, "banks.html", own=own, shipped=shipped, longest=_LONGEST_NAME)


async def new(request: Request) -> Response:
    """A new bank of one's own, with one exercise to change."""
    name = (await read_form(request)).text("name")[:_LONGEST_NAME]
    made = await run_in_threadpool(begin_bank, desk_of(request).folder, name)
    return said(
        request, "A new bank with one exercise. Change it as you like.", to=f"/banks/own/{quote(made, safe='')}"
    )


async def copy(request: Request) -> Response:
    """A copy of a shipped bank, to change."""
    found = await SHELF.opened(request)
    made = await run_in_threadpool(copy_shipped, desk_of(request).folder, found.name)
    return said(request, "This copy is yours to change.", to=f"/banks/own/{quote(made, safe='')}")


async def bank(request: Request) -> Response:
    """A bank's text: one's own to change, a shipped one to read."""
    found = await SHELF.opened(request)
    return await _shown(request, found, found.text)


async def look(request: Request) -> Response:
    """The text that was typed with its faults; nothing is saved."""
    return await _shown(request, await SHELF.opened(request), await _typed(request))


async def faults(request: Request) -> Response:
    """The part of the page that changes as one types: faults by line, or the exercises."""
    found, text = await SHELF.opened(request), await _typed(request)
    looked = await run_in_threadpool(look_at, text, found.path, desk_of(request).settings())
    filled = templates().get_template("bank_faults.html").render(looked=looked, lines=text.split("\n"))
    return html(filled)


async def save(request: Request) -> Response:
    """Saves the text whole, faults or not, unless it was changed elsewhere meanwhile."""
    found, form, text = await SHELF.opened(request), await read_form(request), await _typed(request)
    try:
        await run_in_threadpool(save_again, found.path, text, form.text("was"))
    except ChangedMeanwhile as meanwhile:
        told = f"Nothing was saved: {meanwhile}. Copy what you typed, then load the page again."
        return await _shown(request, found, text, told=told, status=409)
    looked = await run_in_threadpool(look_at, text, found.path, desk_of(request).settings())
    without = (
        f" It has {count(len(looked.faults), 'fault')}, so no papers can be made of it yet." if looked.faults else ""
    )
    return said(request, f"Saved.{without}", to=SHELF.at(request))


async def prove(request: Request) -> Response:
    """Proves every variant of the text as it is typed, while one goes on."""
    found, text, desk = await SHELF.opened(request), await _typed(request), desk_of(request)
    work = partial(_prove, text, found.path, desk.settings(), SHELF.at(request))
    title = f"Proof of {found.path.stem}"
    return at_work(request, title, work, aside=True, instead=True)


async def paper(request: Request) -> Response:
    """Sets an exercise of the text as it is typed on paper, with its key."""
    found, form, text, desk = (
        await SHELF.opened(request),
        await read_form(request),
        await _typed(request),
        desk_of(request),
    )
    work = partial(_paper, text, found.path, form.text("exercise"), desk.settings())
    job = desk.jobs.start(f"A paper and a key of {found.topic}", work, aside=True)
    return said(request, "", to=f"{SHELF.at(request)}/paper/{job}")


async def paper_seen(request: Request) -> Response:
    """The paper and its key, page by page; while they are set, how far that is."""
    found, desk = await SHELF.opened(request), desk_of(request)
    job = desk.jobs.find(request.path_params["id"])
    if job is None:
        raise HTTPException(404)
    files = job.made.files if job.made else ()
    pictures = [
        (heading, [desk.handles.of(file.path) for file in files if file.use == heading])
        for heading in ("The learner's paper", "The key")
    ]
    pdfs = [(desk.handles.of(file.path), file) for file in files if file.path.suffix == ".pdf"]
    return page(
        request, "bank_paper.html", bank=found, address=SHELF.at(request), job=job, pictures=pictures, pdfs=pdfs
    )


def _prove(text: str, path: Path, settings: Settings, address: str, watch: Watch) -> Made:
    lines = prove_text(text, path, settings, watch)
    for line in lines:
        watch.note(_in_words(line))
    failed = [line for line in lines if line.failed]
    variants = sum(line.variants for line in lines)
    verdict = (
        f"{len(failed)} of {count(len(lines), 'exercise')} failed: no papers are made of this bank until they pass."
        if failed
        else f"All {count(len(lines), 'exercise')} proved, with {count(variants, 'variant')} to issue."
    )
    return Made(says=verdict, onward=(("Back to the bank", address),))


def _in_words(line: ProofLine) -> str:
    if line.failed:
        return f"Line {line.line}: {line.exercise} failed. {line.failed}"
    ranges = "; ".join(f"{name} {low} to {high}" for name, (low, high) in line.ranges.items())
    left = "".join(f"; left out {number} {why}" for why, number in line.left_out.items())
    return f"{line.exercise} (level {line.level}): {count(line.variants, 'variant')}; {ranges}{left}"


def _paper(text: str, path: Path, exercise: str, settings: Settings, watch: Watch) -> Made:
    kept = keep_sample(sample_sheets(text, path, exercise, settings, date.today().isoformat(), watch))
    uses = {"paper": "The learner's paper", "key": "The key"}
    pages = tuple(MadeFile(path=file, use=use) for name, use in uses.items() for file in kept[name])
    pdfs = tuple(
        MadeFile(path=file, use=f"{use}, as a PDF") for file, use in zip(kept["pdf"], uses.values(), strict=True)
    )
    return Made(says=f"{exercise} as it would print.", files=(*pages, *pdfs))


async def _typed(request: Request) -> str:
    """The text as it was typed, its end too; of a shipped bank, which nobody types in, its own."""
    sent = (await read_form(request)).texts("text")
    return sent[-1] if sent else (await SHELF.opened(request)).text


async def _shown(request: Request, found: BankText, text: str, *, told: str = "", status: int = 200) -> Response:
    desk: Desk = desk_of(request)
    looked = await run_in_threadpool(look_at, text, found.path, desk.settings())
    return page(
        request, "bank.html", status=status, bank=found, text=text, lines=text.split("\n"), looked=looked, told=told,
        address=SHELF.at(request), own=SHELF.is_own(request), reference=bank_reference(),
    )  # fmt: skip


ROUTES = (
    Route("/banks", banks),
    Route("/banks/new", new, methods=["POST"]),
    Route("/banks/{whose}/{name}", bank),
    Route("/banks/{whose}/{name}/copy", copy, methods=["POST"]),
    Route("/banks/{whose}/{name}/look", look, methods=["POST"]),
    Route("/banks/{whose}/{name}/faults", faults, methods=["POST"]),
    Route("/banks/{whose}/{name}/prove", prove, methods=["POST"]),
    Route("/banks/{whose}/{name}/paper", paper, methods=["POST"]),
    Route("/banks/{whose}/{name}/paper/{id}", paper_seen),
    Route("/banks/own/{name}/save", save, methods=["POST"]),
)
