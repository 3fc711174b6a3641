"""A table as it came, row by row, with the line of each, and the row of headings found among its first."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from courseware.text_files.faults import FileFaulty, harmless
from courseware.words import plural

Wanted: TypeAlias = Callable[[Sequence[str]], object]  # whether a row of headings is the one looked for
TITLES_WITHIN = 20  # rows that are not blank, among which the headings must stand


class TableFaulty(FileFaulty):
    """A table that cannot be used: a class list, a marking sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row that is not blank: its line from 1, its cells, and why some cells cannot be read, by column from 0."""

    line: int
    cells: tuple[str, ...]
    unread: Mapping[int, str] = field(default_factory=dict)


def heading_key(heading: str) -> str:
    """A heading without case, blanks and stops."""
    return "".join(character for character in heading.casefold() if character.isalnum())


def repeated_heading(headings: Sequence[str]) -> int | None:
    """The column, from 0, of a heading that stood before, or None."""
    keys = [heading_key(heading) for heading in headings]
    return next((i for i, key in enumerate(keys) if key and key in keys[:i]), None)


def shown_headings(headings: Sequence[str]) -> str:
    """The headings as a message shows them."""
    named = [f"`{harmless(heading.strip())}`" for heading in headings if heading.strip()]
    return ", ".join(named[:8]) + (" …" if len(named) > 8 else "")


def unused_columns(headings: Sequence[str]) -> Iterator[str]:
    """A note of the columns that are not read, if one of them has a heading."""
    if named := [heading for heading in headings if heading.strip()]:
        yield f"Not used: the {plural(len(named), 'column')} {shown_headings(named)}."


def headings_at(rows: Sequence[Sequence[str]], wanted: Wanted) -> int:
    """The place of the first row whose headings are wanted, among the first of `rows`; 0 where there is none."""
    near = rows[:TITLES_WITHIN]
    return next((place for place, cells in enumerate(near) if wanted(cells)), 0)
