"""How papers are set, a last look at what was chosen, and their issue as a piece of work."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import Desk, desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.job_queue import Made, MadeFile
from courseware.desk.pages.papers_exercises import sums_of, sums_words
from courseware.desk.render import page, said
from courseware.files.bank_files import NotFound
from courseware.files.sitting_files import ALL_KEYS, ALL_PAPERS, APPROVED
from courseware.files.sitting_folders import read_folder
from courseware.papers.sheet_format import KNOWN_WORDS, SheetFormat, beside, format_words, read_format
from courseware.papers.sitting_checks import LONGEST_TITLE
from courseware.papers.titles import title_of
from courseware.settings.settings import Settings
from courseware.words import count
from courseware.workflows.approval import REQUIRED
from courseware.workflows.class_lists import KeptList, open_list
from courseware.workflows.exercises_at_hand import Totals, banks_at_hand, find_exercises, sides_in_all
from courseware.workflows.issue import Issued
from courseware.workflows.papers_begun import (
    MOST_EXERCISES,
    PapersBegun,
    change_papers,
    entries_wrong,
    issue_begun,
    made_already,
    missing,
    papers_begun,
    sheets_of,
)
from courseware.workflows.watch import Watch

SIZES = (
    ("", "Usual, 11 point"),
    ("large-14", "Large, 14 point"),
    ("large-18", "Large, 18 point"),
    ("large-24", "Large, 24 point"),
)
_TEXTS = ("title", "date", "due", "group_name", "seed")


async def settings(request: Request) -> Response:
    """Title, date, group and how the sheets are set."""
    work, key = desk_of(request).folder, request.path_params["key"]
    papers = await run_in_threadpool(papers_begun, work, key)
    sheets = sheets_of(papers)
    size = f"large-{sheets.size}" if sheets.size > SheetFormat().size else ""
    typed = {name: getattr(papers, name) for name in _TEXTS} | {
        "size": size,
        "more": " ".join(word for word in format_words(sheets).split() if word not in (size, "roomy")),
        "exercises": str(papers.exercises or ""),
    }
    ticked = {"roomy": sheets.roomy, "word": papers.word, "by_level": papers.by_level}
    return await _settings(request, papers, typed, ticked, {})


async def _settings(
    request: Request, papers: PapersBegun, typed: dict[str, str], ticked: dict[str, bool], wrong: dict[str, str]
) -> Response:
    desk = desk_of(request)
    kept = await run_in_threadpool(_kept, desk, papers)
    title, sums = await run_in_threadpool(_title_and_sums, desk, papers)
    return page(
        request, "papers_settings.html", status=422 if wrong else 200, key=request.path_params["key"], papers=papers,
        typed=typed, ticked=ticked, wrong=wrong, kept=kept, title_else=title, sums=sums, sizes=SIZES, words=KNOWN_WORDS,
        today=date.today().isoformat(), longest=LONGEST_TITLE, most=MOST_EXERCISES,
    )  # fmt: skip


async def save(request: Request) -> Response:
    """Keeps the settings; what cannot be is told at its place, with everything still as it was typed."""
    desk, form, key = desk_of(request), await read_form(request), request.path_params["key"]
    papers = await run_in_threadpool(papers_begun, desk.folder, key)
    typed = {name: form.text(name) for name in (*_TEXTS, "size", "more", "exercises")}
    ticked = {name: form.ticked(name) for name in ("roomy", "word", "by_level")}
    sheets = " ".join(filter(None, (typed["size"], "roomy" if ticked["roomy"] else "", typed["more"])))
    wrong = entries_wrong({**typed, "sheets": sheets})
    if "sheets" in wrong:
        wrong["more"] = wrong.pop("sheets")
    number = typed["exercises"]
    if (
        ticked["by_level"]
        and number
        and not (number.isascii() and number.isdigit() and 1 <= int(number[:4]) <= MOST_EXERCISES)
    ):
        wrong["exercises"] = f"Write a number from 1 to {MOST_EXERCISES}, or nothing."
    if wrong:
        return await _settings(request, papers, typed, ticked, wrong)
    changed: dict[str, Any] = {name: typed[name] for name in _TEXTS} | {
        "sheets": format_words(read_format(sheets)),
        "word": ticked["word"],
        "by_level": ticked["by_level"],
        "exercises": int(number or 0) if ticked["by_level"] else 0,
    }
    await run_in_threadpool(lambda: change_papers(desk.folder, key, **changed))
    return said(request, "", to=f"/papers/{key}/ready")


async def ready(request: Request) -> Response:
    """A last look at everything, with what is still missing."""
    desk, key = desk_of(request), request.path_params["key"]
    papers = await run_in_threadpool(papers_begun, desk.folder, key)
    kept = await run_in_threadpool(_kept, desk, papers)
    title, sums = await run_in_threadpool(_title_and_sums, desk, papers)
    sides = await run_in_threadpool(_sides, desk, papers, kept)
    left = await run_in_threadpool(missing, desk.folder, papers)
    learners = len(kept.rows) if kept else papers.learners
    day, group = papers.date or date.today().isoformat(), papers.group_name or (kept.name if kept else "")
    already = await run_in_threadpool(made_already, desk.out, day, papers.title or title, group)
    required = (await run_in_threadpool(desk.settings)).approval == REQUIRED
    return page(
        request, "papers_ready.html", key=key, papers=papers, kept=kept, learners=learners, title=papers.title or title,
        sides=sides, sums=sums, sums_words=sums_words(sums), left=left, sheets=papers.sheets,
        approval_required=required, already=already,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Issuing:
    """The issue of papers begun, as a piece of work."""

    work: Path
    key: str
    out: Path
    settings: Settings
    processes: int
    by: str
    for_approval: bool

    def __call__(self, watch: Watch) -> Made:
        return made_of(
            issue_begun(
                self.work,
                self.key,
                self.out,
                self.settings,
                self.processes,
                watch,
                by=self.by,
                for_approval=self.for_approval,
            )
        )


async def issue(request: Request) -> Response:
    """Issues the papers, once however often it is asked; whoever loads the page of this work sees how far it is."""
    desk, key = desk_of(request), request.path_params["key"]
    papers = await run_in_threadpool(papers_begun, desk.folder, key)
    for_approval = (await read_form(request)).text("do") == "for-approval"
    if await run_in_threadpool(missing, desk.folder, papers):
        return said(request, "", to=f"/papers/{key}/ready")
    centre = await run_in_threadpool(desk.settings)
    title = papers.title or await run_in_threadpool(lambda: _title_and_sums(desk, papers)[0])
    issuing = _Issuing(
        work=desk.folder, key=key, out=desk.out, settings=centre, processes=desk.processes, by=session_of(request).who,
        for_approval=for_approval,
    )  # fmt: skip
    going_on = [
        job for job in desk.jobs.all() if isinstance(job.work, _Issuing) and job.work.key == key and not job.over
    ]
    id = going_on[0].id if going_on else desk.jobs.start(f"Papers: {title}", issuing)
    return said(request, "", to=f"/work/{id}")


def made_of(issued: tuple[Issued, ...]) -> Made:
    """What came of issuing: each sitting's files to print, and its page to go on to."""
    files: list[MadeFile] = []
    onward = []
    if issued and not issued[0].printed:
        sheets = tuple(MadeFile(path=one.folder / APPROVED, use="For the assurer to look through.") for one in issued)
        says = f"{count(sum(one.papers for one in issued), 'paper')} dealt, none printed yet."
        return Made(says=says, files=sheets, onward=(("Print them, once they are approved", "/papers"),))
    for one in issued:
        sitting = read_folder(one.folder).sitting
        files.append(MadeFile(path=one.folder / ALL_PAPERS, use=f"Print this for {sitting.group or 'the class'}."))
        files.append(MadeFile(path=one.folder / ALL_KEYS, use="Answers and working, for you alone."))
        called = ", ".join(filter(None, (sitting.title, sitting.group)))
        onward.append((f"On to {called}: its files and learners", f"/sittings/{sitting.code}"))
    says = f"{count(sum(one.papers for one in issued), 'paper')} made, each with its key."
    if any(one.resumed for one in issued):
        says += " It went on from work that had been stopped."
    return Made(says=says, files=tuple(files), onward=tuple(onward))


