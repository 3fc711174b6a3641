"""What changes in a sitting after it was issued: a learner who joins, a name put right. Nobody else's papers change."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from courseware.files.atomic import one_at_a_time, write_whole
from courseware.files.bank_files import NotFound
from courseware.files.sitting_files import SECOND_SHEET, SHEET, SITTING, TUTOR, paper_file, word_file
from courseware.files.sitting_folders import SittingFolder, read_folder, sitting_folder
from courseware.papers.group import Learner
from courseware.papers.joining import with_learners
from courseware.papers.shares import for_papers
from courseware.papers.sitting import IssuedPaper, Sitting
from courseware.papers.sitting_file import read_sitting, write_sitting
from courseware.printing.glyph_coverage import unprintable_names
from courseware.printing.versions import versions, what_differs
from courseware.spreadsheets.xlsx_rows import with_rows
from courseware.workflows import issuing
from courseware.workflows.proving import proved
from courseware.workflows.register import take_in
from courseware.workflows.retaking import banks_of, had_in_group, learners_of, worksheet_on_a_job
from courseware.workflows.watch import Watch


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """A sitting's folder, and the papers that are new in it or have another name."""

    folder: Path
    papers: tuple[IssuedPaper, ...]


def join(named: str, learners: Sequence[Learner], processes: int, watch: Watch, *, by: str = "") -> Changed:
    """Papers for learners who join a sitting: the next variants of the same spaces, codes of their own.

    Whoever stood in a sitting beside this one gets no variant that they had there. Raises `CannotDeal` or `NotFound`.
    """
    with _held(named, watch) as where:
        if worksheet_on_a_job(where.sitting):
            raise NotFound("these worksheets are on a job's figures; make more of them with `courseware job`")
        _, _, chosen = banks_of(where.sitting)
        spaces = [for_papers(proof.space) for proof in proved(chosen, processes, "is not issued", watch)]
        had = had_in_group(learners, where, where.path.resolve().parent)
        sitting = with_learners(where.sitting, learners, chosen, spaces, had)
        new = range(len(where.sitting.papers), len(sitting.papers))
        changed = _carry_out(where, sitting, new, processes, watch)
    take_in(changed.folder, watch, by=by)
    return changed


def rename(named: str, who: str, name: str, reference: str | None, processes: int, watch: Watch) -> Changed:
    """A learner's name, and reference where one is given, put right on paper, key and sheets. Raises `NotFound`."""
    with _held(named, watch) as where:
        [paper] = learners_of(where.sitting, [who])
        reference = paper.learner.reference if reference is None else reference
        learner = replace(paper.learner, name=name, reference=reference)
        place = where.sitting.papers.index(paper)
        papers = (*where.sitting.papers[:place], replace(paper, learner=learner), *where.sitting.papers[place + 1 :])
        changed = _carry_out(where, replace(where.sitting, papers=papers), [place], processes, watch)
    take_in(changed.folder, watch)
    return changed


@contextmanager
def _held(named: str, watch: Watch) -> Iterator[SittingFolder]:
    """The sitting's own folder, which no other run changes meanwhile. Raises `NotFound` or `SittingFaulty`."""
    path = sitting_folder(named).path
    if not (path / TUTOR).is_dir():
        raise NotFound(f"{path} is not the folder of a sitting with its papers; `courseware again` makes one")
    with one_at_a_time(path.resolve().parent, watch.waiting):
        yield read_folder(path)


def _carry_out(where: SittingFolder, sitting: Sitting, places: Sequence[int], processes: int, watch: Watch) -> Changed:
    """Prints what is other, then writes sitting.json: a run stopped before that is done again from the start."""
    text = write_sitting(sitting)
    read_sitting(text)  # before anything is written: what cannot be read back is not issued
    folder, papers = where.path, tuple(sitting.papers[place] for place in places)
    for note in unprintable_names([paper.learner for paper in papers]):
        watch.note(note)
    word = (folder / word_file(paper_file(where.sitting.papers[0].code))).exists()
    with watch.progress("Printing", issuing.sheets_each(word) * len(papers)) as tell:
        issuing.print_again(text, sitting, folder, places, processes, tell, word=word)
    for name in (SHEET, SECOND_SHEET):
        _put_into_sheet(folder / TUTOR / name, papers, sitting.date, watch)
    write_whole(folder / SITTING, text.encode(), 0o600)
    if differs := what_differs(sitting.made_with, versions()):
        watch.note(f"{differs}.")
    return Changed(folder=folder, papers=papers)


def _put_into_sheet(file: Path, papers: Sequence[IssuedPaper], day: str, watch: Watch) -> None:
    """The learners' rows in a marking sheet, where there is one; what is typed into it stays."""
    if not file.is_file():
        return
    rows = {paper.code: {"name": paper.learner.name, "reference": paper.learner.reference} for paper in papers}
    if (made := with_rows(file.read_bytes(), "code", rows, day)) is None:
        codes = ", ".join(rows)
        watch.note(f"{file.name} is not as it was issued and was left alone: write the code and name in it ({codes}).")
    else:
        write_whole(file, made, 0o600)
