"""What the heat map shows: papers by parts where they fit, else bands of papers and whole exercises."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import takewhile

from courseware.class_report.figures import ClassFigures
from courseware.reports.words import whole_percent
from courseware.words import count

MOST_PAPERS = 30  # that have a row each
MOST_DIGITS, MOST_MARKS, MOST_SHARES = 46, 38, 25  # columns that are wide enough for figures of one, two, three signs
LEFT_OUT, OPEN = "–", "?"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A cell of the map: the figure in it and the share of marks got; `open` where something is still to be settled."""

    text: str
    share: float
    open: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A part, an exercise or a run of exercises: its marks, and whether an exercise begins with it."""

    label: str
    of: int
    begins: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A paper by its code, or a band of papers by its marks; `total` is the paper's, or a share of the band's."""

    label: str
    cells: tuple[Cell, ...]
    total: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatTable:
    """The map's cells; `papers` and `parts` say whether each has a row and a column of its own."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    papers: bool
    parts: bool


@dataclass(frozen=True, slots=True)
class _Paper:
    code: str
    marks: tuple[int, ...]
    left_out: tuple[bool, ...]
    open: tuple[bool, ...]


def heat_table(figures: ClassFigures, most_rows: int = MOST_PAPERS) -> HeatTable:
    """The map of a class in at most `most_rows` rows."""
    papers = [
        _Paper(
            code=issued.code,
            marks=tuple(mark.marks for mark in marked.marks),
            left_out=tuple(mark.how in {"blank", "unreached"} for mark in marked.marks),
            open=tuple(mark.provisional for mark in marked.marks),
        )
        for issued, marked in figures.papers.counted
    ]
    single = len(papers) <= most_rows
    digits = MOST_DIGITS if all(part.of < 10 for part in figures.parts) else MOST_MARKS
    groups = _groups(figures, digits if single else MOST_SHARES)
    columns = tuple(_column(figures, group) for group in groups)
    rows = (
        [_of_paper(paper, groups, columns) for paper in papers]
        if single
        else [_of_band(band, groups, columns) for band in bands_of_papers(papers, most_rows)]
    )
    return HeatTable(columns=columns, rows=tuple(rows), papers=single, parts=len(columns) == len(figures.parts))


def _groups(figures: ClassFigures, most: int) -> list[range]:
    """The parts of each column: one where they are not more than `most`, else those of one exercise or of several."""
    if len(figures.parts) <= most:
        return [range(place, place + 1) for place in range(len(figures.parts))]
    ends = [0]
    for outcome in figures.outcomes:
        ends.append(ends[-1] + len(outcome.labels))
    step = -(-len(figures.outcomes) // MOST_SHARES)
    starts = ends[:-1:step]
    return [range(start, end) for start, end in zip(starts, (*starts[1:], ends[-1]), strict=True)]


def _column(figures: ClassFigures, group: range) -> Column:
    first, last = figures.parts[group[0]].label, figures.parts[group[-1]].label
    numbers = tuple(dict.fromkeys((exercise_number(first), exercise_number(last))))
    begins = group[0] == 0 or exercise_number(figures.parts[group[0] - 1].label) != numbers[0]
    return Column(
        label=first if first == last else "–".join(numbers),
        of=sum(figures.parts[place].of for place in group),
        begins=begins,
    )


def exercise_number(label: str) -> str:
    """The exercise's number in a part's label.

    >>> exercise_number("10c(iv)")
    '10'
    """
    return "".join(takewhile(str.isdigit, label))


def _of_paper(paper: _Paper, groups: Sequence[range], columns: Sequence[Column]) -> Row:
    cells: list[Cell] = []
    for group, column in zip(groups, columns, strict=True):
        marks = sum(paper.marks[place] for place in group)
        waits = any(paper.open[place] for place in group)
        if all(paper.left_out[place] for place in group):
            text = LEFT_OUT
        else:
            text = OPEN if waits and len(group) == 1 else f"{marks}{OPEN if waits else ''}"
        cells.append(Cell(text=text, share=marks / column.of, open=waits))
    return Row(label=paper.code, cells=tuple(cells), total=str(sum(paper.marks)))


def bands_of_papers(papers: Sequence[_Paper], most: int) -> list[list[_Paper]]:
    """At most so many bands, as equal in number as may be, the highest marks first; equal totals stay together."""
    n, below = len(papers), 0
    bands: list[list[_Paper]] = [[] for _ in range(most)]
    for total in sorted({sum(paper.marks) for paper in papers}, reverse=True):
        same = [paper for paper in papers if sum(paper.marks) == total]
        bands[most * (2 * below + len(same)) // (2 * n)] += same  # by the middle of its places
        below += len(same)
    return [band for band in bands if band]


def _of_band(band: Sequence[_Paper], groups: Sequence[range], columns: Sequence[Column]) -> Row:
    totals = [sum(paper.marks) for paper in band]
    low, high = min(totals), max(totals)
    marks = f"{low}" if low == high else f"{low} to {high}"
    cells = tuple(
        _share_cell(sum(paper.marks[place] for paper in band for place in group) / (column.of * len(band)))
        for group, column in zip(groups, columns, strict=True)
    )
    whole = sum(totals) / (len(band) * sum(column.of for column in columns))
    return Row(label=f"{marks}: {count(len(band), 'paper')}", cells=cells, total=str(whole_percent(whole)))


def _share_cell(share: float) -> Cell:
    return Cell(text=str(whole_percent(share)), share=share)
