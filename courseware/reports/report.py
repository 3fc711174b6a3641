"""What every printed report is made of: blocks of text, steps, tables and pictures, as finished text."""

from __future__ import annotations

from dataclasses import dataclass

from courseware.drawings.picture import Picture
from courseware.settings.settings import UNSIGNED, Signed


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table: headings, rows of finished text, and the width in mm of each column but the first (0: what is left)."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A piece of a report: a heading, then whichever of text, steps, table, picture and signatures there is.

    `beside` has the picture at the right of the text.
    """

    heading: str = ""
    text: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    table: Table | None = None
    picture: Picture | None = None
    beside: bool = False
    new_page: bool = False
    signed: Signed = UNSIGNED


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """A report of a page or more: its file's name, its title and its blocks, one after another.

    `centre` is the centre's name over the title, where it is printed.
    """

    file: str
    title: str
    blocks: tuple[Block, ...]
    centre: str = ""
