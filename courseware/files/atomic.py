"""A folder that is there whole or not at all: made beside its place, then moved into it.

One run at a time works in an output folder; its lock is freed by the system when the run is killed. What a stopped run
had made waits in a folder whose name starts with a dot, and the same request goes on from there.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import unicodedata
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO

_LOCK = ".courseware.lock"
_REQUEST = ".request"
_UNFINISHED = ".unfinished"
_LONGEST = 32
PRIVATE = 0o600  # a mode for learners' work and answers: for the owner of the file alone


@dataclass(frozen=True, slots=True, kw_only=True)
class Unfinished:
    """A folder being made: where it is now, where it will be, and whether it goes on from a stopped run."""

    path: Path
    final: Path
    resumed: bool


def slug(text: str) -> str:
    """A plain part of a file name from any text: `Opening sizes` gives `opening-sizes`; '' where nothing is left."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    words = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")
    if len(words) > _LONGEST and "-" in words[:_LONGEST]:
        words = words[: words[: _LONGEST + 1].rindex("-")].removesuffix("-and")
    return words[:_LONGEST]


def unusable(folder: Path) -> str:
    """Why nothing can be written into this folder, which need not be there yet; '' where something can."""
    there = folder
    while not there.exists() and there != there.parent:
        if there.is_symlink():
            return "it is a link to nothing"
        there = there.parent
    if not there.is_dir():
        return f"{there} is a file, not a folder" if there.exists() else f"{there} is not there"
    return "" if os.access(there, os.W_OK) else f"{there} may not be written to"


@contextmanager
def one_at_a_time(parent: Path, waiting: Callable[[], None]) -> Iterator[None]:
    """Holds the output folder; `waiting` is called once where another run holds it."""
    from filelock import FileLock, Timeout

    try:
        parent.mkdir(parents=True, exist_ok=True)
    except FileNotFoundError:  # what a system says of places where it lets nobody make a folder, such as /proc
        raise PermissionError(errno.EACCES, "no folder can be made here", str(parent)) from None
    lock = FileLock(parent / _LOCK)
    try:
        lock.acquire(timeout=0.1)
    except Timeout:
        waiting()
        lock.acquire()
    try:
        yield
    finally:
        lock.release()


def begin(parent: Path, name: str, request: str) -> Unfinished:
    """The unfinished folder for this request: the one a stopped run left, else a new one under a free name.

    Call it while holding the output folder.
    """
    number = 1
    while True:
        final = parent / (name if number == 1 else f"{name}-{number}")
        building = parent / f".{final.name}{_UNFINISHED}"
        if not final.exists():
            if not building.exists():
                building.mkdir()
                write_whole(building / _REQUEST, request.encode())
                return Unfinished(path=building, final=final, resumed=False)
            if _read(building / _REQUEST) == request:
                return Unfinished(path=building, final=final, resumed=True)
        number += 1


def finish(unfinished: Unfinished) -> Path:
    """Moves the folder into its place. Returns it."""
    for temporary in unfinished.path.rglob("*.part"):
        temporary.unlink()
    (unfinished.path / _REQUEST).unlink(missing_ok=True)
    _sync(unfinished.path)
    unfinished.path.rename(unfinished.final)
    _sync(unfinished.final.parent)
    return unfinished.final


def stopped_runs(parent: Path) -> Iterator[tuple[Unfinished, str]]:
    """The unfinished folders in a folder, each with its request: of stopped runs, or of one at work now."""
    for building in sorted(parent.glob(f".*{_UNFINISHED}")):
        if building.is_dir() and (request := _read(building / _REQUEST)):
            final = parent / building.name.removeprefix(".").removesuffix(_UNFINISHED)
            yield Unfinished(path=building, final=final, resumed=True), request


def discard(unfinished: Unfinished) -> None:
    """Removes an unfinished folder with all that was made in it."""
    from shutil import rmtree

    rmtree(unfinished.path)


def write_whole(path: Path, data: bytes, mode: int = 0o644) -> None:
    """Writes a file so that it is there whole or as it was before, even when the power goes."""
    write_whole_by(path, lambda file: file.write(data), mode)


def write_whole_by(path: Path, write: Callable[[IO[bytes]], object], mode: int = 0o644) -> None:
    """Writes a file as `write_whole` does, by what `write` puts into it, which need never be in memory whole."""
    temporary = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with os.fdopen(os.open(temporary, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, mode), "wb") as file:
            write(file)
            file.flush()
            os.fsync(file.fileno())
        temporary.replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            temporary.unlink(missing_ok=True)
        raise
    _sync(path.parent)


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except OSError:
        return ""


def _sync(folder: Path) -> None:
    """Brings a folder's entries to the disk, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
