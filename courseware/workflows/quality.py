"""What a quality assurer asks of the record: which sittings are meant, a sample of papers, two markers compared."""

from __future__ import annotations

import secrets
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.appeals import APPEALED
from courseware.database.given_marks import SETTLED, given_marks, hands_in, marks_before, with_given_marks
from courseware.database.learners import held
from courseware.database.outlines import briefs
from courseware.database.sample_results import Assured, beside, keep_results, results_of
from courseware.database.sittings import sittings
from courseware.database.written_files import note_files
from courseware.files.atomic import PRIVATE, slug, write_whole
from courseware.files.bank_files import NotFound, read_file
from courseware.files.sitting_folders import sitting_folder
from courseware.papers.codes import LETTERS, read_code
from courseware.papers.sitting_checks import is_plain
from courseware.quality.sample_results import LONGEST as LONGEST_NOTE
from courseware.quality.sample_results import SampleResult, open_actions, read_results
from courseware.quality.sampling import Candidate, SamplingPlan, sampling_plan, size_of_share
from courseware.quality.sampling_sheet import sampling_sheet, sampling_workbook
from courseware.quality.second_marking import Differences, compare
from courseware.reports.report import Report
from courseware.settings.settings import Settings
from courseware.text_files.faults import harmless

if TYPE_CHECKING:
    from sqlalchemy import Engine


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
    papers, known = candidates(engine, codes, settings)
    if not papers:
        raise NotFound("there are no marked papers to sample from; mark a sitting first")
    seed = seed or "".join(secrets.choice(LETTERS) for _ in range(6))
    wanted = size if isinstance(size, int) else size_of_share(len(papers), size)
    plan = sampling_plan(papers, size=wanted, seed=seed, pass_lines=pass_lines, not_agreed=_not_agreed(engine))
    shown = known if names else {}
    stem = "-".join(filter(None, ("sampling-plan", day, slug(seed))))
    sheet = sampling_sheet(plan, day, settings, shown)
    files = write_both(engine, out, stem, sheet, sampling_workbook(plan, day, shown))
    return Sampled(plan=plan, files=files)


def compare_markers(engine: Engine, sitting: str, settings: Settings) -> Differences:
    """The two markings of a sitting as the record has them, before any was settled or changed on appeal."""
    first = marks_before(engine, sitting, [SETTLED, APPEALED])
    return compare(first, given_marks(engine, sitting, "second"), program_counts=settings.first_marker == "program")


def _code_of(asked: str) -> str:
    return sitting_folder(asked).sitting.code if Path(asked).exists() else read_code(asked) or asked


def candidates(
    engine: Engine, codes: Sequence[str], settings: Settings
) -> tuple[tuple[Candidate, ...], dict[str, str]]:
    """The marked papers of these sittings, and their learners' names by code."""
    papers: list[Candidate] = []
    names: dict[str, str] = {}
    all_results = results_of(engine)
    open_now = {one.code for one in open_actions(all_results)}
    who = hands_in(engine, codes)
    second = with_given_marks(engine, "second")
    for sitting in briefs(engine, codes):
        differences = compare_markers(engine, sitting.code, settings).differences if sitting.code in second else ()
        apart = Counter(one.code for one in differences)
        for code, (name, total) in sitting.papers.items():
            names[code] = name
            papers.append(
                Candidate(
                    code=code,
                    sitting=sitting.title,
                    assessors=who.get(code, ()),
                    topics=sitting.topics,
                    total=total.marks,
                    of=total.of,
                    decided=total.decided,
                    differing=apart[code],
                    provisional=total.provisional,
                    open_action=code in open_now,
                )
            )
    return tuple(papers), {code: name for code, name in names.items() if name}


def _not_agreed(engine: Engine) -> dict[str, int]:
    """How many sampled papers of each assessor were not agreed with, in all sittings."""
    by_code = {one.code: one for one in results_of(engine) if not one.agreed}
    found: Counter[str] = Counter()
    there = [summary.code for summary in sittings(engine)] if by_code else []
    for code, names in hands_in(engine, there).items():
        found.update(names if code in by_code else ())
    return dict(found)


def enter_results(engine: Engine, plan: Path) -> Assured:
    """Enters what a quality assurer filled in on a sampling plan's workbook. Raises `NotFound` or `TableFaulty`."""
    return keep_results(engine, _filled_in(engine, plan), at=datetime.now(UTC))


def look_at_results(engine: Engine, plan: Path) -> Assured:
    """What entering a plan's workbook would do; nothing is entered. Raises as `enter_results` does."""
    return beside(results_of(engine), _filled_in(engine, plan))


def close_action(engine: Engine, code: str, plan: str, *, day: str, note: str) -> SampleResult:
    """Closes the open action on a paper of a plan on a day (ISO 8601); `note` says what was done.

    Raises `NotFound` where none is open, for a day that is none or before the sample, or for a note that is too long.
    """
    still = next((one for one in open_actions(results_of(engine)) if (one.code, one.plan) == (code, plan)), None)
    if still is None:
        raise NotFound(f"no action on {code} is open; somebody may have closed it meanwhile")
    try:
        done = date.fromisoformat(day)
    except ValueError:
        raise NotFound(f"`{harmless(day[:20])}` is not a date; write it as 2026-11-25") from None
    if done < date.fromisoformat(still.day):
        raise NotFound(f"the action was asked for on {still.day}, so it is not closed before that day")
    notes = "; ".join(filter(None, (still.note, note)))
    if not is_plain(notes, LONGEST_NOTE):
        raise NotFound(f"with what is noted already, the note has more than {LONGEST_NOTE} plain characters")
    closed = replace(still, done=day, note=notes)
    keep_results(engine, [closed], at=datetime.now(UTC))
    return closed


def _filled_in(engine: Engine, plan: Path) -> tuple[SampleResult, ...]:
    results = read_results(read_file(plan), plan.name, {one.paper for one in held(engine)})
    if not results:
        raise NotFound(
            f"{plan.name} has no results yet; fill in `agreed`, `by` and `date`, and `action` where one is needed"
        )
    return results


def write_both(
    engine: Engine | None, out: Path, stem: str, sheet: Report, workbook: bytes, codes: Sequence[str] = ()
) -> tuple[Path, ...]:
    """Writes a sheet as PDF and its workbook, for their owner alone, and notes them. Returns both files.

    `codes` are the papers that they are about, none where they are about a class.
    """
    from courseware.printing.render import job_pdf

    out.mkdir(parents=True, exist_ok=True)
    made: Mapping[Path, bytes] = {out / f"{stem}.pdf": job_pdf(sheet), out / f"{stem}.xlsx": workbook}
    for file, data in made.items():
        write_whole(file, data, PRIVATE)
    if engine is not None:
        note_files(engine, made, codes)
    return tuple(made)
