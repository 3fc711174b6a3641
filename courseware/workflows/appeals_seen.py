"""Appeals as they are looked at: all of them with their learners, and one paper with what its appeal wrote."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.appeals import Appeal, all_appeals
from courseware.database.kept_marks import marks_of
from courseware.database.learners import held
from courseware.database.sittings import Summary, sittings
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.marks import MarkedPaper
from courseware.workflows.appeal import appeal_folder, frozen_copy, re_mark_sheet, standing
from courseware.workflows.keeping import record_there

if TYPE_CHECKING:
    from sqlalchemy import URL


@dataclass(frozen=True, slots=True, kw_only=True)
class AppealsSeen:
    """Every appeal with its learner's name ('' where none is known); sittings; the marked papers of one of them."""

    appeals: tuple[tuple[Appeal, str], ...]
    sittings: tuple[Summary, ...]
    papers: tuple[tuple[str, str], ...]  # code and name


@dataclass(frozen=True, slots=True, kw_only=True)
class AppealSeen:
    """A paper as it is marked (none: not marked), the newest word on its appeal, and its files that are there."""

    marked: MarkedPaper | None
    appeal: Appeal | None
    files: tuple[tuple[Path, str], ...]  # with what each is for


def appeals_seen(url: URL, sitting: str) -> AppealsSeen:
    """All appeals of the record, and which papers of a sitting (its code, or '') one may be opened on."""
    with record_there(url) as engine:
        if engine is None:
            return AppealsSeen(appeals=(), sittings=(), papers=())
        there = sittings(engine)
        names = {one.paper: one.name for one in held(engine)}
        marked = marks_of(engine, sitting, "first") if sitting in {one.code for one in there} else ()
        codes = dict.fromkeys(one.code for one in marked if one.marks)
        return AppealsSeen(
            appeals=tuple((one, names.get(one.code, "")) for one in all_appeals(engine)),
            sittings=there,
            papers=tuple((code, names.get(code, "")) for code in codes),
        )


def appeal_seen(url: URL, where: SittingFolder, code: str) -> AppealSeen:
    """One paper of a sitting, and its appeal."""
    with record_there(url) as engine:
        if engine is None:
            return AppealSeen(marked=None, appeal=None, files=())
        newest = next((one for one in all_appeals(engine) if one.code == code), None)
        try:
            marked = standing(engine, where, code)
        except NotFound:
            marked = None
    folder = appeal_folder(where, code, newest.day) if newest else None
    named = (
        (re_mark_sheet(folder, code), "for another person: the script to mark again, and the outcome"),
        (frozen_copy(folder, code), "all that stood when it was opened"),
    ) if folder else ()  # fmt: skip
    return AppealSeen(marked=marked, appeal=newest, files=tuple(one for one in named if one[0].is_file()))
