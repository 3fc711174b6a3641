"""Class lists kept in a working folder: taken in as they were exported, mended row by row, read by every command."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path, PureWindowsPath

from courseware.files.atomic import PRIVATE, one_at_a_time, slug, write_whole
from courseware.files.bank_files import NotFound, read_file
from courseware.papers.class_list_rows import RowsChecked, TypedRow, check_rows, mended, own_workbook, read_rows
from courseware.workflows.issue import group_name

LISTS = "class-lists"
_UNDATED = "2000-01-01"  # a list has no day of its own: the same rows are the same file


class ListChanged(NotFound):
    """A row that is no longer as the one who mends it saw it; the message says what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptList:
    """A class list of the working folder: `key` is its file's name without ending, `name` that of the group."""

    key: str
    name: str
    file: Path
    rows: tuple[TypedRow, ...]
    checked: RowsChecked


def keep_list(work: Path, data: bytes, file: str) -> tuple[KeptList, tuple[str, ...]]:
    """Keeps a list that was exported, under a name of its own; with what was left out or read otherwise.

    Raises `TableFaulty` where it is no class list.
    """
    read = read_rows(data, file)
    parent = work / LISTS
    with one_at_a_time(parent, _nothing):
        key = _free_name(parent, slug(PureWindowsPath(file).stem) or "class-list")
        _write(parent / f"{key}.xlsx", read.rows)
    return open_list(work, key), read.notes


def kept_lists(work: Path) -> tuple[str, ...]:
    """The keys of the lists that are kept, by name."""
    return tuple(sorted(file.stem for file in (work / LISTS).glob("*.xlsx") if not file.name.startswith((".", "~"))))


def open_list(work: Path, key: str) -> KeptList:
    """A list that is kept. Raises `NotFound`, or `TableFaulty` where it was changed to none."""
    if key not in kept_lists(work):
        raise NotFound(f"there is no class list {key} in {work / LISTS}")
    file = work / LISTS / f"{key}.xlsx"
    rows = read_rows(read_file(file), file.name).rows
    return KeptList(key=key, name=group_name(file), file=file, rows=rows, checked=check_rows(rows))


def mend_row(work: Path, key: str, place: int, was: TypedRow | None, row: TypedRow | None) -> KeptList:
    """Puts `row` where `was` stood, leaves it out (none), or adds one at the end (`was` none).

    Raises `ListChanged` where another row stands there by now.
    """
    with one_at_a_time(work / LISTS, _nothing):
        rows = open_list(work, key).rows
        place = len(rows) if was is None else place
        there = rows[place] if 0 <= place < len(rows) else None
        if there != was:
            raise ListChanged("that row has been changed meanwhile; look at the list as it is now, and mend it again")
        _write(work / LISTS / f"{key}.xlsx", mended(rows, place, row))
    return open_list(work, key)


def _free_name(parent: Path, name: str) -> str:
    number = 1
    while (parent / f"{name}{f'-{number}' if number > 1 else ''}.xlsx").exists():
        number += 1
    return f"{name}-{number}" if number > 1 else name


def _write(file: Path, rows: Sequence[TypedRow]) -> None:
    write_whole(file, own_workbook(rows, _UNDATED), PRIVATE)


def _nothing() -> None:
    """A list is written in a moment: whoever waits for another window's need not be told."""
