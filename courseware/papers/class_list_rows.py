"""A class list as it is typed, row by row: what stands in it is kept, so that a row can be mended in its place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields, replace

from courseware.papers.class_list import ClassList, read_class_list, standing_twice, surname_first
from courseware.papers.class_list_columns import WANTED, Columns, find_columns
from courseware.papers.levels import level_column, level_in
from courseware.papers.names import LONGEST_NAME, printable_text
from courseware.papers.not_learners import is_no_learner, turned_round
from courseware.spreadsheets.rows import Row, TableFaulty, shown_headings, unused_columns
from courseware.spreadsheets.table_in import read_table
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from courseware.text_files.faults import Fault, harmless
from courseware.words import count, listed

MOST_ROWS = 1000
_LONGEST = 200  # characters of a cell that are kept: longer ones are no names
_COLUMNS = {"Name": 36, "Reference": 18, "Level": 8, "Paper": 30}
_ALWAYS = ("Name", "Reference")
_FILE = "class-list.xlsx"


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedRow:
    """A row as it is typed: name, the college's reference, level and the format of the paper, each '' where none is."""

    name: str
    reference: str = ""
    level: str = ""
    paper: str = ""

    @property
    def cells(self) -> tuple[str, str, str, str]:
        """The row as a table has it."""
        return (self.name, self.reference, self.level, self.paper)

    @property
    def blank(self) -> bool:
        """Whether nothing is typed in it."""
        return not any(cell.strip() for cell in self.cells)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsRead:
    """The rows of a list that was given, and a sentence for each thing that was left out or read otherwise."""

    rows: tuple[TypedRow, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsChecked:
    """What a list comes to: its learners, or what is wrong with rows, by their place from 0; and doubts.

    `levels` are the learners' own where each row has one, else ().
    """

    found: ClassList | None
    wrong: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    doubts: tuple[str, ...] = ()

    @property
    def levels(self) -> tuple[int, ...]:
        """Each learner's level, where each has one."""
        return self.found.levels if self.found else ()


def read_rows(data: bytes, file: str) -> RowsRead:
    """The rows of a CSV or XLSX list as typed, whatever stands in them. Raises `TableFaulty` where it is no list."""
    table, notes = read_table(data, file, find_columns)
    headings = next(table, None)
    columns = find_columns(headings.cells) if headings else None
    if headings is None or columns is None:
        shown = shown_headings(headings.cells) if headings else ""
        wrong = f"no heading tells which column holds the names, only {shown}" if shown else "the list is empty"
        raise TableFaulty((Fault(file, headings.line if headings else 1, 1, wrong, WANTED),))
    level = level_column(headings.cells)
    columns = replace(columns, level=level, unused=tuple(column for column in columns.unused if column != level))
    rows: list[TypedRow] = []
    told: list[str] = []
    for row in table:
        if is_no_learner(row, headings):
            told.append(f"Line {row.line} was left out, since no learner stands on it: {_shown(row)}.")
        elif len(rows) == MOST_ROWS:
            told.append(f"The list goes on after {MOST_ROWS} learners; the rest was left out. Split the list.")
            break
        else:
            told += _of_cells(row, len(headings.cells))
            rows.append(_typed(row, columns))
    if surname_first([row.name for row in rows], columns) and rows:
        rows = [replace(row, name=turned_round(row.name)) for row in rows]
        told.insert(0, f"Names stood surname first and were turned round, as `{harmless(rows[0].name)}`.")
    unused = unused_columns([headings.cells[column] for column in columns.unused])
    return RowsRead(rows=tuple(rows), notes=(*notes, *unused, *told))


def check_rows(rows: Sequence[TypedRow]) -> RowsChecked:
    """What these rows come to as a class list."""
    wrong: dict[int, list[str]] = {}
    for place, row in enumerate(rows):
        if row.level.strip() and level_in(row.level) is None:
            wrong.setdefault(place, []).append(f"`{harmless(row.level)}` is not a level; write 1, 2 or 3, or nothing")
    found: ClassList | None = None
    doubts: tuple[str, ...] = ()
    try:
        levels = bool(rows) and all(level_in(row.level) for row in rows)
        found = read_class_list(own_workbook(rows, "2000-01-01"), _FILE, levels=levels)
        doubts = tuple(note for note in found.notes if not note.startswith("Not used"))
    except TableFaulty as faulty:
        for fault in faulty.faults:
            place = fault.line - 2  # a row of headings stands above the first
            if 0 <= place < len(rows):
                wrong.setdefault(place, []).append(f"{fault.wrong}; {fault.expected}")
            else:
                doubts = (*doubts, f"{fault.wrong}; {fault.expected}")
        typed = [(place + 2, row.name, row.reference) for place, row in enumerate(rows)]
        doubts = (*doubts, *standing_twice(typed))  # told with the faults: one look at the list mends both
    return RowsChecked(
        found=None if wrong else found,
        wrong={place: tuple(dict.fromkeys(told)) for place, told in sorted(wrong.items())},
        doubts=doubts,
    )


def own_workbook(rows: Sequence[TypedRow], day: str) -> bytes:
    """The rows as a class list of our own, which every command reads too; columns that nobody uses are left out."""
    table = [dict(zip(_COLUMNS, row.cells, strict=True)) for row in rows]
    used = [name for name in _COLUMNS if name in _ALWAYS or any(row[name] for row in table)]
    columns = {name: _COLUMNS[name] for name in used}
    return safe_workbook(
        [Page(title="Class list", columns=columns, rows=[[row[name] for name in used] for row in table])], day
    )


def tidied(row: TypedRow) -> TypedRow:
    """A row as it is kept: what is unseen taken out, each cell cut to what a list may have."""
    return TypedRow(**{field.name: printable_text(getattr(row, field.name))[:_LONGEST] for field in fields(row)})


def mended(rows: Sequence[TypedRow], place: int, row: TypedRow | None) -> tuple[TypedRow, ...]:
    """The rows with another in the place of one, without it, or with one more at the end. Raises `IndexError`."""
    if not 0 <= place <= len(rows):
        raise IndexError(place)
    new = () if row is None or row.blank else (tidied(row),)
    return (*rows[:place], *new, *rows[place + 1 :])


def _typed(row: Row, columns: Columns) -> TypedRow:
    def cell(column: int | None) -> str:
        return "" if column is None or column >= len(row.cells) else row.cells[column].strip()[:_LONGEST]

    name = " ".join(filter(None, map(cell, columns.name)))
    row_typed = TypedRow(
        name=name, reference=cell(columns.reference), level=cell(columns.level), paper=cell(columns.paper)
    )
    return tidied(row_typed)


def _of_cells(row: Row, width: int) -> list[str]:
    """What a row of another width, or with cells that cannot be read, is to be looked at for."""
    told = [f"Line {row.line}: the cell in column {column + 1} {why}." for column, why in sorted(row.unread.items())]
    extra = [cell for cell in row.cells[width:] if cell.strip()]
    if len(row.cells) < width or extra:
        told.append(f"Line {row.line} has {count(len(row.cells), 'cell')} under {width} headings: look at it.")
    return told


def _shown(row: Row) -> str:
    return listed([harmless(cell.strip()[:LONGEST_NAME]) for cell in row.cells if cell.strip()][:4])
