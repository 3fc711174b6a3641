"""How far other people's marking of a sitting is: who has marked what by hand, and the files that are there for it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.errors import RecordRefuses
from courseware.database.given_marks import given_marks
from courseware.database.kept_marks import marks_of
from courseware.database.packs import pack_of
from courseware.files.sitting_files import SECOND_SHEET, TUTOR
from courseware.files.sitting_folders import SittingFolder

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkersSeen:
    """How many scripts are marked; marks by hand of each second marker and assessor; scripts in the newest pack."""

    marked: int
    second: tuple[tuple[str, int], ...]
    standard: tuple[tuple[str, int], ...]
    in_pack: int
    files: tuple[tuple[Path, str], ...]  # with what each is for


def markers_seen(engine: Engine, where: SittingFolder) -> MarkersSeen:
    """What there is of a sitting; nothing where the record does not have it."""
    code = where.sitting.code
    try:
        marked = {one.code for one in marks_of(engine, code, "first") if one.marks}
    except RecordRefuses:
        return MarkersSeen(marked=0, second=(), standard=(), in_pack=0, files=())
    pack = pack_of(engine, code)
    keys = {(one.code, one.attempt) for one in pack}
    by_standard = [one.by for one in given_marks(engine, code, "standard") if (one.code, one.attempt) in keys]
    out = where.path.resolve().parent
    packs = sorted(out.glob(f"standardising-{code}-*"), key=lambda path: (path.stat().st_mtime, path.name))[-2:]
    there = (
        (where.path / TUTOR / SECOND_SHEET, "for a second marker, to fill in"),
        *((path, "the newest pack to standardise with") for path in sorted(packs)),
        (out / f"spread-{code}.pdf", "the spread of the assessors’ marks"),
    )
    return MarkersSeen(
        marked=len(marked),
        second=_counted([one.by for one in given_marks(engine, code, "second")]),
        standard=_counted(by_standard),
        in_pack=len(pack),
        files=tuple(one for one in there if one[0].is_file()),
    )


def _counted(names: list[str]) -> tuple[tuple[str, int], ...]:
    return tuple((name, names.count(name)) for name in dict.fromkeys(names))
