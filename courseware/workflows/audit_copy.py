"""The audit copy of one paper, bound from what the record has of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import UTC
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.entering import Role
from courseware.database.given_marks import given_marks, hands
from courseware.database.history import Event, history
from courseware.database.kept_marks import marks_of
from courseware.database.learners import held
from courseware.database.scripts import scripts_of
from courseware.database.sittings import sitting_of
from courseware.database.written_files import note_files
from courseware.files.atomic import PRIVATE, write_whole
from courseware.files.bank_files import NotFound
from courseware.marking.attempts import numbered_attempts
from courseware.marking.marks import Mark, MarkedPaper
from courseware.papers.codes import read_code
from courseware.papers.compose import compose_key, compose_paper, read_sources
from courseware.papers.group import Learner
from courseware.papers.sitting import Sitting
from courseware.quality.audit_copy import Contents, EventRow, Marking, front_sheet, history_sheet, marks_sheet
from courseware.settings.settings import Settings

if TYPE_CHECKING:
    from sqlalchemy import Engine


def audit_copy(engine: Engine, code: str, settings: Settings, *, names: bool, out: Path, day: str) -> Path:
    """Writes the audit copy of a paper: front sheet, paper, key, script with its marks, history. Returns its file."""
    own = read_code(code) or code
    of = next((paper.sitting for paper in held(engine) if paper.paper == own), None)
    if of is None:
        raise NotFound(f"the record has no paper {own}; copy the code from the head of the paper")
    sitting = sitting_of(engine, of)
    place = next(place for place, paper in enumerate(sitting.papers) if paper.code == own)
    events = history(engine, own)
    first = _markings(engine, sitting.code, own, "first")
    second = (*_markings(engine, sitting.code, own, "second"), *_by_hand(engine, sitting.code, own, first))
    out.mkdir(parents=True, exist_ok=True)
    file = out / f"audit-{own}.pdf"
    write_whole(file, _audit_copy(sitting, place, first, second, events, day, settings, named=names), PRIVATE)
    note_files(engine, [file], [own])
    return file


def _markings(engine: Engine, sitting: str, code: str, role: Role) -> tuple[Marking, ...]:
    """Each script of a paper as one marker left it: its marks, or what is typed where none are there yet.

    A record from before second marks were given by hand has scripts that the second marker typed once more.
    """
    marked = {
        attempt: paper for attempt, paper in numbered_attempts(marks_of(engine, sitting, role)) if paper.code == code
    }
    typed = [script for script in scripts_of(engine, sitting, role) if script.code == code]
    who = ", ".join(hands(engine, sitting, role).get(code, ())) or "not named"
    found: list[Marking] = []
    for attempt, script in numbered_attempts(typed):
        again = f", script {attempt}" if len(typed) > 1 else ""
        paper = marked.get(attempt) or MarkedPaper(code=code, status=script.status, marks=())
        found.append(Marking(title=f"{role.capitalize()} marker: {who}{again}", paper=paper, cells=script.cells))
    return tuple(found)


def _by_hand(engine: Engine, sitting: str, code: str, first: Sequence[Marking]) -> Iterator[Marking]:
    """The marks that each second marker gave by hand, beside those of the first."""
    of = {mark.label: mark for marking in first for mark in marking.paper.marks}
    given: dict[str, list[Mark]] = {}
    for one in given_marks(engine, sitting, "second"):
        if one.code == code and one.label in of:
            by_hand = replace(of[one.label], marks=one.marks, how="decided", why=one.note, slips=(), comment="")
            given.setdefault(one.by, []).append(by_hand)
    for by, marks in given.items():
        yield Marking(title=f"Second marker: {by}", paper=MarkedPaper(code=code, status="", marks=tuple(marks)))


def _audit_copy(
    sitting: Sitting,
    place: int,
    first: Sequence[Marking],
    second: Sequence[Marking],
    events: Sequence[Event],
    day: str,
    settings: Settings,
    *,
    named: bool,
) -> bytes:
    from courseware.printing.bind_pdfs import bind_pdfs, pages_of
    from courseware.printing.render import job_pdf, key_pdf, paper_pdf

    issued, sources = sitting.papers[place], read_sources(sitting)
    shown = sitting if named else _nameless(sitting, place)
    pieces = [
        ("The paper as issued", paper_pdf(compose_paper(shown, place, sources))),
        ("Its key", key_pdf(compose_key(shown, place, sources))),
        ("The script and its marks", job_pdf(marks_sheet(issued, first, second, named=named))),
        ("History of the marks", job_pdf(history_sheet(issued, tuple(map(_change, events)), named=named))),
    ]
    sizes = [(says, pages_of(pdf)) for says, pdf in pieces]
    before = 0  # pages of the front sheet, which has one or, with many files, more
    front = b""
    while not front or pages_of(front) != before:
        before = pages_of(front) if front else 1
        front = job_pdf(front_sheet(sitting, issued, _contents(sizes, before), day, settings, named=named))
    return bind_pdfs(f"Audit copy of paper {issued.code}", [("Front sheet", front), *pieces])


def _contents(sizes: Sequence[tuple[str, int]], before: int) -> tuple[Contents, ...]:
    found: list[Contents] = []
    for says, pages in sizes:
        found.append(Contents(title=says, first=before + 1, last=before + pages))
        before += pages
    return tuple(found)


def _nameless(sitting: Sitting, place: int) -> Sitting:
    papers = list(sitting.papers)
    papers[place] = replace(papers[place], learner=Learner(name=""))
    return replace(sitting, papers=tuple(papers))


def _change(event: Event) -> EventRow:
    when = event.at.astimezone(UTC).strftime("%Y-%m-%d %H:%M")
    return EventRow(
        when=when, who=event.by, what=event.what, before=event.before, after=event.after, reason=event.reason
    )
