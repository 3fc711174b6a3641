"""A retake: the banks and learners of an earlier sitting, and every variant that each of them has had."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from courseware.banks import Bank, SafetyNotes
from courseware.desk.issuing import record_text
from courseware.desk.jobs import WORKSHEET
from courseware.desk.marking import Place
from courseware.desk.shelf import NotFound
from courseware.desk.sitting_files import RECORD
from courseware.papers.codes import read_code
from courseware.papers.compose import issued_from, read_sources
from courseware.papers.deal import Chosen
from courseware.papers.fresh import Had, had_by
from courseware.papers.group import Learner
from courseware.papers.record import RecordFaulty, read_record
from courseware.papers.sitting import IssuedPaper, Sitting


def banks_of(sitting: Sitting) -> tuple[tuple[Bank, ...], SafetyNotes | None, tuple[Chosen, ...]]:
    """The banks and safety notes kept in a sitting's record, and its exercises in their order."""
    sources = read_sources(sitting)
    banks = {bank.sha256: bank for bank, _ in sources.exercises.values()}
    return tuple(banks.values()), sources.safety, tuple(issued_from(e, sources) for e in sitting.papers[0].exercises)


def learners_of(sitting: Sitting, named: Sequence[str]) -> tuple[IssuedPaper, ...]:
    """The papers of those named, by code, reference or name; all where none is. Raises `NotFound`."""
    if not named:
        return sitting.papers
    found: dict[str, IssuedPaper] = {}
    for who in named:
        own = [p for p in sitting.papers if who in {p.learner.name, p.learner.reference} or p.code == read_code(who)]
        if len(own) != 1:
            many = "more than one learner is" if own else "no learner of the sitting is"
            raise NotFound(f"{many} called {who}; give the code of the paper")
        found[own[0].code] = own[0]
    return tuple(found.values())


def had_before(papers: Sequence[IssuedPaper], place: Place, out: str) -> tuple[Had, ...]:
    """What each learner has had: in the sitting, and in every other whose folder stands beside it or in `out`."""
    sittings = _sittings_near(place, out)
    return tuple(had_by(paper, sittings if paper.learner.known else (place.sitting,)) for paper in papers)


def had_in_group(learners: Sequence[Learner], place: Place, out: str) -> tuple[Had, ...]:
    """What each learner of another group has had, by the same sittings; () where none of them stands in any."""
    sittings = _sittings_near(place, out)
    blank = [IssuedPaper(code="", learner=learner, exercises=()) for learner in learners]
    had = tuple(had_by(paper, sittings) if paper.learner.known else {} for paper in blank)
    return had if any(had) else ()


def worksheet_on_a_job(sitting: Sitting) -> bool:
    """Whether these are worksheets on a practical task: a job's givens, which every paper shares, are in no bank."""
    givens = {tuple(tuple(sorted(e.given.items())) for e in paper.exercises) for paper in sitting.papers}
    return [bank.file for bank in sitting.banks] == [WORKSHEET] and len(givens) == 1


def _sittings_near(place: Place, out: str) -> tuple[Sitting, ...]:
    """The sitting, and every other whose folder stands beside it or in `out`."""
    folders = {folder for parent in (place.folder.resolve().parent, Path(out).resolve()) for folder in parent.glob("*")}
    records = {path.resolve() for folder in folders if (path := folder / RECORD).is_file()}
    sittings = {place.sitting.code: place.sitting}
    for record in sorted(records):
        try:
            other = read_record(record_text(record))
        except RecordFaulty:
            continue  # another sitting's trouble does not stop this one
        sittings.setdefault(other.code, other)
    return tuple(sittings.values())
