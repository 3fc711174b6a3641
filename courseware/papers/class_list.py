"""A class list as a college exports it, read to learners; every fault by line, every doubt as a note."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from courseware.papers.class_list_columns import WANTED, Columns, find_columns
from courseware.papers.group import Learner
from courseware.papers.levels import level_column, level_faults, level_in
from courseware.papers.names import LONGEST_NAME, LONGEST_REFERENCE, printable_text, same_name
from courseware.papers.not_learners import is_no_learner, turned_round
from courseware.papers.sheet_format import STANDARD, FormatUnknown, SheetFormat, read_format
from courseware.spreadsheets.rows import Row, TableFaulty, repeated_heading, shown_headings, unused_columns
from courseware.spreadsheets.table_in import read_table
from courseware.text_files.faults import Fault, harmless
from courseware.words import count, listed, plural

MOST_LEARNERS = 1000
_MOST_FAULTS = 50
_MOST_COLUMNS = 200
_LONGEST_CELL = 500  # characters: longer ones are not names, and putting their accents in order takes for ever
_MOST_NAMED = 10  # lines or notes told one by one
_ENOUGH_COMMAS = 2  # names, all with a comma in the middle, before a list is taken to have surnames first
_NO_NAME = re.compile(  # as a spreadsheet shows a number, a date, a truth, an error, or an export nothing
    r"[0-9\s.,:/?-]+|TRUE|FALSE|#[A-Z0-9/!?]+|N/?A|NULL|NONE|NIL", re.IGNORECASE
)
_EXPONENT = re.compile(r"[0-9](\.[0-9]{1,15})?E\+[0-9]{1,3}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassList:
    """The learners in the order of the list, and notes that the tutor should read."""

    learners: tuple[Learner, ...]
    notes: tuple[str, ...] = ()
    levels: tuple[int, ...] = ()  # each learner's, where they were asked for


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """A learner, the line they stand on, and whether unseen characters were taken out of their name."""

    line: int
    learner: Learner
    mended: bool
    level: int = 0


def read_class_list(data: bytes, file: str, *, levels: bool = False) -> ClassList:
    """The learners in a CSV or XLSX list, with the `levels` of its column `Level` where they are asked for.

    Raises `TableFaulty` with every fault found; `file` names it.
    """
    rows, notes = read_table(data, file, find_columns)
    headings = next(rows, None)
    if headings is None:
        raise _refusal(file, 1, "the list is empty", WANTED)
    if len(headings.cells) > _MOST_COLUMNS:
        wrong = f"the list has {len(headings.cells)} columns"
        raise _refusal(file, headings.line, wrong, f"at most {_MOST_COLUMNS} are read: keep names and references")
    columns = _columns(headings, file, levels=levels)
    faults: list[Fault] = []
    others: list[int] = []
    read = list(_learners(_of_learners(rows, headings, others), len(headings.cells), columns, file, faults))
    turned = surname_first([row.learner.name for row in read], columns)
    if turned:
        read = [replace(row, learner=replace(row.learner, name=turned_round(row.learner.name))) for row in read]
    if not read and not faults:
        faults.append(Fault(file, headings.line, 1, "no learner stands below the headings", "one learner a row"))
    if faults:
        raise TableFaulty(_bounded(faults, file))
    return ClassList(
        learners=tuple(row.learner for row in read),
        levels=tuple(row.level for row in read) if levels else (),
        notes=(
            *notes,
            *unused_columns([headings.cells[column] for column in columns.unused]),
            *([f"Left out, since no learner stands on {_lines(others)}."] if others else []),
            *(_told_turned(read) if turned else []),
            *_doubts(read),
        ),
    )


def _of_learners(rows: Iterator[Row], headings: Row, others: list[int]) -> Iterator[Row]:
    """The rows but for those that are plainly no learner's, whose lines go to `others`."""
    for row in rows:
        if is_no_learner(row, headings):
            others.append(row.line)
        else:
            yield row


