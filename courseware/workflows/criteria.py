"""A centre's criteria file mapped over the record: banks, jobs and sittings gathered, the map written."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from courseware.banks import Bank, read_bank
from courseware.database.observations import observations_of
from courseware.database.outlines import many_plain_objects, outlines
from courseware.files.bank_files import find_banks, read_banks, shipped_banks
from courseware.jobs.observation import Observation
from courseware.jobs.plan import plan_of
from courseware.jobs.sheets import job_sheets
from courseware.marking.marks import MarkedSitting
from courseware.papers.sitting import Sitting
from courseware.quality.criteria import Offer, criteria_of, offer
from courseware.quality.criteria_map import CriteriaMap, criteria_map
from courseware.quality.criteria_sheet import criteria_sheet, criteria_workbook, named
from courseware.settings.settings import Settings
from courseware.workflows.jobs import find_job, shipped_jobs
from courseware.workflows.quality import write_both

if TYPE_CHECKING:
    from sqlalchemy import Engine


def map_criteria(
    engine: Engine | None,
    codes: Sequence[str],
    settings: Settings,
    banks: Sequence[str],
    *,
    names: bool,
    out: Path,
    day: str,
) -> tuple[CriteriaMap, tuple[Path, ...]]:
    """Writes the map of the criteria in a centre's settings over these sittings. Returns both.

    `banks` are further banks that it may name.
    """
    found, ordered = mapped(engine, codes, settings, banks)
    file = PurePath(settings.file).name
    shown = named(found) if names else {}
    sheet = criteria_sheet(found, ordered, settings, file, day, shown)
    workbook = criteria_workbook(found, ordered, file, day, shown)
    files = write_both(engine, out, f"criteria-map-{day}", sheet, workbook)
    return found, files


def mapped(
    engine: Engine | None, codes: Sequence[str], settings: Settings, banks: Sequence[str]
) -> tuple[CriteriaMap, list[MarkedSitting]]:
    """The map of a centre's criteria over these sittings, and the sittings in outline."""
    with many_plain_objects():
        return _mapped(engine, codes, settings, banks)


def _mapped(
    engine: Engine | None, codes: Sequence[str], settings: Settings, banks: Sequence[str]
) -> tuple[CriteriaMap, list[MarkedSitting]]:
    ordered = list(outlines(engine, codes)) if engine is not None else []
    own = [bank for paths in (shipped_banks(), find_banks(banks)) for bank in read_banks(paths)[0]]
    seen = observations_of(engine) if engine is not None else ()
    on_offer = offered((*issued_banks(one.sitting for one in ordered), *own), settings, seen)
    return criteria_map(criteria_of(settings, on_offer), ordered, seen), ordered


def issued_banks(issued: Iterable[Sitting]) -> tuple[Bank, ...]:
    """The banks that sittings hold, each once."""
    texts = {source.sha256: (source, sitting.settings) for sitting in issued for source in sitting.banks}
    return tuple(read_bank(source.text.encode(), source.file, own) for source, own in texts.values())


def offered(banks: Sequence[Bank], settings: Settings, seen: Sequence[Observation] = ()) -> Offer:
    """What these banks and the shipped jobs offer as evidence, in the centre's words.

    A centre's own job is among them once somebody was observed at it.
    """
    own = {one.job: tuple(result.what for result in one.results) for one in seen}
    return offer(banks, own | {name: _lines(name, settings) for name in shipped_jobs()})


def _lines(job: str, settings: Settings) -> tuple[str, ...]:
    """The lines of a job's observation sheet, as the centre has it."""
    words = Settings(upright_joint=settings.upright_joint)
    sheets = job_sheets(plan_of(find_job(job, words)), None, "")
    return tuple(
        row[0]
        for sheet in sheets
        if sheet.file == "observation-sheet"
        for block in sheet.blocks
        if block.table
        for row in block.table.rows
    )
