"""A record opened: there, sound, and of this program's form."""

from __future__ import annotations

from datetime import UTC, datetime

from sqlalchemy import URL, Engine

from courseware.database.connection import connect
from courseware.database.errors import plain_errors
from courseware.database.migrations import bring_up_to_date, is_up_to_date
from courseware.database.row_checks import check_rows


def open_record(url: str | URL, *, make: bool = True) -> Engine:
    """The record at a database URL, made where there is none, brought up to date where it is of an earlier form.

    Raises `RecordFaulty` for what is not a record, is damaged, changed by hand, or of a later form; `RecordRefuses`
    where none is there and `make` is false.
    """
    engine = connect(url, make=make)
    with plain_errors(engine.url):
        if not is_up_to_date(engine):
            bring_up_to_date(engine, datetime.now(UTC))
        check_rows(engine)
    return engine
