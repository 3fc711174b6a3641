"""Where the desk leads whoever met a fault: to the screen on which that file is mended, or where one's own work is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from courseware.files.bank_files import OWN_BANKS
from courseware.text_files.faults import FileFaulty
from courseware.workflows.class_lists import LISTS
from courseware.workflows.marking_by_hand import FirstMarksHidden
from courseware.workflows.own_jobs import JOBS


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOn:
    """A link, and what it says."""

    address: str
    says: str


def ways_on(error: Exception, *, folder: Path, centre: Path) -> tuple[WayOn, ...]:
    """The ways on from an error in the folder of work, whose settings stand in `centre`; none where it has none."""
    if isinstance(error, FirstMarksHidden):
        second = WayOn(address=f"/sittings/{error.sitting}/second", says="Mark as the second marker")
        return second, WayOn(address="/settings#you", says="It is somebody else who sits here now")
    faulty = error.faults if isinstance(error, FileFaulty) else ()
    files = dict.fromkeys((folder / fault.file).resolve() for fault in faulty)
    return tuple(way for file in files for way in _mended(file, folder.resolve(), centre.resolve()))


def _mended(file: Path, folder: Path, centre: Path) -> Iterator[WayOn]:
    if file == centre:
        yield WayOn(address="/settings", says="Put the settings right")
    elif file.parent == folder / OWN_BANKS:
        yield WayOn(address=f"/banks/own/{quote(file.stem, safe='')}", says=f"Put the bank {file.stem} right")
    elif file.parent == folder / JOBS:
        yield WayOn(address=f"/jobs/own/{quote(file.stem, safe='')}", says=f"Put the job {file.stem} right")
    elif file.parent == folder / LISTS:
        yield WayOn(address="/papers", says=f"Put the class list {file.stem} right, where its papers are made")