def _kept(desk: Desk, papers: PapersBegun) -> KeptList | None:
    try:
        return open_list(desk.folder, papers.class_list) if papers.class_list else None
    except (NotFound, ValueError):
        return None


def _sides(desk: Desk, papers: PapersBegun, kept: KeptList | None) -> int:
    """About how many sides all papers take, each set as its learner's are."""
    banks = banks_at_hand(desk.folder, desk.settings())
    _, gone = sums_of(banks, papers)
    chosen = find_exercises(banks, [one for one in papers.picks if one not in gone])
    everybodys, found = sheets_of(papers), kept.checked.found if kept else None
    formats = [beside(who.sheets, everybodys) for who in found.learners] if found else [everybodys] * papers.learners
    return sides_in_all(chosen, formats)


def _title_and_sums(desk: Desk, papers: PapersBegun) -> tuple[str, Totals]:
    banks = banks_at_hand(desk.folder, desk.settings())
    sums, _ = sums_of(banks, papers)
    by_key = {bank.key: bank.topic for bank in banks}
    topics = [by_key[key] for key in dict.fromkeys(one.bank for one in papers.picks) if key in by_key]
    return (title_of(topics) if topics else ""), sums


ROUTES = (
    Route("/papers/{key}/settings", settings),
    Route("/papers/{key}/settings/save", save, methods=["POST"]),
    Route("/papers/{key}/ready", ready),
    Route("/papers/{key}/issue", issue, methods=["POST"]),
)
