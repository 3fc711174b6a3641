"""Papers that a stopped run left unfinished: which there are, gone on with, or thrown away."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from courseware.files.atomic import Unfinished, discard, one_at_a_time, stopped_runs
from courseware.files.bank_files import NotFound
from courseware.files.sitting_files import SITTING, key_file, paper_file
from courseware.files.sitting_folders import read_folder
from courseware.papers.sitting_file import SittingFaulty
from courseware.workflows.issuing import asks_for_copies, asks_for_papers, print_unfinished, sheets_each
from courseware.workflows.papers_begun import put_away_issued
from courseware.workflows.register import take_in
from courseware.workflows.watch import Watch


@dataclass(frozen=True, slots=True, kw_only=True)
class StoppedIssue:
    """A sitting whose papers are not all printed; `printed` of `papers` with their keys."""

    path: Path
    title: str
    group: str
    papers: int
    printed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class GoneOn:
    """The sitting's folder once it is finished."""

    folder: Path
    code: str
    papers: int


def stopped_issues(out: Path) -> tuple[StoppedIssue, ...]:
    """The unfinished sittings in an output folder; one that another run is printing just now is among them."""
    return tuple(_stopped(out))


def _stopped(out: Path) -> Iterator[StoppedIssue]:
    for unfinished, request in stopped_runs(out):
        if not asks_for_papers(request):
            continue
        try:
            sitting = read_folder(unfinished.path).sitting
        except SittingFaulty:  # stopped before it was dealt: nothing of it was issued
            continue
        done = [
            paper.code
            for paper in sitting.papers
            if all((unfinished.path / file(paper.code)).exists() for file in (paper_file, key_file))
        ]
        yield StoppedIssue(
            path=unfinished.path,
            title=sitting.title,
            group=sitting.group,
            papers=len(sitting.papers),
            printed=len(done),
        )


def go_on(out: Path, path: Path, processes: int, watch: Watch) -> GoneOn | None:
    """Prints what is wanting of an unfinished sitting, moves it into its place and takes it into the record.

    None where it is there no more: finished, or thrown away. Raises `NotFound` where its place has been taken.
    """
    with one_at_a_time(out, watch.waiting):
        found = _find(out, path)
        if found is None:
            return None
        unfinished, request = found
        if unfinished.final.exists():
            raise NotFound(f"{unfinished.final} has come there since these papers were begun; move it away first")
        text = (path / SITTING).read_text(encoding="utf-8")
        sitting = read_folder(path).sitting
        word = asks_for_copies(request)
        with watch.progress("Printing", sheets_each(word) * len(sitting.papers)) as tell:
            folder = print_unfinished(unfinished, text, sitting, processes, tell, word=word)
    take_in(folder, watch)
    put_away_issued(out.parent, sitting)
    return GoneOn(folder=folder, code=sitting.code, papers=len(sitting.papers))


def throw_away(out: Path, path: Path, watch: Watch) -> bool:
    """Removes an unfinished sitting. False where it is there no more."""
    with one_at_a_time(out, watch.waiting):
        found = _find(out, path)
        if found is not None:
            discard(found[0])
        return found is not None


def _find(out: Path, path: Path) -> tuple[Unfinished, str] | None:
    return next((one for one in stopped_runs(out) if one[0].path == path), None)
