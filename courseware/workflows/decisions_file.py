"""The decisions of a sitting in a workbook of its own, so that a record made again has them too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, cast

from courseware.database.entering import Role
from courseware.database.kept_decisions import KeptDecision, decisions_to_keep
from courseware.files.atomic import PRIVATE, write_whole
from courseware.files.bank_files import read_file
from courseware.files.sitting_files import DECISIONS, TUTOR
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.script_sheet import MOST_ATTEMPTS, SheetFaulty, decision
from courseware.papers.names import LONGEST_NAME
from courseware.papers.sitting_checks import is_plain
from courseware.spreadsheets.rows import heading_key
from courseware.spreadsheets.table_in import read_table
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from courseware.text_files.faults import Fault

if TYPE_CHECKING:
    from sqlalchemy import Engine

    from courseware.papers.sitting import Sitting

_WIDTHS = {"code": 16, "part": 10, "marks": 8, "reason": 60, "comment": 40, "written": 20, "attempt": 9, "marker": 9,
           "by": 24, "source": 24}  # fmt: skip
_LATER = {"source"}  # a file that was kept before these were
_LONGEST_FILE_NAME = 255
_LONGEST_WRITTEN = 1000  # characters: the longest cell of a marking sheet has 200
_MOST_FAULTS = 50


def kept_decisions(where: SittingFolder) -> tuple[KeptDecision, ...]:
    """The decisions kept beside a sitting, none where nothing was decided yet.

    Raises `SheetFaulty` or `TableFaulty` for a file that this program cannot have written, row by row.
    """
    path = where.path / TUTOR / DECISIONS
    if not path.exists():
        return ()
    rows, _ = read_table(read_file(path), DECISIONS, _is_ours, merges=True)
    headings = next(rows, None)
    if headings is None or not _is_ours(headings.cells):
        wrong = f"expected the headings {', '.join(_WIDTHS)}; move the file away if it is another"
        raise SheetFaulty((Fault(DECISIONS, 1, 1, "these are not decisions that were kept", wrong),))
    keys = [heading_key(heading) for heading in headings.cells]
    found: list[KeptDecision] = []
    faults: list[Fault] = []
    for row in rows:
        read = _read(dict(zip(keys, row.cells, strict=False)), where.sitting)
        if isinstance(read, KeptDecision):
            found.append(read)
        else:
            faults.append(Fault(DECISIONS, row.line, 1, read, "put it back as it was, or take the row out"))
    if faults:
        raise SheetFaulty(tuple(faults[:_MOST_FAULTS]))
    return tuple(found)


def keep_decisions(engine: Engine, where: SittingFolder, pending: Sequence[KeptDecision]) -> None:
    """Writes what the record has of a sitting's decisions, and those kept before that it still has nothing of."""
    kept = (*decisions_to_keep(engine, where.sitting.code), *pending)
    path = where.path / TUTOR / DECISIONS
    if kept or path.exists():
        path.parent.mkdir(mode=0o700, exist_ok=True)
        page = Page(title="Decisions kept", columns=_WIDTHS, rows=list(map(_row, kept)))
        write_whole(path, safe_workbook([page], where.sitting.date), PRIVATE)


def _row(kept: KeptDecision) -> tuple[str | int | None, ...]:
    own = kept.decision
    said = (own.code, own.label, own.marks, own.reason, own.comment)
    return (*said, kept.written, own.attempt, kept.role, kept.by, kept.source)


def _is_ours(headings: Sequence[str]) -> bool:
    return set(_WIDTHS) - _LATER <= {heading_key(heading) for heading in headings}


def _read(texts: Mapping[str, str], sitting: Sitting) -> KeptDecision | str:
    """A row as it was kept, or what is wrong with it."""
    read = decision(*(texts[name] for name in ("code", "part", "marks", "reason", "comment")), sitting=sitting)
    if isinstance(read, str):
        return read
    if wrong := next(_wrong(texts), None):
        return wrong
    decided, role = replace(read, attempt=int(texts["attempt"])), cast("Role", texts["marker"])
    source = texts.get("source", "")
    return KeptDecision(decision=decided, written=texts["written"], by=texts["by"], role=role, source=source)


def _wrong(texts: Mapping[str, str]) -> Iterator[str]:
    attempts = map(str, range(1, MOST_ATTEMPTS + 1))
    if texts["attempt"] not in attempts:
        yield f"the attempt is a number from 1 to {MOST_ATTEMPTS}"
    if texts["marker"] not in {"first", "second"}:
        yield "the marker is `first` or `second`"
    if not texts["by"].strip() or not is_plain(texts["by"], LONGEST_NAME):
        yield "who decided it is a name in plain characters"
    if not is_plain(texts.get("source", ""), _LONGEST_FILE_NAME):
        yield "the sheet that it stood on is a file's name in plain characters"
    if len(texts["written"]) > _LONGEST_WRITTEN:
        yield "the answer is longer than any cell of a marking sheet"
