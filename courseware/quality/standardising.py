"""A standardisation pack: scripts over the whole range without names, a page for each assessor's marks, the spread."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from courseware.marking.marks import MarkedPaper
from courseware.papers.codes import shuffled
from courseware.papers.dates import in_full
from courseware.quality.marks_by_hand import HandMark, ScriptToMark
from courseware.reports.as_typed import as_typed
from courseware.reports.report import Block, Report, Table
from courseware.reports.words import DASH
from courseware.spreadsheets.xlsx_out import Page, Value, safe_workbook
from courseware.words import count

SIZE = 5
LETTERS = "ABCDE"
_MOST_SIDE_BY_SIDE = 5  # assessors: with more the sheet has the lowest and the highest mark, the workbook all
_HOW = (
    "Every assessor marks every script alone, without talking about it, then the marks are laid side by side. The "
    "scripts go by letters; the letters say nothing of how good they are."
)
_READ = (
    "Spread: the highest mark given less the lowest. Talk first about the parts with the widest spread, with the "
    "script and its key on the table; what is agreed there is a rule for the next marking, not a change to these marks."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreadRow:
    """One part of one script: the mark of each assessor in their order, None where one gave none; and the record's."""

    letter: str
    label: str
    of: int
    marks: tuple[int | None, ...]
    record: int

    @property
    def spread(self) -> int | None:
        """The highest mark less the lowest; None where fewer than two gave one."""
        given = [mark for mark in self.marks if mark is not None]
        return max(given) - min(given) if len(given) > 1 else None


