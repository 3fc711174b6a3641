"""The record's database: opened with care, read, and written to by one at a time, each time whole or not at all."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url, select
from sqlalchemy.pool import NullPool

from courseware.database.errors import RecordFaulty, RecordRefuses, plain_errors, shown_address
from courseware.database.tables import STEP

PATIENCE = 30  # seconds for another's writing to end
_SQLITE = ("sqlite", "sqlite+pysqlite")
_WRITE_IT = "write it as sqlite:///folder/record.sqlite"
_PRAGMAS = (
    "journal_mode = DELETE",  # a copy of the one file is the whole record
    "synchronous = FULL",
    "foreign_keys = ON",
    "secure_delete = ON",  # what is deleted is overwritten
    "temp_store = MEMORY",  # and no copy of it is left in a temporary folder
)


def stamp(at: datetime) -> str:
    """A time as the record keeps it."""
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def connect(url: str | URL, *, make: bool) -> Engine:
    """The database at a URL, checked. Raises `RecordFaulty`.

    Where none is there it is made, or `RecordRefuses` is raised.
    """
    try:
        parsed = make_url(url)
        options: dict[str, Any] = {}
        if parsed.get_backend_name() == "sqlite":
            if parsed.drivername not in _SQLITE:
                raise RecordFaulty(f"`{parsed.drivername}` is not a driver for a record; {_WRITE_IT}")
            _be_there(parsed, make=make)
            options = {"connect_args": {"timeout": PATIENCE}, "poolclass": NullPool}
        engine = create_engine(parsed, **options)
    except ModuleNotFoundError as error:
        raise RecordFaulty(f"the driver `{error.name}` of its database is not installed; pip installs it") from None
    except (RecordFaulty, RecordRefuses, OSError):
        raise
    except Exception:  # an odd address fails inside the library in ways that cannot be listed
        raise RecordFaulty(f"its address is not a database URL; {_WRITE_IT}") from None
    if engine.dialect.name == "sqlite":
        _prepare(engine)
        _check(engine)
    return engine


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A connection to read with: it sees the record as it stands at one moment."""
    if engine.dialect.name != "sqlite":  # which is so by itself
        engine = engine.execution_options(isolation_level="REPEATABLE READ")
    with plain_errors(engine.url), engine.begin() as connection:
        yield connection


@contextmanager
def writing(engine: Engine, *, made: bool = True) -> Iterator[Connection]:
    """A connection that writes alone; what it wrote is on the disk once this ends without an error.

    `made` is false only while the record has no tables yet.
    """
    with (
        plain_errors(engine.url),
        engine.connect().execution_options(begin="BEGIN IMMEDIATE") as connection,
        connection.begin(),
    ):
        if made:  # in SQLite BEGIN IMMEDIATE waits for others to end; other databases wait for this row
            connection.execute(select(STEP.c.number).where(STEP.c.number == 1).with_for_update())
        yield connection


def squeeze(engine: Engine) -> None:
    """Rewrites a SQLite record, so that nothing deleted is left between its rows; others look after themselves."""
    if engine.dialect.name != "sqlite":
        return
    outside = engine.execution_options(begin="")  # a file cannot be rewritten inside a transaction
    with plain_errors(engine.url), outside.connect() as connection:
        connection.exec_driver_sql("VACUUM")


def _be_there(url: URL, *, make: bool) -> None:
    """Makes a file that only its owner reads, before SQLite would make it for all."""
    if url.database in {None, "", ":memory:"}:
        raise RecordFaulty("a record in memory is lost as soon as the command ends; name a file")
    if not all(name == "timeout" and _counts(str(value)) for name, value in url.query.items()):
        raise RecordFaulty("its address says more than where the file is; write it as sqlite:///folder/record.sqlite")
    if "\0" in str(url.database):
        raise RecordFaulty(f"its address holds a character that no file name has; {_WRITE_IT}")
    file = Path(str(url.database))
    if os.path.exists(file):  # noqa: PTH110 - which says no, and raises nothing, where nobody may look
        if not file.is_file():
            raise RecordFaulty(f"{file} cannot be opened: it is not a file; {_WRITE_IT}")
        return
    if not make:
        raise RecordRefuses(f"there is no record at {file} yet; `courseware record take` makes one from sittings")
    missing = [folder for folder in (file.parent, *file.parent.parents) if not os.path.exists(folder)]  # noqa: PTH110
    if missing and ".." in file.parts:
        raise RecordFaulty(f"{file} cannot be made: it goes up (..) by way of a folder that is not there")
    try:
        _make(file, missing[::-1])
    except OSError as error:
        raise RecordFaulty(f"{file} cannot be made: {error.strerror}") from None


def _make(file: Path, folders: Sequence[Path]) -> None:
    """Makes an empty file that its owner alone reads, below these folders, the outermost first: all, or nothing."""
    made: list[Path] = []
    try:
        for folder in folders:
            folder.mkdir(exist_ok=True)
            made.append(folder)
        os.close(os.open(file, os.O_CREAT | os.O_RDWR, 0o600))
    except OSError:
        for folder in reversed(made):
            with suppress(OSError):  # somebody else's file is in it by now
                folder.rmdir()
        raise


def _counts(text: str) -> bool:
    return text.isascii() and text.isdigit()


def _prepare(engine: Engine) -> None:
    @event.listens_for(engine, "connect")
    def connected(connection: Any, _: Any) -> None:
        connection.isolation_level = None  # transactions begin as said below, not as the driver thinks
        for pragma in _PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")

    @event.listens_for(engine, "begin")
    def begun(connection: Connection) -> None:
        if begin := connection.get_execution_options().get("begin", "BEGIN"):
            connection.exec_driver_sql(begin)


def _check(engine: Engine) -> None:
    with reading(engine) as connection:
        found = connection.exec_driver_sql("PRAGMA quick_check(1)").scalar()
    if found != "ok":
        raise RecordFaulty(
            f"{shown_address(engine.url)}: it is damaged ({found}); put a copy in its place, or make it again with "
            "`courseware record take`"
        )
