"""The heat map: a cell for each paper and part, the darker the fewer marks were got, with the figure in it."""

from __future__ import annotations

from courseware.class_report.heat_table import Cell, HeatTable
from courseware.drawings.dimension import box
from courseware.drawings.picture import Label, Picture, Point, Stroke
from courseware.words import count

WIDE = 176.0  # mm
SIZE = 2.9  # mm of type: 8 pt and a little
_CODE, _BAND, _TOTAL = 24.0, 37.0, 9.0  # mm: the names of rows, and their totals
_WIDEST = 12.0  # mm of a cell
_LETTER = 1.62  # mm that a letter of a column's name takes
_SHADES = ((1.0, 1.0), (0.75, 0.9), (0.5, 0.8), (0.25, 0.7), (0.0, 0.58))  # from this share of the marks on: this grey
_THICK, _THIN = 0.5, 0.12  # mm: where an exercise begins, and elsewhere


def shade(share: float) -> float:
    """The grey for a share of the marks, from 1 (white: all of them) down; black figures can be read on each."""
    return _SHADES[shade_step(share)][1]


def shade_step(share: float) -> int:
    """Which of the greys that is: 0 is white, for all of the marks, and 4 the darkest."""
    return next(place for place, (least, _) in enumerate(_SHADES) if share >= least)


def heat_map(table: HeatTable, high: float = 4.8) -> Picture:
    """The map, its rows so many mm high."""
    left = _CODE if table.papers else _BAND
    wide = min(_WIDEST, (WIDE - left - _TOTAL) / len(table.columns))
    head = max(len(column.label) for column in table.columns) * _LETTER + 1.5
    if not _turned(table, wide):
        head = high
    top = head + high  # below the names stand the marks of each column
    foot, right = top + high * len(table.rows), left + wide * len(table.columns)
    cells: dict[float, list[tuple[Point, ...]]] = {}
    words: list[Label] = []
    for line, row in enumerate(table.rows):
        y = top + high * line
        base = y + high / 2 + SIZE * 0.36
        words.append(Label(at=(left - 1.2, base), text=row.label, size=SIZE, anchor="end"))
        words.append(Label(at=(right + _TOTAL - 1, base), text=row.total, size=SIZE, anchor="end", bold=True))
        for place, cell in enumerate(row.cells):
            x = left + wide * place
            cells.setdefault(shade(cell.share), []).append(box(x, y, x + wide, y + high))
            words.append(Label(at=(x + wide / 2, base), text=cell.text, size=SIZE, bold=_stands_out(cell)))
    shaded = [
        Stroke(outlines=tuple(outlines), closed=True, weight=_THIN, grey=0.35, fill=grey)
        for grey, outlines in sorted(cells.items(), reverse=True)
    ]
    begins = [left + wide * place for place, column in enumerate(table.columns) if column.begins]
    rules = tuple(((x, 0.0), (x, foot)) for x in (*begins, right))
    frame = (((left, top), (right, top)), ((left, foot), (right, foot)))
    lines = Stroke(outlines=(*rules, *frame), weight=_THICK)
    marks: tuple[Stroke | Label, ...] = (*shaded, lines, *_heads(table, left, wide, head, high), *words)
    return Picture(width=WIDE, height=foot + 0.4, marks=marks, alt=_alt(table))


def _stands_out(cell: Cell) -> bool:
    """Whether a cell's figure is bold: nothing was got, or something is still to be settled."""
    return cell.share == 0 or cell.open


def _turned(table: HeatTable, wide: float) -> bool:
    """Whether the columns' names are turned, since they do not fit across."""
    return max(len(column.label) for column in table.columns) * _LETTER + 0.8 > wide


def _heads(table: HeatTable, left: float, wide: float, head: float, high: float) -> list[Label]:
    base = head + high / 2 + SIZE * 0.36
    names = [Label(at=(left - 1.2, base), text="of marks", size=SIZE, anchor="end")]
    total = sum(column.of for column in table.columns) if table.papers else "%"
    names.append(
        Label(at=(left + wide * len(table.columns) + _TOTAL - 1, base), text=str(total), size=SIZE, anchor="end")
    )
    turned = _turned(table, wide)
    for place, column in enumerate(table.columns):
        middle = left + wide * (place + 0.5)
        if turned:
            at = (middle + SIZE * 0.36, head - 0.8)
            names.append(Label(at=at, text=column.label, size=SIZE, anchor="start", turn=90, bold=True))
        else:
            names.append(Label(at=(middle, head - 1.2), text=column.label, size=SIZE, bold=True))
        names.append(Label(at=(middle, base), text=str(column.of), size=SIZE))
    return names


def _alt(table: HeatTable) -> str:
    """The map in words: its size, and the columns and rows with the fewest marks."""
    rows, columns = len(table.rows), len(table.columns)
    shares = [sum(row.cells[place].share for row in table.rows) / rows for place in range(columns)]
    least = sorted(range(columns), key=lambda place: (shares[place], place))[:3]
    down = count(rows, "paper") if table.papers else count(rows, "band of papers", "bands of papers")
    across = count(columns, "part") if table.parts else count(columns, "column of exercises", "columns of exercises")
    weakest = ", ".join(table.columns[place].label for place in least)
    return f"A heat map of {down} by {across}. Fewest marks were got in {weakest}."
