"""To practise at home, for the whiteboard, for the wall: each made as one file; and what a class has practised."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from secrets import token_hex
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of
from courseware.desk.forms import Form, Upload, read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.nav import Nav
from courseware.desk.render import at_work, page, said
from courseware.desk.sent_files import sent_as_files
from courseware.files.bank_files import shipped_banks
from courseware.files.record_location import opened, where_there
from courseware.files.sitting_folders import SittingFolder, find_folders
from courseware.glossary.sheets import Glossary
from courseware.practice.board import Board
from courseware.settings.settings import Settings
from courseware.words import count
from courseware.workflows.board import board_of_banks, board_of_sitting, write_board
from courseware.workflows.glossary import find_glossary, write_card, write_glossary
from courseware.workflows.own_banks import banks_shipped, own_banks
from courseware.workflows.own_jobs import examples, own_jobs
from courseware.workflows.practise import to_practise, write_booklet, write_page
from courseware.workflows.progress import class_progress
from courseware.workflows.watch import Watch

if TYPE_CHECKING:
    from sqlalchemy import URL

NAV = (Nav(title="Practise", address="/practise", place=8),)
_LEVELS = ("1", "2", "3")
_HAND_OUT = (
    "Give learners this one file, by the college's own site, by e-mail or on a memory stick: it opens in any browser "
    "on a phone and needs no network. What a learner does stays on that phone, until the learner saves it as a file."
)
_PRINT_OUT = "Print it on both sides; the answers are on the last pages, so keep those back if you want to."


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """A bank to choose: the name that a form has for it, how commands are told of it, and what it is about."""

    key: str
    named: str
    title: str


async def practise(request: Request) -> Response:
    """What can be made to practise, and of what."""
    desk = desk_of(request)
    topics, jobs, sittings = await run_in_threadpool(lambda: (_topics(desk), _jobs(desk), _sittings(desk)))
    return page(request, "practise.html", topics=topics, jobs=jobs, sittings=sittings, levels=_LEVELS)


async def make(request: Request) -> Response:
    """Makes the practice page, or the booklet."""
    desk, form = desk_of(request), await read_form(request)
    chosen = await run_in_threadpool(_chosen, desk, form)
    job = (await run_in_threadpool(_jobs, desk)).get(form.text("job"), ("", None))[1]
    named = chosen or ([] if job else [path.stem for path in shipped_banks()])
    level = int(form.text("level")) if form.text("level") in _LEVELS else None
    printed = form.text("make") == "booklet"
    second = form.uploads("second")[:1]
    work = partial(_make, named, job, level, desk.settings(), desk.processes, desk.out, second, printed)
    title = "The booklet to practise" if printed else "The page to practise"
    return at_work(request, title, work)


async def read_files(request: Request) -> Response:
    """Reads what learners saved on the practice page into one sheet."""
    desk, form = desk_of(request), await read_form(request)
    saved = [(one.name, one.data) for one in form.uploads("saved")]
    if not saved:
        return said(request, "First choose the files that learners saved on the practice page.", to="/practise#class")
    work = partial(_read, saved, desk.settings().name, desk.out, where_there(desk.record()))
    return at_work(request, "What the class has practised", work)


async def board(request: Request) -> Response:
    """Makes pages for the whiteboard: of topics, or of what a marked sitting is to be taught again."""
    desk, form = desk_of(request), await read_form(request)
    code = form.text("sitting")
    if code:
        where = next((one for one in await run_in_threadpool(_sittings, desk) if one.sitting.code == code), None)
        if where is None:
            return said(request, "That sitting is not in the folder of work any more.", to="/practise#board")
        work = partial(_board_of_sitting, where, desk.record(), desk.out, desk.processes)
    else:
        chosen = await run_in_threadpool(_chosen, desk, form)
        if not chosen:
            return said(request, "First choose a topic or a sitting for the whiteboard.", to="/practise#board")
        work = partial(_board_of_banks, chosen, desk.settings(), desk.out, desk.processes)
    return at_work(request, "Pages for the whiteboard", work)


async def words(request: Request) -> Response:
    """Prints the glossary, or the card of the rules."""
    desk, form = desk_of(request), await read_form(request)
    card = form.text("make") == "card"
    work = (
        partial(_card, desk.settings(), desk.out) if card else partial(_glossary, form.uploads("second")[:1], desk.out)
    )
    return at_work(request, "The card of the rules" if card else "The glossary", work)


def _make(
    named: Sequence[str], job: str | None, level: int | None, settings: Settings, processes: int, out: Path,
    second: Sequence[Upload], printed: bool, watch: Watch,
) -> Made:  # fmt: skip
    glossary = _words(second, watch)  # a faulty table is told before any work
    found = to_practise(named, job, level, settings, processes, watch)
    if printed:
        with watch.progress("Printing the booklet", 1) as tell:
            write_booklet(out / "practice.pdf", found)
            tell(1)
        return _made(out / "practice.pdf", "A booklet to practise.", _PRINT_OUT)
    kinds, size = write_page(out / "practice.html", found, glossary, watch)
    says = f"A page to practise, with {count(kinds, 'kind')} of question, {max(1, size // 1000)} kB."
    return _made(out / "practice.html", says, _HAND_OUT)


def _read(saved: Sequence[tuple[str, bytes]], centre: str, out: Path, record: URL | None, watch: Watch) -> Made:
    with watch.progress("Reading what learners saved", 1) as tell:
        found = class_progress(saved, centre, out, date.today().isoformat(), record)
        tell(1)
    for note in found.notes:
        watch.note(note)
    uses = {".pdf": "the class on one sheet, to print", ".xlsx": "the same as a workbook"}
    files = tuple(MadeFile(path=path, use=uses.get(path.suffix, "")) for path in found.files)
    return Made(says=f"What {count(len(found.learners), 'learner')} practised.", files=files, onward=_BACK)


def _board_of_banks(named: Sequence[str], settings: Settings, out: Path, processes: int, watch: Watch) -> Made:
    return _board(out, board_of_banks(named, (), token_hex(32), settings, processes, watch))


def _board_of_sitting(where: SittingFolder, record: URL, out: Path, processes: int, watch: Watch) -> Made:
    with opened(record, make=False) as engine:
        return _board(out, board_of_sitting(engine, where, processes, watch))


def _board(out: Path, made: Board) -> Made:
    file = out / "board.pdf"
    pages = write_board(file, made)
    return _made(file, f"{count(pages, 'page')} for the whiteboard.", "Show it a page at a time, in full screen.")


def _words(second: Sequence[Upload], watch: Watch) -> Glossary:
    """The shipped words, with a second language where a table of it was sent."""
    with sent_as_files(second) as files:
        return find_glossary(None, next(iter(files), None), watch)


def _glossary(second: Sequence[Upload], out: Path, watch: Watch) -> Made:
    with watch.progress("Printing the glossary", 1) as tell:
        made = write_glossary(out / "glossary.pdf", _words(second, watch), watch)
        tell(1)
    return _made(
        out / "glossary.pdf",
        f"{count(made, 'word')} of the trade, each with its picture.",
        "for the wall, or to hand out",
    )


def _card(settings: Settings, out: Path, watch: Watch) -> Made:
    with watch.progress("Printing the card", 1) as tell:
        write_card(out / "card.pdf", settings)
        tell(1)
    return _made(out / "card.pdf", "A card of the rules.", "print it on both sides and fold it to A5")


_BACK = (("To what can be practised", "/practise"),)


def _made(file: Path, says: str, use: str) -> Made:
    return Made(says=says, files=(MadeFile(path=file, use=use),), onward=_BACK)


def _topics(desk: Desk) -> tuple[Topic, ...]:
    """All banks; a form has a key for each, which is looked up here and is no path."""
    shipped = [Topic(key=f"shipped/{one.name}", named=one.name, title=one.topic) for one in banks_shipped()]
    own = [
        Topic(key=f"own/{one.name}", named=str(one.path), title=f"{one.topic} (your own)")
        for one in own_banks(desk.folder)
    ]
    return (*shipped, *own)


def _chosen(desk: Desk, form: Form) -> list[str]:
    wanted = set(form.texts("topic"))
    return [one.named for one in _topics(desk) if one.key in wanted]


def _jobs(desk: Desk) -> dict[str, tuple[str, str]]:
    """The jobs by the form's key: title, and how commands are told of it."""
    own = {f"own/{one.name}": (one.title, str(one.path)) for one in own_jobs(desk.folder) if one.values}
    return {**own, **{f"examples/{one.name}": (one.title, one.name) for one in examples()}}


def _sittings(desk: Desk) -> tuple[SittingFolder, ...]:
    found, _ = find_folders([desk.out])
    return tuple(sorted(found, key=lambda one: one.sitting.date, reverse=True))


ROUTES = (
    Route("/practise", practise),
    Route("/practise/make", make, methods=["POST"]),
    Route("/practise/files", read_files, methods=["POST"]),
    Route("/practise/board", board, methods=["POST"]),
    Route("/practise/words", words, methods=["POST"]),
)