def surname_first(names: Sequence[str], columns: Columns) -> bool:
    """Whether names are written surname first: the heading says so, or each of several has a comma."""
    if len(columns.name) > 1:
        return False
    with_comma = sum(turned_round(name) != name for name in names)
    return columns.surname_first or (with_comma == len(names) >= _ENOUGH_COMMAS)


def _told_turned(read: Sequence[_Read]) -> Iterator[str]:
    if read:
        yield f"Names stand surname first and were turned round, as `{harmless(read[0].learner.name)}`."


def _columns(headings: Row, file: str, *, levels: bool) -> Columns:
    """The columns to read. Raises `TableFaulty` where the headings do not name them."""
    if (again := repeated_heading(headings.cells)) is not None:
        wrong = f"the heading {shown_headings(headings.cells[again : again + 1])} stands twice"
        raise TableFaulty((Fault(file, headings.line, again + 1, wrong, "expected each heading once"),))
    columns = find_columns(headings.cells)
    if columns is None:
        wrong = f"no heading tells which column holds the names, only {shown_headings(headings.cells)}"
        raise _refusal(file, headings.line, wrong, WANTED)
    if not levels:
        return columns
    level = level_column(headings.cells)
    if level is None:
        wrong = f"no heading is `Level`, only {shown_headings(headings.cells)}"
        raise _refusal(file, headings.line, wrong, "expected a column `Level` with 1, 2 or 3, or no --levels")
    return replace(columns, level=level, unused=tuple(column for column in columns.unused if column != level))


def _learners(rows: Iterator[Row], width: int, columns: Columns, file: str, faults: list[Fault]) -> Iterator[_Read]:
    """The learners, row by row; what is wrong with a row goes to `faults`."""
    try:
        for number, row in enumerate(rows, 1):
            if number > MOST_LEARNERS:
                wrong = f"the list goes on after {MOST_LEARNERS} learners"
                faults.append(Fault(file, row.line, 1, wrong, f"at most {MOST_LEARNERS} rows: split the list"))
                return
            found = list(_row_faults(row, width, columns, file))
            faults += found
            if not found:
                yield _learner(row, columns)
    except TableFaulty as broken:
        faults += broken.faults


def _learner(row: Row, columns: Columns) -> _Read:
    name, reference = _name(row, columns), _reference(row, columns)
    mended = printable_text(name) != " ".join(unicodedata.normalize("NFC", name).split())
    level = 0 if columns.level is None else level_in(row.cells[columns.level]) or 0
    return _Read(
        line=row.line,
        learner=Learner(name=printable_text(name), reference=printable_text(reference), sheets=_sheets(row, columns)),
        mended=mended,
        level=level,
    )


def _name(row: Row, columns: Columns) -> str:
    return " ".join(row.cells[column] for column in columns.name).strip()


def _reference(row: Row, columns: Columns) -> str:
    return "" if columns.reference is None else row.cells[columns.reference].strip()


def _sheets(row: Row, columns: Columns) -> SheetFormat:
    return STANDARD if columns.paper is None else read_format(row.cells[columns.paper])


