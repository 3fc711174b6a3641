"""Folders of work: which there are in a place, a new one made, and what stands in one."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.files.atomic import unusable
from courseware.files.sitting_files import MARKED
from courseware.files.sitting_folders import find_folders
from courseware.text_files.faults import harmless, sayable, unseen
from courseware.workflows.sitting_at_hand import next_step

if TYPE_CHECKING:
    from sqlalchemy import Engine

OUTPUT = "output"  # in a folder of work: what commands and desk make
_LONGEST_NAME = 60
_NO_NAMES = set('/\\:*?"<>|')  # what one system or another allows in no name
_MOST_SHOWN = 500


class FolderRefused(ValueError):
    """A folder that cannot be made or worked in, and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A folder in a place, and whether somebody worked in it before."""

    path: Path
    used: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SittingSeen:
    """A sitting in a folder of work, in brief."""

    code: str
    title: str
    group: str
    date: str
    papers: int
    marked: bool
    next_step: str  # what is to be done now, in a few words
    path: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Overview:
    """What stands in a folder of work: its sittings, the latest first, and folders whose sitting cannot be read."""

    sittings: tuple[SittingSeen, ...]
    faulty: tuple[Path, ...]


def folders_in(place: Path) -> tuple[Found, ...]:
    """The folders in a place by name; none where it may not be looked into.

    Those that start with a dot are left out, and those whose names are not UTF-8: no record can be opened in them.
    """
    try:
        inside = [one for one in place.iterdir() if not one.name.startswith(".") and sayable(one.name) and one.is_dir()]
    except OSError:
        return ()
    inside.sort(key=lambda one: one.name.casefold())
    return tuple(Found(path=one, used=_used(one)) for one in inside[:_MOST_SHOWN])


def made_folder(place: Path, name: str) -> Path:
    """A new folder in a place. Raises `FolderRefused` for a name that is no folder's, or one that is there."""
    name = " ".join(name.split())
    if not name or len(name) > _LONGEST_NAME or name.startswith(".") or name.endswith("."):
        raise FolderRefused(f"Write a name of 1 to {_LONGEST_NAME} characters that neither starts nor ends with a dot.")
    if any(unseen(letter) or letter in _NO_NAMES for letter in name):
        raise FolderRefused(f"`{harmless(name)}` cannot be a folder's name: leave out / \\ : * ? \" < > |")
    if why := unusable(place):
        raise FolderRefused(f"Nothing can be made here: {why}.")
    made = place / name
    try:
        made.mkdir()
    except FileExistsError:
        raise FolderRefused(f"{name} is there already: choose it, or take another name.") from None
    except OSError as error:
        raise FolderRefused(f"{name} cannot be made here: {error.strerror}.") from None
    return made


def overview(folder: Path, engine: Engine | None = None) -> Overview:
    """What stands in a folder of work; with its record, which papers of a marked sitting are not in yet too."""
    found, faulty = find_folders([folder / OUTPUT])
    seen = [
        SittingSeen(
            code=one.sitting.code,
            title=one.sitting.title,
            group=one.sitting.group,
            date=one.sitting.date,
            papers=len(one.sitting.papers),
            marked=(one.path / MARKED).is_dir(),
            next_step=next_step(one, engine),
            path=one.path,
        )
        for one in found
    ]
    return Overview(sittings=tuple(sorted(seen, key=lambda one: (one.date, one.path), reverse=True)), faulty=faulty)


def _used(folder: Path) -> bool:
    try:
        return (folder / OUTPUT).is_dir() or (folder / "centre.yaml").is_file()
    except OSError:
        return False
