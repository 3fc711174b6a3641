"""The table of a key: what to look for beside the slips, and the exercise's drawing beside its first rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import zip_longest
from textwrap import shorten

from courseware.drawings import draw
from courseware.drawings.fitted import Sizes
from courseware.drawings.picture import Picture
from courseware.papers.sheets import KeyAnswer, KeyExercise

KEY_WIDE = 186.0  # mm between a key's margins
_FIRST_LINE = 105  # characters of a question that its key repeats
_DRAWING = (74.0, 46.0)  # mm: room for a drawing beside the table
_TALLER = ((74.0, 59.8), (74.0, 78.2))  # mm: where its words would lie on one another
_GAP = 4.0  # mm between the two
_FIGURES = 27.0  # mm of half a table that figure and marks take
_LETTER, _LINE, _ROW, _ASKED = 1.45, 3.6, 0.6, 5.0  # mm: a letter, a line, round a row, and the row of a question


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


def key_rows(answer: KeyAnswer) -> list[tuple[KeyRow | None, KeyRow | None]]:
    """What to look for, and beside it the slips; what else is to be known fills whichever side is shorter."""
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
    picture = Sizes(call).within(_DRAWING, *_TALLER)
    wide = float(int(KEY_WIDE - _GAP - picture.width))
    left, beside = picture.height, 0
    for _, answers in exercise.by_part:
        if left <= 0:
            break
        left -= sum(_height(answer, wide) for answer in answers)
        beside += 1
    return KeyDrawing(picture=picture, beside=beside, wide=wide)


def first_line(text: str, most: int = _FIRST_LINE) -> str:
    """As much of a text as stands on a line, cut between words."""
    return shorten(text, most, placeholder=" …")


def _height(answer: KeyAnswer, wide: float) -> float:
    """About how high the rows of an answer stand in a table so wide, in mm."""
    letters = max(1, int((wide / 2 - _FIGURES) / _LETTER))
    return _ASKED + sum(_lines(row, letters) * _LINE + _ROW for row in key_rows(answer))


def _lines(row: Sequence[KeyRow | None], letters: int) -> int:
    return max(-(-len(half.says) // letters) or 1 for half in row if half)
