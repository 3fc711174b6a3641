"""A retake: the banks and learners of an earlier sitting, and every variant that each of them has had."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from courseware.banks import Bank, SafetyNotes
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import SittingFolder, find_folders
from courseware.papers.codes import read_code
from courseware.papers.compose import issued_from, read_sources
from courseware.papers.deal import Chosen
from courseware.papers.group import Learner
from courseware.papers.names import same_name
from courseware.papers.sitting import IssuedPaper, Sitting
from courseware.papers.unused_variants import VariantsHad, had_by
from courseware.workflows.jobs import WORKSHEET


def banks_of(sitting: Sitting) -> tuple[tuple[Bank, ...], SafetyNotes | None, tuple[Chosen, ...]]:
    """The banks and safety notes kept in a sitting, and its exercises in their order."""
    sources = read_sources(sitting)
    banks = {bank.sha256: bank for bank, _ in sources.exercises.values()}
    return tuple(banks.values()), sources.safety, tuple(issued_from(e, sources) for e in sitting.papers[0].exercises)


def learners_of(sitting: Sitting, named: Sequence[str]) -> tuple[IssuedPaper, ...]:
    """The papers of those named, by code, reference or name; all where none is. Raises `NotFound`."""
    if not named:
        return sitting.papers
    found: dict[str, IssuedPaper] = {}
    for who in named:
        own = [
            paper
            for paper in sitting.papers
            if paper.code == read_code(who)
            or same_name(who) in {same_name(paper.learner.name), same_name(paper.learner.reference)} - {""}
        ]
        if len(own) != 1:
            many = "more than one learner is" if own else "no learner of the sitting is"
            raise NotFound(f"{many} called {who}; give the code of the paper")
        found[own[0].code] = own[0]
    return tuple(found.values())


def had_before(papers: Sequence[IssuedPaper], where: SittingFolder, out: Path) -> tuple[VariantsHad, ...]:
    """What each learner has had: in the sitting, and in every other whose folder stands beside it or in `out`."""
    sittings = _sittings_near(where, out)
    return tuple(had_by(paper, sittings if paper.learner.known else (where.sitting,)) for paper in papers)


def had_in_group(learners: Sequence[Learner], where: SittingFolder, out: Path) -> tuple[VariantsHad, ...]:
    """What each learner of another group has had, by the same sittings; () where none of them stands in any."""
    return _had(learners, _sittings_near(where, out))


def had_in_folder(learners: Sequence[Learner], out: Path) -> tuple[VariantsHad, ...]:
    """What each learner has had in any sitting that stands in `out`; () where none of them stands in any."""
    near, _ = find_folders((out.resolve(),))
    return _had(learners, tuple(other.sitting for other in near))


def _had(learners: Sequence[Learner], sittings: Sequence[Sitting]) -> tuple[VariantsHad, ...]:
    blank = [IssuedPaper(code="", learner=learner, exercises=()) for learner in learners]
    had = tuple(had_by(paper, sittings) if paper.learner.known else {} for paper in blank)
    return had if any(had) else ()


def worksheet_on_a_job(sitting: Sitting) -> bool:
    """Whether these are worksheets on a practical task: a job's givens, which every paper shares, are in no bank."""
    givens = {tuple(tuple(sorted(e.given.items())) for e in paper.exercises) for paper in sitting.papers}
    return [bank.file for bank in sitting.banks] == [WORKSHEET] and len(givens) == 1


def _sittings_near(where: SittingFolder, out: Path) -> tuple[Sitting, ...]:
    """The sitting, and every other whose folder stands beside it or in `out`."""
    near, _ = find_folders((where.path.resolve().parent, out.resolve()))  # another's trouble does not stop this one
    sittings = {where.sitting.code: where.sitting}
    for other in near:
        sittings.setdefault(other.sitting.code, other.sitting)
    return tuple(sittings.values())
