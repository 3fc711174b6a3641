"""The table of a key: what to look for beside the slips, and the exercise's drawing beside its first rows."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from math import inf
from textwrap import shorten

from courseware.drawings import draw
from courseware.drawings.fitted import Sizes
from courseware.drawings.picture import Picture
from courseware.papers.sheets import KeyAnswer, KeyExercise

KEY_WIDE = 190.0  # mm between a key's margins
_FIRST_LINE = 105  # characters of a question that its key repeats
_DRAWINGS = (74.0, 46.0), (62.0, 38.0), (50.0, 31.0)  # mm: rooms for a drawing beside the table, the larger the better
_TALLER = ((74.0, 59.8), (74.0, 78.2))  # mm: where its words would lie on one another
_PAGE = 274.0  # mm that a page of a key has
_GAP = 4.0  # mm between the two
_WORTH = 1.5  # mm that a smaller drawing, or fewer parts beside it, must save
_SLIPS, _SLIPS_BESIDE = 0.36, 0.34  # of a table's width: the slips, as the style sheet has them
_EARNS = 9.0  # mm of half a table that its marks take, as the style sheet has it
_FIGURE_LEAST, _FIGURE_MOST = 12.0, 24.0  # mm that its figures take
_DIGIT, _ROUND_FIGURE = 1.5, 1.8  # mm: a letter of a figure, and what keeps it from the next column
_LETTER, _LINE, _ROW, _ASKED = 1.38, 3.2, 0.3, 4.0  # mm: a letter, a line, round a row, and the row of a question


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyRow:
    """Half a row of a key's table: words, a figure where there is one, and what it earns."""

    says: str
    figure: str = ""
    earns: str | int = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyDrawing:
    """The drawing of an exercise on its key: how many parts stand `beside` it, and how wide in mm their table is."""

    picture: Picture | None = None
    beside: int = 0
    wide: float = KEY_WIDE


def figure_wide(parts: Iterable[Sequence[KeyAnswer]]) -> float:
    """How wide in mm the figures of a table stand, so that none of usual length breaks."""
    rows = (half for answers in parts for answer in answers for row in key_rows(answer) for half in row if half)
    longest = max((len(half.figure) for half in rows), default=0)
    return min(max(longest * _DIGIT + _ROUND_FIGURE, _FIGURE_LEAST), _FIGURE_MOST)


def key_rows(answer: KeyAnswer) -> list[tuple[KeyRow | None, KeyRow | None]]:
    """What to look for, and beside it the slips; what else is to be known fills whichever side is shorter.

    Points are numbered, down the left side and then down the right: an assessor types a letter for each in that order.
    """
    if answer.by_eye:
        points = [KeyRow(says=f"{number}. {note}") for number, note in enumerate(answer.notes, 1)]
        half = -(-len(points) // 2)
        return list(zip_longest(points[:half], points[half:]))
    found = [KeyRow(says=line.say, figure=line.figure, earns=line.earns) for line in answer.working]
    found += [KeyRow(says=f"Accept: {one.says}", figure=one.figure, earns=one.earns) for one in answer.accepts]
    beside = [KeyRow(says=slip.says, figure=slip.figure, earns=slip.earns) for slip in answer.slips]
    for note in answer.notes:
        (found if len(found) < len(beside) else beside).append(KeyRow(says=note))
    return list(zip_longest(found, beside))


def key_drawing(exercise: KeyExercise) -> KeyDrawing:
    """The drawing where it has something filled in, beside as many parts as are about as high."""
    call, asked = exercise.drawing, exercise.asked.drawing
    if call is None or asked is None or (call.labels == asked.labels and not exercise.asked.drawn_in_place):
        return KeyDrawing()
    if exercise.asked.drawn_in_place:  # at true size, to lay a learner's over
        return KeyDrawing(picture=draw(call))
    best, found = inf, KeyDrawing()
    figures = figure_wide(answers for _, answers in exercise.by_part) + _EARNS
    whole = [sum(_height(answer, KEY_WIDE, figures) for answer in answers) for _, answers in exercise.by_part]
    for picture in _pictures(Sizes(call)):
        wide = float(int(KEY_WIDE - _GAP - picture.width))
        narrow = [sum(_height(answer, wide, figures) for answer in answers) for _, answers in exercise.by_part]
        for beside in range(len(whole), -1, -1):
            high = max(picture.height, sum(narrow[:beside])) if beside else picture.height + _GAP
            cost = sum(map(_cost, (high, *whole[beside:])))
            if cost < best - _WORTH:
                best = cost
                found = KeyDrawing(picture=picture, beside=beside, wide=wide)
    return found


def _cost(high: float) -> float:
    """What a piece that stands on one page takes of it in mm: its height, and what it leaves white on average."""
    return high + high * high / (2 * _PAGE)


def _pictures(sizes: Sizes) -> tuple[Picture, ...]:
    """The drawing made for each of its rooms that it fits, or for taller ones where it fits none."""
    made = tuple(picture for room in _DRAWINGS if (picture := sizes.fitting(room)))
    return made or (sizes.within(*_TALLER),)


def first_line(text: str, most: int = _FIRST_LINE) -> str:
    """As much of a text as stands on a line, cut between words."""
    return shorten(text, most, placeholder=" …")


def _height(answer: KeyAnswer, wide: float, figures: float) -> float:
    """About how high the rows of an answer stand in a table so wide, in mm, whose figures and marks take `figures`."""
    slips = wide * (_SLIPS if wide == KEY_WIDE else _SLIPS_BESIDE)
    columns = (wide - slips - 2 * figures, slips)
    return _ASKED + sum(
        max(_lines(half, column, figures) for half, column in zip(row, columns, strict=True)) * _LINE + _ROW
        for row in key_rows(answer)
    )


def _lines(half: KeyRow | None, column: float, figures: float) -> int:
    """How many lines the words of half a row take; without a figure they have its column too."""
    if half is None:
        return 1
    room = column if half.figure else column + figures - (_EARNS if half.earns != "" else 0)
    return -(-len(half.says) // max(1, int(room / _LETTER))) or 1
