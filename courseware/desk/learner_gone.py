"""A learner deleted everywhere: found in the record and in the sittings' folders, taken out of both."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.desk.forgetting import Forgotten, forget, forget_beside
from courseware.desk.shelf import NotFound
from courseware.desk.sitting_folders import SittingFolder, find_folders, read_folder
from courseware.evidence.learners import Deleted, delete_papers, held
from courseware.evidence.refusals import RecordRefuses
from courseware.evidence.whose import Papers, whose
from courseware.papers.codes import read_code

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class Going:
    """What is to be deleted: the learner's papers, where each of them is, and folders that could not be read."""

    papers: Papers
    in_record: tuple[str, ...]
    folders: tuple[SittingFolder, ...]
    parents: tuple[Path, ...]
    faulty: tuple[Path, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """What was deleted: in the folders, beside them, in the record."""

    folders: tuple[Forgotten, ...]
    beside: tuple[Forgotten, ...]
    record: Deleted | None


def going(engine: Engine | None, who: str, named: Sequence[Path], parents: Sequence[Path]) -> Going:
    """Finds a learner in the record, in the folders named and in all sittings' folders under `parents`.

    Raises `NotFound` where `who` is nobody, or may be several; `RecordFaulty` for a folder named that is no sitting's.
    """
    own = tuple(dict.fromkeys(path.resolve() for path in (*parents, *(path.resolve().parent for path in named))))
    found, faulty = find_folders(own)
    folders = {folder.path: folder for folder in (*found, *(read_folder(path.resolve()) for path in named))}
    in_record = held(engine) if engine else ()
    try:
        papers = whose([*in_record, *(paper for folder in folders.values() for paper in folder.held)], who)
    except RecordRefuses as refused:
        raise NotFound(str(refused)) from None
    return Going(
        papers=papers,
        in_record=tuple(dict.fromkeys(paper.paper for paper in in_record if paper.paper in papers.codes)),
        folders=_in_turn(folders.values(), papers, read_code(who)),
        parents=own,
        faulty=faulty,
    )


def delete_everywhere(engine: Engine | None, going: Going, waiting: Callable[[], None]) -> Gone:
    """Deletes what was found, in the record last. Stopped at any point, the same command goes on with what is left."""
    there = [parent for parent in going.parents if parent.is_dir()]
    beside = tuple(forget_beside(parent, going.papers, waiting) for parent in there)
    folders = tuple(forget(folder.path, going.papers, waiting) for folder in going.folders)
    record = delete_papers(engine, going.papers) if engine else None
    return Gone(folders=folders, beside=beside, record=record)


def _in_turn(folders: Iterable[SittingFolder], papers: Papers, code: str | None) -> tuple[SittingFolder, ...]:
    """The folders that hold the learner; one that was asked for by its paper's code last, since it alone knows it."""
    holding = [folder for folder in folders if set(papers.codes) & {paper.paper for paper in folder.held}]
    return tuple(sorted(holding, key=lambda folder: code in {paper.paper for paper in folder.held}))
