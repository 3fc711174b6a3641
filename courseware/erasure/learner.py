"""A learner deleted everywhere: found in the record and in the sittings' folders, taken out of both."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.errors import RecordRefuses
from courseware.database.learner_lookup import Papers, whose
from courseware.database.learners import Deleted, delete_papers, held
from courseware.database.written_files import WrittenFile, files_written, forget_files, note_files
from courseware.erasure.from_folder import ErasedFiles, erase_beside, erase_from_folder, mentions
from courseware.erasure.named_in_file import look_into
from courseware.files.atomic import one_at_a_time
from courseware.files.bank_files import NotFound
from courseware.files.sitting_files import SITTING
from courseware.files.sitting_folders import SittingFolder, find_folders, read_folder
from courseware.papers.codes import read_code

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class ToErase:
    """What is to be deleted: the learner's papers, where each of them is, and folders that could not be read."""

    papers: Papers
    in_record: tuple[str, ...]
    folders: tuple[SittingFolder, ...]
    parents: tuple[Path, ...]
    looked_into: tuple[Path, ...]  # these, and sittings' folders that the record knows elsewhere
    faulty: tuple[Path, ...]
    noted: tuple[WrittenFile, ...]  # what the record knows to have been written
    untouched: tuple[Path, ...]  # files that hold the name or a code and are not the program's: a tutor's own
    not_found: tuple[str, ...]  # sittings of the learner's papers whose folders nobody knows
    elsewhere: tuple[Path, ...]  # sittings' folders and files that the record knows outside all of `parents`
    with_elsewhere: bool  # whether those are deleted from too


@dataclass(frozen=True, slots=True, kw_only=True)
class Erased:
    """What was deleted: in the folders, beside them, in the record."""

    folders: tuple[ErasedFiles, ...]
    beside: tuple[ErasedFiles, ...]
    record: Deleted | None


def find_to_erase(
    engine: Engine | None, who: str, named: Sequence[Path], parents: Sequence[Path], *, elsewhere: bool = False
) -> ToErase:
    """Finds a learner in the record, in the folders named and in all sittings' folders under `parents`.

    What the record knows outside of those is only listed, unless `elsewhere` asks for it too: it may be another work
    folder's. Raises `NotFound` where `who` is nobody, or may be several; `SittingFaulty` for a folder that is not a
    sitting's.
    """
    noted = files_written(engine) if engine else ()
    own = tuple(dict.fromkeys(path.resolve() for path in (*parents, *(path.resolve().parent for path in named))))
    found, faulty = find_folders(own)
    apart = [one.path.parent for one in noted if one.path.name == SITTING and one.path.is_file()]
    known = [*named, *(path for path in apart if path.parent not in own)]
    folders = {folder.path: folder for folder in (*found, *(read_folder(path.resolve()) for path in known))}
    in_record = held(engine) if engine else ()
    try:
        papers = whose([*in_record, *(paper for folder in folders.values() for paper in folder.held)], who)
    except RecordRefuses as refused:
        raise NotFound(str(refused)) from None
    all_holding = _in_turn(folders.values(), papers, read_code(who))
    named_too = {path.resolve() for path in named}
    outside = [folder.path for folder in all_holding if not _within(folder.path, own) and folder.path not in named_too]
    outside += [one.path for one in noted if not _within(one.path, own) and _is_about(one, papers)]
    if not elsewhere:
        noted = tuple(one for one in noted if _within(one.path, own))
    holding = tuple(folder for folder in all_holding if elsewhere or folder.path not in outside)
    looked_into = [
        path for path in (*own, *(path.parent for path in apart if elsewhere or _within(path, own))) if path.is_dir()
    ]
    sittings = dict.fromkeys(paper.sitting for paper in in_record if paper.paper in papers.codes)
    return ToErase(
        papers=papers,
        in_record=tuple(dict.fromkeys(paper.paper for paper in in_record if paper.paper in papers.codes)),
        folders=holding,
        parents=tuple(path for path in own if path.is_dir()),
        looked_into=tuple(looked_into),
        faulty=faulty,
        noted=noted,
        untouched=mentions(looked_into, papers, noted),
        not_found=tuple(code for code in sittings if code not in {folder.sitting.code for folder in all_holding}),
        elsewhere=tuple(dict.fromkeys(outside)),
        with_elsewhere=elsewhere,
    )


def _within(path: Path, folders: Sequence[Path]) -> bool:
    return any(path.is_relative_to(folder) for folder in folders)


def _is_about(one: WrittenFile, papers: Papers) -> bool:
    """Whether a file that the program wrote, and nobody changed since, is about the learner, or names the learner."""
    if one.path.name == SITTING or not one.is_untouched:
        return False
    if one.codes:
        return bool(set(one.codes) & set(papers.codes))
    return look_into(one.path, papers).do in {"remove", "clean"}


def delete_everywhere(engine: Engine | None, to_erase: ToErase, waiting: Callable[[], None]) -> Erased:
    """Deletes what was found, in the record last. Stopped at any point, the same command goes on with what is left."""
    with ExitStack() as held_folders:
        for parent in to_erase.parents:
            held_folders.enter_context(one_at_a_time(parent, waiting))
        beside = (erase_beside(to_erase.looked_into, to_erase.papers, to_erase.noted),) if to_erase.looked_into else ()
    folders = tuple(erase_from_folder(folder.path, to_erase.papers, waiting) for folder in to_erase.folders)
    record = delete_papers(engine, to_erase.papers) if engine else None
    if engine:
        forget_files(engine, [one.path for one in to_erase.noted if not one.path.exists()])
        note_files(
            engine, [Path(file) for one in beside for file in one.remade]
        )  # or they pass for a tutor's own next time
    return Erased(folders=folders, beside=beside, record=record)


def _in_turn(folders: Iterable[SittingFolder], papers: Papers, code: str | None) -> tuple[SittingFolder, ...]:
    """The folders that hold the learner; one that was asked for by its paper's code last, since it alone knows it."""
    holding = [folder for folder in folders if set(papers.codes) & {paper.paper for paper in folder.held}]
    return tuple(sorted(holding, key=lambda folder: code in {paper.paper for paper in folder.held}))
