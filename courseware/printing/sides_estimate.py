"""About how many sides a paper takes, before it is printed: a rough count, by the heights of `arrangement`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from courseware.papers.sheets import AskedExercise
from courseware.printing.arrangement import Placed, arranged, part_height
from courseware.printing.page_format import PageFormat

_HEADING = 12.0  # mm: the line over an exercise, and the space round it
_ROUND_DRAWING = 5.0  # mm
_HEAD = 46.0  # mm: the title, the name and what is said once on the first page
_CARE = 40.0  # mm: the safety notes, in one box

Blocks: TypeAlias = tuple[float, ...]  # heights in mm of what is not broken over pages, one under another


def about_blocks(exercise: AskedExercise, page: PageFormat) -> Blocks:
    """About how high the pieces of an exercise stand: its opening with the first row of parts, then each row."""
    set_out = arranged(exercise, page)
    drawn = set_out.drawing.height + _ROUND_DRAWING if set_out.drawing else 0.0
    says = f"{exercise.setting} {exercise.pose} {exercise.brick}"
    if set_out.beside and set_out.drawing:
        wide = page.wide - page.gap - set_out.drawing.width
        words = page.text_height(says, wide) + sum(_height(placed, page) for placed in set_out.first)
        opening = max(drawn, words)
    else:
        opening = drawn + page.text_height(says, page.wide)
    opening += _HEADING * page.scale
    rows = [max(_height(placed, page) for placed in row) for row in set_out.rows]
    if set_out.first or not rows:
        return (opening, *rows)
    return (opening + rows[0], *rows[1:])


def about_sides(exercises: Sequence[Blocks], page: PageFormat, *, cautions: bool) -> int:
    """About how many sides exercises of these pieces take, under a paper's head and its cautions, if it has any."""
    if not exercises:
        return 0
    room = page.sheet[1] - page.top - page.bottom
    sides, at = 1, (_HEAD + (_CARE if cautions else 0.0)) * page.scale
    while at > room:
        sides, at = sides + 1, at - room
    for place, blocks in enumerate(exercises):
        for number, block in enumerate(blocks):
            anew = (page.roomy and place and not number) or (page.part_a_page and (place or number))
            if anew or (at + block > room and at):
                sides, at = sides + 1, 0.0
            at += block
            while at > room:
                sides, at = sides + 1, at - room
    return sides


def _height(placed: Placed, page: PageFormat) -> float:
    return part_height(placed.part, placed.wide, page, beside=placed.beside)
