"""A second language beside the words: a tutor's table read, every fault by line."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from courseware.papers.names import printable_text
from courseware.spreadsheets.rows import Row, TableFaulty, heading_key, shown_headings
from courseware.spreadsheets.table_in import read_table
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault, harmless

LONGEST = 60  # characters of a word in the second language
_WORD = "word"
_WANTED = "expected a column `word` and one column of the second language, headed by its tag, such as `pl` or `ar`"
_TAG = re.compile(r"[a-z]{2,3}(-[a-z0-9]{2,8})*", re.IGNORECASE)  # as BCP 47 writes them
_MOST_FAULTS = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondLanguage:
    """Words of the second language by those of the glossary. `tag` is its BCP 47 tag, '' where none is given."""

    tag: str
    words: Mapping[str, str]
    right_to_left: bool


def read_second_language(data: bytes, file: str, glossary: Sequence[str]) -> tuple[SecondLanguage, tuple[str, ...]]:
    """The second language in a CSV or XLSX table, and notes for the tutor. `glossary` are the words that there are.

    A word without a second one is left out. Raises `TableFaulty` with every fault found.
    """
    rows, notes = read_table(data, file, _columns)
    headings = next(rows, None)
    if headings is None:
        raise TableFaulty((Fault(file, 1, 1, "the table is empty", _WANTED),))
    columns = _columns(headings.cells)
    if columns is None:
        wrong = f"the columns are {shown_headings(headings.cells) or 'without headings'}"
        raise TableFaulty((Fault(file, headings.line, 1, wrong, _WANTED),))
    known = {one.casefold(): one for one in glossary}
    faults: list[Fault] = []
    found: dict[str, str] = {}
    for row in rows:
        typed, second = (printable_text(_cell(row, column)) for column in columns)
        wrong_here = _wrong((typed, second), known, found)
        told = {column: why for column, why in row.unread.items() if column in columns}
        faults += (Fault(file, row.line, column + 1, why, "type the word itself") for column, why in told.items())
        faults += () if told else (Fault(file, row.line, columns[at] + 1, *why) for at, *why in wrong_here)
        if second and typed.casefold() in known:
            found.setdefault(known[typed.casefold()], second)
    if not found and not faults:
        faults.append(
            Fault(file, headings.line, columns[1] + 1, "no word of the second language stands in it", _WANTED)
        )
    if faults:
        raise TableFaulty(tuple(faults[:_MOST_FAULTS]))
    heading = headings.cells[columns[1]].strip()
    tag = heading if _TAG.fullmatch(heading) else ""
    return SecondLanguage(tag=tag, words=found, right_to_left=any(map(_to_the_left, found.values()))), notes


def _columns(headings: Sequence[str]) -> tuple[int, int] | None:
    """Where the words and those of the second language stand: the first column that is headed and is not `word`."""
    keys = [heading_key(heading) for heading in headings]
    others = [place for place, key in enumerate(keys) if key and key != _WORD]
    return (keys.index(_WORD), others[0]) if _WORD in keys and others else None


def _cell(row: Row, column: int) -> str:
    return row.cells[column] if column < len(row.cells) else ""


def _wrong(pair: tuple[str, str], known: Mapping[str, str], found: Mapping[str, str]) -> Iterator[tuple[int, str, str]]:
    """What is wrong with a word and its second: which of the two, what it is, what was expected."""
    word, second = pair
    if not word and second:
        yield 0, f"`{harmless(second)}` has no word beside it", "expected a word of the glossary"
    elif word and word.casefold() not in known:
        yield 0, f"`{harmless(word)}` is no word of the glossary", near(word.casefold(), list(known), "its words are")
    elif second and known.get(word.casefold()) in found:
        yield 0, f"`{harmless(word)}` stands twice", "expected each word once"
    if len(second) > LONGEST:
        yield 1, f"`{harmless(second)}` has {len(second)} characters", f"expected at most {LONGEST}"


def _to_the_left(text: str) -> bool:
    """Whether a text is written from right to left: by its first letter that tells (Unicode's bidirectional class)."""
    classes = (unicodedata.bidirectional(letter) for letter in text)
    return next((one != "L" for one in classes if one in {"L", "R", "AL"}), False)
