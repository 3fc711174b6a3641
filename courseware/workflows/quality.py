"""What a quality assurer asks of the record: which sittings are meant, a sample of papers, two markers compared."""

from __future__ import annotations

import secrets
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.history import history
from courseware.database.kept_marks import marks_of
from courseware.database.sittings import sitting_of, sittings
from courseware.database.written_files import note_files
from courseware.files.atomic import PRIVATE, slug, write_whole
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import SittingFolder, sitting_folder
from courseware.papers.codes import LETTERS, read_code
from courseware.quality.sampling import Candidate, SamplingPlan, sampling_plan, size_of_share
from courseware.quality.sampling_sheet import sampling_sheet, sampling_workbook
from courseware.quality.second_marking import compare
from courseware.quality.second_marking_sheet import second_sheet, second_workbook
from courseware.reports.report import Report
from courseware.settings.settings import Settings
from courseware.workflows.audit_copy import markers
from courseware.workflows.marking import marked_folder

if TYPE_CHECKING:
    from sqlalchemy import Engine

_TWO_MARKERS = "two-markers"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sampled:
    """A sampling plan, and the files it was written to."""

    plan: SamplingPlan
    files: tuple[Path, ...]


def sittings_meant(engine: Engine, asked: Sequence[str]) -> tuple[str, ...]:
    """The codes of the sittings meant, by code, folder or sitting.json; all in the record where none is named.

    Raises `NotFound` for one that the record does not have.
    """
    there = {summary.code: None for summary in sittings(engine)}
    meant = tuple(dict.fromkeys(map(_code_of, asked))) if asked else tuple(there)
    for code in meant:
        if code not in there:
            raise NotFound(f"the record has no sitting {code}; take it in with `courseware record take`")
    return meant


def sample(
    engine: Engine,
    codes: Sequence[str],
    size: int | Fraction,
    settings: Settings,
    *,
    seed: str | None,
    pass_lines: Sequence[Fraction],
    names: bool,
    out: Path,
    day: str,
) -> Sampled:
    """Draws a sample from the marked papers of these sittings and writes the plan. `size` is a number or a share."""
    papers, known = _candidates(engine, codes)
    if not papers:
        raise NotFound("there are no marked papers to sample from; mark a sitting first")
    seed = seed or "".join(secrets.choice(LETTERS) for _ in range(6))
    wanted = size if isinstance(size, int) else size_of_share(len(papers), size)
    plan = sampling_plan(papers, size=wanted, seed=seed, pass_lines=pass_lines)
    shown = known if names else {}
    stem = "-".join(filter(None, ("sampling-plan", day, slug(seed))))
    sheet = sampling_sheet(plan, day, settings, shown)
    files = write_both(engine, out, stem, sheet, sampling_workbook(plan, day, shown))
    return Sampled(plan=plan, files=files)


def write_second(engine: Engine, where: SittingFolder, *, names: bool) -> Iterator[str]:
    """Compares the two markings of a sitting and writes what is to be settled; tells what came of it, line by line.

    An earlier comparison is left as it is: marks that were settled since would count as agreement.
    """
    sitting, day = where.sitting, date.today().isoformat()
    found = compare(marks_of(engine, sitting.code, "first"), marks_of(engine, sitting.code, "second"))
    if not found.compared:
        yield "No paper is marked in full by both yet, so nothing of the first marker's is shown."
        return
    shown = {paper.code: paper.learner.name for paper in sitting.papers if paper.learner.name} if names else {}
    folder = marked_folder(where)
    stem = _unused(folder, _TWO_MARKERS)
    files = write_both(
        engine, folder, stem, second_sheet(found, sitting, day, shown), second_workbook(found, sitting, day, shown)
    )
    yield f"{len(found.differences)} of {found.parts} parts marked differently, on {len(found.compared)} papers."
    yield from (f"  to settle: {file}" for file in files)
    if found.differences:
        yield "When `marks` and `reason` are filled in on its sheet:"
        yield f"  courseware mark {where.path} {files[1]} --assessor NAME"


def _unused(folder: Path, stem: str) -> str:
    number = 1
    while (folder / f"{stem}{f'-{number}' if number > 1 else ''}.pdf").exists():
        number += 1
    return f"{stem}-{number}" if number > 1 else stem


def _code_of(asked: str) -> str:
    return sitting_folder(asked).sitting.code if Path(asked).exists() else read_code(asked) or asked


def _candidates(engine: Engine, codes: Sequence[str]) -> tuple[tuple[Candidate, ...], dict[str, str]]:
    """The marked papers of these sittings, and their learners' names by code."""
    papers: list[Candidate] = []
    names: dict[str, str] = {}
    for code in codes:
        sitting = sitting_of(engine, code)
        first = marks_of(engine, code, "first")
        apart = Counter(one.code for one in compare(first, marks_of(engine, code, "second")).differences)
        issued = {paper.code: paper for paper in sitting.papers}
        for paper in {paper.code: paper for paper in first if paper.marks}.values():  # of several scripts the last
            names[paper.code] = issued[paper.code].learner.name
            papers.append(
                Candidate(
                    code=paper.code,
                    sitting=sitting.title,
                    assessors=markers(history(engine, paper.code), second=False),
                    topics=tuple(dict.fromkeys(exercise.topic for exercise in issued[paper.code].exercises)),
                    total=paper.total,
                    of=paper.of,
                    decided=sum(mark.how == "decided" for mark in paper.marks),
                    differing=apart[paper.code],
                    provisional=len(paper.provisional),
                )
            )
    return tuple(papers), {code: name for code, name in names.items() if name}


def write_both(engine: Engine | None, out: Path, stem: str, sheet: Report, workbook: bytes) -> tuple[Path, ...]:
    """Writes a sheet as PDF and its workbook, for their owner alone, and notes them. Returns both files."""
    from courseware.printing.render import job_pdf

    out.mkdir(parents=True, exist_ok=True)
    made: Mapping[Path, bytes] = {out / f"{stem}.pdf": job_pdf(sheet), out / f"{stem}.xlsx": workbook}
    for file, data in made.items():
        write_whole(file, data, PRIVATE)
    if engine is not None:
        note_files(engine, made)
    return tuple(made)
