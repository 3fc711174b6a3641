"""What may go wrong with a record, in plain words: a request it refuses, and what its database reports."""

from __future__ import annotations

import errno
import json
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime
from typing import TYPE_CHECKING, Any, TypeVar

from courseware.text_files.faults import harmless

if TYPE_CHECKING:
    from sqlalchemy import URL
    from sqlalchemy.exc import SQLAlchemyError

_Kept = TypeVar("_Kept")
_LATER = "nothing that was acknowledged is lost"
_WORDS = (  # what SQLite says, and what it means here
    ("locked", "another program has been writing to it for half a minute; close it, or wait, and run this again"),
    ("busy", "another program has been writing to it for half a minute; close it, or wait, and run this again"),
    ("readonly", "it may not be written to; look at the rights of the file and of its folder"),
    ("unable to open", "it cannot be opened; look at the rights of the file and of its folder"),
    ("not a database", "it is not a record of this program; name another with --record"),
    ("malformed", "it is damaged; put a copy in its place, or make it again with `courseware record take`"),
    ("disk I/O", f"its disk reports errors or has no room left; {_LATER}"),
)


_CHANGED = ("no such table", "no such column", "already exists", "duplicate column", "constraint failed")
BY_HAND = "it has been changed by hand; put a copy in its place, or make it again with `courseware record take`"


class RecordFaulty(ValueError):
    """A record that is none of this program, damaged, or changed by hand; the message says which."""


class RecordRefuses(ValueError):
    """What the record does not do as asked, and why; the message says what to do."""


def kept_json(text: Any, kind: type[_Kept]) -> _Kept:
    """What a cell of the record holds as JSON. Raises `RecordFaulty` for what this program cannot have written."""
    wrong = RecordFaulty("a row of it holds what this program did not write: it has been changed by hand")
    try:
        value = json.loads(text)
    except (TypeError, ValueError, RecursionError):
        raise wrong from None
    if not isinstance(value, kind):
        raise wrong
    return value


def kept_texts(text: Any) -> dict[str, str]:
    """Texts by their labels, as a cell of the record holds them. Raises `RecordFaulty` for anything else."""
    found = kept_json(text, dict)
    if not all(isinstance(value, str) for value in found.values()):
        raise RecordFaulty("a row of it holds something other than text: it has been changed by hand")
    return found


def kept_count(value: object) -> int:
    """A whole number that a cell of the record holds. Raises `RecordFaulty` for anything else."""
    if not isinstance(value, int):
        raise RecordFaulty("a row of it holds text for a number: it has been changed by hand")
    return value


def kept_time(text: str) -> datetime:
    """A time that a cell of the record holds, in UTC. Raises `RecordFaulty` for anything else."""
    try:
        time = datetime.fromisoformat(text)
    except ValueError:
        time = datetime.min
    if time.tzinfo is None:
        raise RecordFaulty(f"a row of it holds `{harmless(text)}` for a time: it has been changed by hand")
    return time


def kept_date(text: str) -> date:
    """A sitting's date that a cell of the record holds. Raises `RecordFaulty` for anything else."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise RecordFaulty(f"a row of it holds `{harmless(text)}` for a date: it has been changed by hand") from None


@contextmanager
def plain_errors(url: URL) -> Iterator[None]:
    """Turns what a database reports into `RecordFaulty`, or into an `OSError` where its disk is full."""
    from sqlalchemy.exc import SQLAlchemyError

    try:
        yield
    except SQLAlchemyError as error:
        raise _plain(error, url) from error


def shown_address(url: URL) -> str:
    """Where a record is, as a message shows it: a file's path, or the address without its password."""
    if url.get_backend_name() == "sqlite" and url.database:
        return url.database
    return url.render_as_string(hide_password=True)


def _plain(error: SQLAlchemyError, url: URL) -> Exception:
    from sqlalchemy.exc import MultipleResultsFound, NoResultFound

    said = str(getattr(error, "orig", None) or error).strip() or type(error).__name__
    if "disk is full" in said:
        return OSError(errno.ENOSPC, "No space left on device", shown_address(url))
    for word, meaning in _WORDS:
        if word in said and url.get_backend_name() == "sqlite":
            return RecordFaulty(f"{shown_address(url)}: {meaning}")
    if isinstance(error, (NoResultFound, MultipleResultsFound)):
        return RecordFaulty(f"{shown_address(url)}: rows of it that belong together do not: {BY_HAND}")
    if any(word in said for word in _CHANGED) and url.get_backend_name() == "sqlite":
        return RecordFaulty(f"{shown_address(url)}: its tables are not as this program made them ({said}): {BY_HAND}")
    return RecordFaulty(f"{shown_address(url)}: its database says: {said.splitlines()[0]}")
