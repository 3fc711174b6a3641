"""Sittings and the record as pages ask for them again and again: read once, and anew where the file is another."""

from __future__ import annotations

import threading
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.errors import RecordRefuses
from courseware.desk.desk import desk_of, session_of
from courseware.files.bank_files import NotFound
from courseware.files.record_location import record_file
from courseware.files.sitting_files import SITTING
from courseware.files.sitting_folders import SittingFolder, folder_of, read_folder
from courseware.workflows.marking_by_hand import see_first_marks

if TYPE_CHECKING:
    from sqlalchemy import URL, Engine
    from starlette.requests import Request

    from courseware.desk.desk import Desk

_SITTINGS = 8  # kept in memory
_PLACES: dict[tuple[Path, str], Path] = {}
_ONE_AT_A_TIME = threading.Lock()


def sitting_open(desk: Desk, code: str) -> SittingFolder:
    """The sitting of that code in the folder of work. Raises `NotFound`."""
    with _ONE_AT_A_TIME:
        place = _PLACES.get((desk.out, code))
        if place is not None:
            try:
                found = _as_it_stands(place)
                if found.sitting.code == code:
                    return found
            except OSError:
                pass  # it was moved or taken away since
        found = folder_of(desk.out, code)
        _PLACES[desk.out, code] = found.path
        return _as_it_stands(found.path)


def first_marks_open(request: Request, code: str = "") -> SittingFolder:
    """The sitting of an address, for pages that show its first marks: of all papers, or of this one.

    Raises `NotFound`, and `FirstMarksHidden` for its second marker.
    """
    desk = desk_of(request)
    where = sitting_open(desk, request.path_params["code"])
    see_first_marks(record_open(desk), where, session_of(request).who, code)
    return where


def record_open(desk: Desk) -> Engine:
    """The record of the folder of work, made where there is none; checked when it is opened first."""
    url = desk.record()
    file = record_file(url)
    if file is not None and not file.exists():
        _engine.cache_clear()
    try:
        return _engine(url)
    except RecordRefuses as refused:
        raise NotFound(str(refused)) from None


def record_there(desk: Desk) -> Engine | None:
    """The record of the folder of work; None where there is none yet, and none is made."""
    file = record_file(desk.record())
    return record_open(desk) if file is None or file.exists() else None


def _as_it_stands(folder: Path) -> SittingFolder:
    seen = (folder / SITTING).stat()
    return _read(folder, seen.st_mtime_ns, seen.st_size)


@lru_cache(maxsize=_SITTINGS)
def _read(folder: Path, _changed: int, _size: int) -> SittingFolder:
    return read_folder(folder)


@lru_cache(maxsize=_SITTINGS)
def _engine(url: URL) -> Engine:
    from courseware.database.opening import open_record

    return open_record(url, make=True)