def over_the_range(papers: Sequence[tuple[int, MarkedPaper]], seed: str) -> tuple[tuple[int, MarkedPaper], ...]:
    """Five of these scripts (attempt and marks), spread evenly from the lowest total to the highest.

    All of them where there are five or fewer. They come in an order that the seed draws, so that it tells nothing.
    """
    drawn = shuffled(sorted(papers, key=lambda one: one[1].code), seed, "standardising")
    ordered = sorted(drawn, key=lambda one: Fraction(one[1].total, one[1].of or 1))
    last = len(ordered) - 1
    places = dict.fromkeys((2 * step * last + SIZE - 1) // (2 * (SIZE - 1)) for step in range(SIZE)) if ordered else {}
    return tuple(shuffled([ordered[place] for place in places], seed, "letters"))


def anonymous(script: ScriptToMark, letter: str, name: str) -> ScriptToMark:
    """A script under its letter, with its learner's name and code taken out of what was written."""
    hidden = re.compile("|".join(map(re.escape, filter(None, (name, script.code)))), re.IGNORECASE)
    parts = tuple(replace(part, written=hidden.sub(f"(script {letter})", part.written)) for part in script.parts)
    return replace(script, shown=letter, parts=parts)


def pack_sheet(scripts: Sequence[ScriptToMark], title: str, centre: str, made: str, assessors: Sequence[str]) -> Report:
    """The pack to print: each script as it was written beside its key, then a page for each assessor's marks."""
    return Report(
        file="standardising",
        title=f"Standardising: {title}",
        centre=centre,
        blocks=(
            Block(text=(f"{count(len(scripts), 'script')} over the range of marks. Made on {in_full(made)}.", _HOW)),
            *(_script(script, first=script is scripts[0]) for script in scripts),
            *(_marks_page(scripts, name) for name in assessors or ("",)),
        ),
    )


def spread_rows(
    scripts: Sequence[ScriptToMark], given: Sequence[HandMark], record: Mapping[tuple[str, int, str], int]
) -> tuple[tuple[str, ...], tuple[SpreadRow, ...]]:
    """The assessors in the order in which they came, and every part of every script with their marks."""
    assessors = tuple(dict.fromkeys(mark.by for mark in given))
    marks = {(mark.key, mark.by): mark.marks for mark in given}
    rows = tuple(
        SpreadRow(
            letter=script.shown,
            label=part.label,
            of=part.of,
            marks=tuple(marks.get(((script.code, script.attempt, part.label), name)) for name in assessors),
            record=record[script.code, script.attempt, part.label],
        )
        for script in scripts
        for part in script.parts
    )
    return assessors, rows


def spread_sheet(assessors: Sequence[str], rows: Sequence[SpreadRow], title: str, centre: str, made: str) -> Report:
    """The spread to print: totals by script and assessor, then the parts that were marked apart, the widest first."""
    apart = sorted((row for row in rows if row.spread), key=lambda row: -(row.spread or 0))
    alike = sum(row.spread == 0 for row in rows)
    heads = tuple(map(as_typed, assessors)) if len(assessors) <= _MOST_SIDE_BY_SIDE else ("Lowest", "Highest")
    widths = (16, 16, *[18] * len(heads), 18, 0)
    told = (
        f"{count(len(assessors), 'assessor')}. Made on {in_full(made)}. Of the parts that two or more have marked, "
        f"{alike} were given the same mark by all, {len(apart)} were not."
    )
    totals = Table(
        headings=("Script", "Of", *heads, "Spread", "In the record"),
        rows=tuple(_totals(assessors, rows)),
        widths=widths,
    )
    parts = Table(
        headings=("Script", "Part", *heads, "Spread", "In the record"),
        rows=tuple(
            (row.letter, row.label, *_side_by_side(row.marks), str(row.spread), f"{row.record} of {row.of}")
            for row in apart
        ),
        widths=widths,
    )
    return Report(
        file="spread",
        title=f"Standardising, the spread: {title}",
        centre=centre,
        blocks=(
            Block(text=(told, _READ)),
            Block(heading="Totals", table=totals),
            Block(heading="Parts that were marked apart", table=parts)
            if apart
            else Block(text=("No part was marked apart.",)),
        ),
    )


def spread_workbook(assessors: Sequence[str], rows: Sequence[SpreadRow], made: str) -> bytes:
    """Every part of every script with each assessor's mark."""
    columns = {"script": 9, "part": 9, "of": 6, **{_column(name, number): 16 for number, name in enumerate(assessors)}}
    columns |= {"spread": 9, "in the record": 14}
    lines: list[tuple[Value, ...]] = [
        (row.letter, row.label, row.of, *row.marks, row.spread, row.record) for row in rows
    ]
    return safe_workbook([Page(title="Spread", columns=columns, rows=lines)], made)


def _script(script: ScriptToMark, *, first: bool) -> Block:
    rows = tuple(
        (part.label, as_typed(part.ask), as_typed(part.written) or DASH, f"{part.key} {part.unit}".strip()
         if part.unit and not part.key.endswith(part.unit) else part.key, str(part.of))
        for part in script.parts
    )  # fmt: skip
    table = Table(headings=("Part", "Question", "As written", "The key", "Of"), rows=rows, widths=(13, 0, 27, 30, 8))
    return Block(heading=f"Script {script.shown}", table=table, new_page=not first)


def _marks_page(scripts: Sequence[ScriptToMark], name: str) -> Block:
    """A page for one assessor: parts down, scripts across, every mark blank."""
    worth = {part.label: part.of for script in scripts for part in script.parts}
    letters = [script.shown for script in scripts]
    rows = [(label, str(of), *[""] * len(letters), "") for label, of in worth.items()]
    rows.append(("Total", str(sum(worth.values())), *[""] * len(letters), ""))
    who = as_typed(name) if name else "______________________________"
    return Block(
        heading=f"Marks of {as_typed(name)}" if name else "Marks",
        text=(f"Assessor: {who}   Date: ______________",),
        table=Table(
            headings=("Part", "Of", *letters, "Why"), rows=tuple(rows), widths=(18, 12, *[16] * len(letters), 0)
        ),
        new_page=True,
    )


def _totals(assessors: Sequence[str], rows: Sequence[SpreadRow]) -> Iterator[tuple[str, ...]]:
    for letter in dict.fromkeys(row.letter for row in rows):
        own = [row for row in rows if row.letter == letter]
        totals = [_total([row.marks[place] for row in own]) for place in range(len(assessors))]
        given = [total for total in totals if total is not None]
        spread = str(max(given) - min(given)) if len(given) > 1 else DASH
        record = str(sum(row.record for row in own))
        yield (letter, str(sum(row.of for row in own)), *_side_by_side(totals), spread, record)


def _side_by_side(marks: Sequence[int | None]) -> tuple[str, ...]:
    """Each assessor's mark; of more assessors than a page is wide for, the lowest and the highest."""
    if len(marks) <= _MOST_SIDE_BY_SIDE:
        return tuple(map(_shown, marks))
    given = [mark for mark in marks if mark is not None]
    return (_shown(min(given, default=None)), _shown(max(given, default=None)))


def _total(marks: Sequence[int | None]) -> int | None:
    """What marks come to; None where one is missing."""
    return None if any(mark is None for mark in marks) else sum(mark or 0 for mark in marks)


def _shown(mark: int | None) -> str:
    return DASH if mark is None else str(mark)


def _column(name: str, number: int) -> str:
    return f"{number + 1}. {name}"
