"""Where the record is: what was asked for, else what the environment says, else a file in the output folder."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.errors import RecordFaulty
from courseware.files.bank_files import NotFound

if TYPE_CHECKING:
    from sqlalchemy import URL, Engine

VARIABLE = "COURSEWARE_RECORD"
_LIKE_A_URL = re.compile(r"[A-Za-z][A-Za-z0-9+.-]+:")  # but not C:\folder
FILE = "record.sqlite"


def record_url(asked: str | None, out: Path, environment: Mapping[str, str] = os.environ) -> URL:
    """The record's address: a database URL, or the path of a SQLite file. Raises `RecordFaulty` for what is neither."""
    from sqlalchemy import URL, make_url
    from sqlalchemy.exc import ArgumentError

    place = (asked or "").strip() or environment.get(VARIABLE, "").strip()
    if "://" not in place:
        if _LIKE_A_URL.match(place):
            raise RecordFaulty("its address is not a database URL; write it as sqlite:///folder/record.sqlite")
        return URL.create("sqlite", database=str(Path(place).expanduser() if place else out / FILE))
    try:
        return make_url(place)
    except (ArgumentError, ValueError):
        raise RecordFaulty("its address is not a database URL; write it as sqlite:///folder/record.sqlite") from None


def record_file(url: URL) -> Path | None:
    """The file of a SQLite record; none where a server holds the record."""
    return Path(url.database) if url.get_backend_name() == "sqlite" and url.database else None


def where_there(url: URL) -> URL | None:
    """The address where a record is there, or a server is asked for it; None where its file is not made yet."""
    file = record_file(url)
    return url if file is None or file.exists() else None


@contextmanager
def opened(url: URL, *, make: bool) -> Iterator[Engine]:
    """The record, open. What it refuses is raised as `NotFound`, in its own words."""
    from courseware.database.errors import RecordRefuses
    from courseware.database.opening import open_record

    try:
        engine = open_record(url, make=make)
        try:
            yield engine
        finally:
            engine.dispose()
    except RecordRefuses as refused:
        raise NotFound(str(refused)) from None
