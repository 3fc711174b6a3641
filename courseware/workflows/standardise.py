"""Standardising: a pack of scripts out to assessors, their marks in, the spread told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.given_marks import given_marks, keep_given
from courseware.database.kept_marks import marks_of
from courseware.database.packs import InPack, keep_pack, pack_of
from courseware.files.bank_files import NotFound, read_file
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.attempts import numbered_attempts
from courseware.quality.marks_by_hand import ScriptToMark, hand_page, read_hand_marks
from courseware.quality.standardising import (
    LETTERS,
    anonymous,
    over_the_range,
    pack_sheet,
    spread_rows,
    spread_sheet,
    spread_workbook,
)
from courseware.settings.settings import Settings
from courseware.spreadsheets.xlsx_out import safe_workbook
from courseware.workflows.quality import write_both
from courseware.workflows.second_marking import scripts_to_mark

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """What an assessor's sheet added, how many assessors have marked the pack now, and the files of the spread."""

    added: int
    assessors: int
    files: tuple[Path, ...]


def make_pack(
    engine: Engine, where: SittingFolder, settings: Settings, *, assessors: Sequence[str], day: str
) -> tuple[Path, ...]:
    """Chooses five marked scripts over the range and writes the pack: to print, and as the sheet to fill in.

    Raises `NotFound` where fewer than two scripts are marked.
    """
    code, seed = where.sitting.code, where.sitting.seed
    last = {paper.code: (attempt, paper) for attempt, paper in numbered_attempts(marks_of(engine, code, "first"))}
    marked = [one for one in last.values() if one[1].marks]
    if len(marked) < 2:
        raise NotFound(f"fewer than two scripts of the sitting {code} are marked; there is no range to choose over")
    chosen = over_the_range(marked, seed)
    in_pack = [
        InPack(letter=letter, code=paper.code, attempt=attempt)
        for letter, (attempt, paper) in zip(LETTERS, chosen, strict=False)
    ]
    number = keep_pack(engine, code, in_pack, at=datetime.now(UTC))
    scripts = _scripts(engine, where)
    stem = f"standardising-{code}-{number}"
    sheet = pack_sheet(scripts, where.sitting.title, settings.name, day, assessors)
    return write_both(engine, _out(where), stem, sheet, safe_workbook([hand_page(scripts)], day), _codes(in_pack))


def enter_standard(
    engine: Engine, where: SittingFolder, sheet: Path, settings: Settings, *, assessor: str, day: str
) -> Spread:
    """Enters one assessor's marks of the newest pack and writes the spread of all.

    Raises `NotFound` or `TableFaulty`.
    """
    code = where.sitting.code
    scripts = _scripts(engine, where)
    if not scripts:
        raise NotFound(f"the sitting {code} has no pack yet; make one first")
    marks = read_hand_marks(read_file(sheet), sheet.name, scripts)
    if not marks:
        raise NotFound(f"{sheet.name} has no marks yet; fill in `marks`, then enter it again")
    in_pack = pack_of(engine, code)
    record = {
        (paper.code, attempt, mark.label): mark
        for attempt, paper in numbered_attempts(marks_of(engine, code, "first"))
        for mark in paper.marks
    }
    own = [replace(mark, written=record[mark.key].written) for mark in marks]
    added = keep_given(engine, code, own, "standard", by=assessor, source=sheet.name, at=datetime.now(UTC))
    keys = {(one.code, one.attempt) for one in in_pack}
    given = [mark for mark in given_marks(engine, code, "standard") if (mark.code, mark.attempt) in keys]
    who, rows = spread_rows(scripts, given, {key: mark.marks for key, mark in record.items()})
    report = spread_sheet(who, rows, where.sitting.title, settings.name, day)
    files = write_both(engine, _out(where), f"spread-{code}", report, spread_workbook(who, rows, day), _codes(in_pack))
    return Spread(added=added, assessors=len(who), files=files)


def _scripts(engine: Engine, where: SittingFolder) -> tuple[ScriptToMark, ...]:
    """The scripts of the newest pack under their letters."""
    in_pack = pack_of(engine, where.sitting.code)
    if not in_pack:
        return ()
    names = {paper.code: paper.learner.name for paper in where.sitting.papers}
    scripts = {one.code: one for one in scripts_to_mark(engine, where, _codes(in_pack))}
    return tuple(anonymous(scripts[one.code], one.letter, names[one.code]) for one in in_pack if one.code in scripts)


def _codes(in_pack: Sequence[InPack]) -> list[str]:
    return [one.code for one in in_pack]


def _out(where: SittingFolder) -> Path:
    return where.path.resolve().parent
