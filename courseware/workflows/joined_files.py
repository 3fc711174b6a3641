"""The files that a class is printed from, its sheets joined: of a large class by processes of their own, for memory."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from courseware.files.atomic import write_whole_by
from courseware.printing.join_pdfs import AT_ONCE, gather_into
from courseware.printing.workers import each


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """A file, the sheets joined in it, and who may read it."""

    path: Path
    sheets: tuple[Path, ...]
    mode: int

    def __str__(self) -> str:
        return self.path.name


def write_joined(files: Sequence[Joined], processes: int) -> None:
    """Writes each file, whole or not at all. Raises `WorkersDied`, and `OSError` as where a disk is full."""
    large = any(len(file.sheets) > AT_ONCE for file in files)
    for _ in each(_write, None, files, processes, worth=1 if large else len(files) + 1):
        pass


def _write(_: None, file: Joined) -> None:
    write_whole_by(file.path, partial(gather_into, sheets=file.sheets), file.mode)
