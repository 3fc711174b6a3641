"""CSV as colleges export it: which encoding, which separator, and its rows with their lines."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from itertools import islice
from typing import TYPE_CHECKING

from courseware.spreadsheets.rows import TITLES_WITHIN, Row, TableFaulty, Wanted, headings_at
from courseware.text_files.faults import Fault
from courseware.words import count

if TYPE_CHECKING:
    from _csv import Reader

MOST_BYTES = 2_000_000
_SEPARATORS = (",", ";", "\t", "|")
_RE_SAVE = "save it as `CSV UTF-8`"
_SEP_LINE = re.compile(r'"?sep=([,;|:\t])"?[ ,;\t]*(\r\n|\r|\n|$)', re.IGNORECASE)


def read_csv(data: bytes, file: str, wanted: Wanted) -> tuple[Iterator[Row], tuple[str, ...]]:
    """The rows that are not blank, headings first, and notes for the tutor. `wanted` tells the headings looked for.

    Raises `TableFaulty`, here or while the rows are drawn.
    """
    text, notes = _decoded(data, file)
    _refuse_nul(text, file)
    stated = _SEP_LINE.match(text)
    if stated:
        text, separator, skipped = text[stated.end() :], stated[1], 1
    else:
        separator, skipped = _separator(text, wanted), 0
    above = headings_at(_first_rows(text, separator), wanted)
    return islice(_rows(text, separator, skipped, file), above, None), (*notes, *_left_out(above))


def _left_out(above: int) -> tuple[str, ...]:
    """A note of the rows above the headings that are not read."""
    return (f"Not read: {count(above, 'row')} above the headings.",) if above else ()


def _decoded(data: bytes, file: str) -> tuple[str, tuple[str, ...]]:
    if len(data) > MOST_BYTES:
        raise _refusal(file, 1, f"the file has {len(data)} bytes", f"expected at most {MOST_BYTES}")
    if data.startswith((b"\xff\xfe\0\0", b"\0\0\xfe\xff")):
        raise _refusal(file, 1, "the file is UTF-32", _RE_SAVE)
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _as_utf16(data, file), ()
    if len(data) > 3 and data.count(0) * 10 > len(data) * 3:
        raise _refusal(file, 1, "the file looks like UTF-16 without its mark", _RE_SAVE)
    try:
        return data.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        note = f"The file is not UTF-8 and was read as Windows-1252: check the accents, or {_RE_SAVE}."
        return _as_cp1252(data, file), (note,)


def _as_utf16(data: bytes, file: str) -> str:
    try:
        return data.decode("utf-16")
    except UnicodeDecodeError:
        raise _refusal(file, 1, "the file is UTF-16 but breaks off or is damaged", _RE_SAVE) from None


def _as_cp1252(data: bytes, file: str) -> str:
    try:
        return data.decode("cp1252")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        wrong = f"byte 0x{data[error.start]:02x} is neither UTF-8 nor Windows-1252"
        raise _refusal(file, line, wrong, _RE_SAVE) from None


def _refuse_nul(text: str, file: str) -> None:
    if "\0" in text:
        before = text[: text.index("\0")].replace("\r\n", "\n").replace("\r", "\n")
        line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
        wrong, expected = "a NUL character, which no text holds", f"export the list again and {_RE_SAVE}"
        raise TableFaulty((Fault(file, line, column, wrong, expected),))


def _separator(text: str, wanted: Wanted) -> str:
    """The separator that makes the wanted headings appear, else the one that splits the first row most."""
    first = {separator: _first_rows(text, separator) for separator in _SEPARATORS}
    known = [separator for separator in _SEPARATORS if any(map(wanted, first[separator]))]
    return max(known or _SEPARATORS, key=lambda s: len(first[s][headings_at(first[s], wanted)]) if first[s] else 0)


def _first_rows(text: str, separator: str) -> list[list[str]]:
    """The first rows that are not blank, as far as they can be read."""
    found: list[list[str]] = []
    try:
        for cells in _reader(text, separator):
            if any(map(str.strip, cells)):
                found.append(cells)
            if len(found) == TITLES_WITHIN:
                break
    except csv.Error:
        pass
    return found


def _reader(text: str, separator: str) -> Reader:
    return csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True, skipinitialspace=True)


def _rows(text: str, separator: str, skipped: int, file: str) -> Iterator[Row]:
    reader = _reader(text, separator)
    while True:
        line = reader.line_num + skipped + 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise _refusal(file, line, *_broken(str(error))) from None
        if any(map(str.strip, cells)):
            yield Row(line=line, cells=tuple(cells))


def _broken(problem: str) -> tuple[str, str]:
    if "unexpected end" in problem:
        return "a quotation mark opened in this row is never closed", "expected marks in pairs"
    if "expected after" in problem:
        return "text stands after a closing quotation mark", "expected a separator there, or the mark doubled"
    if "larger than" in problem:
        return "a cell of this row is far too long", "check the quotation marks"
    return "this row does not read as CSV", "check the quotation marks and line ends"


def _refusal(file: str, line: int, wrong: str, expected: str) -> TableFaulty:
    return TableFaulty((Fault(file, line, 1, wrong, expected),))
