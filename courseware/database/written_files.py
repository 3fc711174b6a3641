"""The files that the program wrote from a record, wherever they are: each with the hash of what was written.

A file in the folder of the record, or below it, is noted by where it is in that folder: a folder that was copied or
moved with its record knows its own files, and none of those that it was copied from.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import Engine, delete, insert, select

from courseware.database.connection import reading, stamp, writing
from courseware.database.errors import RecordFaulty, kept_json
from courseware.database.tables import FILE


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenFile:
    """A file as it was written last, and the papers that it is about (none where it is about a class)."""

    path: Path
    sha256: str
    codes: tuple[str, ...]

    @property
    def is_untouched(self) -> bool:
        """Whether the file is there, as it was written."""
        try:
            return self.path.is_file() and hash_of(self.path.read_bytes()) == self.sha256
        except OSError:
            return False


def hash_of(data: bytes) -> str:
    """The hash by which a file is known again."""
    return hashlib.sha256(data).hexdigest()


def note_files(engine: Engine, paths: Iterable[Path], codes: Sequence[str] = ()) -> None:
    """Notes files just written, by where they are now; one that is noted so already adds nothing."""
    root = folder_of_record(engine)
    had = {(kept_path(one.path, root), one.sha256) for one in files_written(engine)}
    rows = [
        {"path": kept_path(path.resolve(), root), "sha256": hash_of(path.read_bytes()),
         "codes": json.dumps(list(codes)), "at": stamp(datetime.now(UTC))}
        for path in paths
    ]  # fmt: skip
    rows = [row for row in rows if (row["path"], row["sha256"]) not in had]
    if rows:
        with writing(engine) as connection:
            connection.execute(insert(FILE), rows)


def files_written(engine: Engine) -> tuple[WrittenFile, ...]:
    """Every file noted, as it was written last, in the order of their paths."""
    with reading(engine) as connection:
        rows = connection.execute(select(FILE.c.path, FILE.c.sha256, FILE.c.codes).order_by(FILE.c.id)).all()
    root = folder_of_record(engine)
    newest = {_whole(path, root): (sha256, codes) for path, sha256, codes in rows}
    return tuple(
        WrittenFile(path=path, sha256=sha256, codes=tuple(map(str, kept_json(codes, list))))
        for path, (sha256, codes) in sorted(newest.items(), key=lambda one: str(one[0]))
    )


def forget_files(engine: Engine, paths: Iterable[Path]) -> None:
    """Takes the notes of files that are gone out of the record."""
    root = folder_of_record(engine)
    if gone := [kept_path(path, root) for path in paths]:
        with writing(engine) as connection:
            connection.execute(delete(FILE).where(FILE.c.path.in_(gone)))


def folder_of_record(engine: Engine) -> Path | None:
    """The folder that a record's file is in; none where a server holds the record."""
    return (
        Path(engine.url.database).resolve().parent if engine.dialect.name == "sqlite" and engine.url.database else None
    )


def kept_path(path: Path, root: Path | None) -> str:
    """How a whole path is noted: from the record's folder `root` where it lies in it.

    >>> kept_path(Path("/year-1/output/piers/sitting.json"), Path("/year-1/output"))
    'piers/sitting.json'
    >>> kept_path(Path("/elsewhere/piers/sitting.json"), Path("/year-1/output"))
    '/elsewhere/piers/sitting.json'
    """
    return path.relative_to(root).as_posix() if root is not None and path.is_relative_to(root) else str(path)


def _whole(kept: str, root: Path | None) -> Path:
    """Where a noted file is. Raises `RecordFaulty` for a note that leads out of the record's folder."""
    path = Path(kept)
    if path.is_absolute():
        return path
    if root is None or ".." in path.parts:
        raise RecordFaulty(f"it notes a file `{kept[:80]}` that cannot be its own; it has been changed by hand")
    return root / path