def _row_faults(row: Row, width: int, columns: Columns, file: str) -> Iterator[Fault]:
    cells = len(row.cells)
    if cells < width:
        wrong = f"{count(cells, 'cell')} under {width} headings"
        yield Fault(file, row.line, 1, wrong, "expected one cell under each heading")
        return
    if any(cell.strip() for cell in row.cells[width:]):
        expected = "expected one cell under each heading: put quotation marks round a text that holds the separator"
        yield Fault(file, row.line, width + 1, f"{cells} cells under {width} headings", expected)
        return
    used = [
        *columns.name,
        *(column for column in (columns.reference, columns.level, columns.paper) if column is not None),
    ]
    for column in used:
        if len(row.cells[column]) > _LONGEST_CELL:
            wrong = f"the cell has {len(row.cells[column])} characters"
            yield Fault(file, row.line, column + 1, wrong, f"at most {_LONGEST_CELL} are read")
            return
    if unread := [(column, row.unread[column]) for column in used if column in row.unread]:
        for column, why in unread:
            yield Fault(file, row.line, column + 1, f"the cell {why}", "type the text itself into the cell")
        return
    name, reference = printable_text(_name(row, columns)), printable_text(_reference(row, columns))
    if not name:
        yield Fault(file, row.line, columns.name[0] + 1, "no name stands in this row", "expected a learner's name")
    if len(name) > LONGEST_NAME:
        wrong = f"the name `{harmless(name)}` has {len(name)} characters"
        yield Fault(file, row.line, columns.name[0] + 1, wrong, f"expected at most {LONGEST_NAME}")
    if columns.level is not None:
        yield from level_faults(row, columns.level, file)
    if columns.paper is not None:
        try:
            read_format(row.cells[columns.paper])
        except FormatUnknown as unknown:
            yield Fault(file, row.line, columns.paper + 1, str(unknown), "leave the cell empty for the usual sheet")
    if len(reference) > LONGEST_REFERENCE and columns.reference is not None:
        wrong = f"the reference `{harmless(reference)}` has {len(reference)} characters"
        yield Fault(file, row.line, columns.reference + 1, wrong, f"expected at most {LONGEST_REFERENCE}")


def _doubts(read: Sequence[_Read]) -> Iterator[str]:
    """What a tutor should look at, though the list can be used."""
    if mended := [row.line for row in read if row.mended]:
        yield f"Unseen or piled-up characters were left out of the name on {_lines(mended)}."
    if unlike := [row.line for row in read if _NO_NAME.fullmatch(row.learner.name)]:
        hardly = "A cell that is hardly a name (a number, a date, N/A) was taken as one"
        yield f"{hardly} on {_lines(unlike)}: is it the right column?"
    if shortened := [row.line for row in read if _EXPONENT.fullmatch(row.learner.reference)]:
        yield (
            f"A spreadsheet has shortened the reference on {_lines(shortened)} to a power of ten: "
            "format that column as text and type it again."
        )
    yield from standing_twice([(row.line, row.learner.name, row.learner.reference) for row in read])


def standing_twice(read: Sequence[tuple[int, str, str]]) -> Iterator[str]:
    """What to look at where a name or a reference stands on several lines: of each row its line, name, reference."""
    yield from _shared("name", [(line, name, same_name(name)) for line, name, _ in read])
    yield from _shared("reference", [(line, reference, reference) for line, _, reference in read])


def _shared(what: str, keyed: Iterable[tuple[int, str, str]]) -> Iterator[str]:
    """Of each row its line, what stands there, and what that is compared by."""
    groups: dict[str, list[tuple[int, str]]] = {}
    for line, told, key in keyed:
        if key:
            groups.setdefault(key, []).append((line, told))
    again = [rows for rows in groups.values() if len(rows) > 1]
    for rows in again[:_MOST_NAMED]:
        advice = "the same person, or namesakes?" if what == "name" else "whose is it?"
        yield f"The {what} `{harmless(rows[0][1])}` stands on {_lines([line for line, _ in rows])}: {advice}"
    if len(again) > _MOST_NAMED:
        yield f"{len(again) - _MOST_NAMED} more {what}s stand on several lines."


def _lines(lines: Sequence[int]) -> str:
    """`line 2`, `lines 2, 3 and 9`."""
    told = [str(line) for line in lines[:_MOST_NAMED]]
    if len(lines) > _MOST_NAMED:
        told.append(f"{len(lines) - _MOST_NAMED} more")
    return f"{plural(len(told), 'line')} {listed(told)}"


def _bounded(faults: Sequence[Fault], file: str) -> tuple[Fault, ...]:
    if len(faults) <= _MOST_FAULTS:
        return tuple(faults)
    more = len(faults) - _MOST_FAULTS
    first = faults[:_MOST_FAULTS]
    return (*first, Fault(file, first[-1].line, 1, f"{more} more faults after this line", "mend these first"))


def _refusal(file: str, line: int, wrong: str, expected: str) -> TableFaulty:
    return TableFaulty((Fault(file, line, 1, wrong, expected),))
