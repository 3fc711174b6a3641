"""What to teach the class again: slips seen on more than one paper, each with a ten-minute question."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from courseware.class_report.figures import ClassFigures, SlipSeen
from courseware.drawings.picture import Picture
from courseware.reports.report import Block, Table
from courseware.reports.words import plain
from courseware.words import count, listed, plural

_HEADINGS = ("No.", "What went wrong", "Where", "Papers")
_WIDTHS = (0, 92, 50, 24)
_FIRST = 10  # slips on the first page, the questions to start with right below them
_PERHAPS = " Perhaps: the figure on these papers is one that another slip gives too."


class Starter(NamedTuple):
    """A fresh question to start a lesson with: its pose, what it asks, the answer, and its drawing if it has one."""

    pose: str
    ask: str
    answer: str
    picture: Picture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbered:
    """A slip with the number it has on the sheet, from 1, and its starter where there is one."""

    number: int
    slip: SlipSeen
    starter: Starter | None


def numbered_slips(slips: Sequence[SlipSeen], starters: Mapping[str, Starter]) -> tuple[Numbered, ...]:
    """The slips to teach again first, then those seen once; a starter for each of the first.

    `starters` go by `exercise/part` or, for any part of an exercise, by its name.
    """
    in_turn = [slip for again in (True, False) for slip in slips if slip.again is again]
    return tuple(
        Numbered(number=number, slip=slip, starter=_starter(slip, starters) if slip.again else None)
        for number, slip in enumerate(in_turn, 1)
    )


def _starter(slip: SlipSeen, starters: Mapping[str, Starter]) -> Starter | None:
    return starters.get(f"{slip.exercise}/{slip.part}", starters.get(slip.exercise))


def teach_again(figures: ClassFigures, slips: Sequence[Numbered]) -> tuple[Block, ...]:
    """The blocks of the sheet that say what to teach again."""
    again = [one for one in slips if one.slip.again]
    once = [one for one in slips if not one.slip.again]
    n = len(figures.codes)
    if not again:
        blocks = [Block(heading="Teach again first", text=("No slip was seen on more than one paper.",))]
    else:
        says = f"Slips seen on more than one of {count(n, 'paper')}, the commonest first."
        says += _PERHAPS if any(one.slip.perhaps for one in again) else ""
        first = Block(heading="Teach again first", text=(says,), table=_table(again[:_FIRST], n))
        blocks = [first, *_starters(again)]
    if again[_FIRST:]:
        blocks.append(Block(heading="Also seen on more than one paper", table=_table(again[_FIRST:], n)))
    if once:
        says = "On one paper it is a slip, not a gap in the teaching: the learner's own feedback deals with it."
        blocks.append(Block(heading="Slips seen once", text=(says,), table=_table(once, n)))
    return tuple(blocks)


def _table(slips: Sequence[Numbered], n: int) -> Table:
    rows = tuple(
        (str(one.number), one.slip.says, f"{one.slip.label} {plain(one.slip.exercise)}", seen(one.slip, n))
        for one in slips
    )
    return Table(headings=_HEADINGS, rows=rows, widths=_WIDTHS)


def seen(slip: SlipSeen, n: int) -> str:
    """On how many papers: `5 of 12`, `5 of 12, perhaps 2 more`, `perhaps 3 of 12`."""
    if not slip.codes:
        return f"perhaps {len(slip.perhaps)} of {n}"
    return f"{len(slip.codes)} of {n}" + (f", perhaps {len(slip.perhaps)} more" if slip.perhaps else "")


def _starters(again: Sequence[Numbered]) -> list[Block]:
    """A ten-minute question for every slip to teach again; what is asked of one and the same wall stands together."""
    posed: dict[str, dict[tuple[str, str], list[int]]] = {}
    pictures: dict[str, Picture | None] = {}
    for one in again:
        if one.starter:
            pose, ask, answer, pictures[pose] = one.starter
            posed.setdefault(pose, {}).setdefault((ask, answer), []).append(one.number)
    blocks = [_starter_block(pose, asked, pictures[pose]) for pose, asked in posed.items()]
    if without := [one.number for one in again if not one.starter]:
        says = f"No fresh question was made for {_slips(without)}: set the same question with other sizes."
        blocks.append(Block(text=(says,)))
    return blocks


def _starter_block(pose: str, asked: Mapping[tuple[str, str], Sequence[int]], picture: Picture | None) -> Block:
    """One question with what it asks and the answers; each with its slips where it asks more than one thing."""
    lines: list[str] = [pose]
    for (ask, answer), numbers in asked.items():
        lines.append(f"For {_slips(numbers)}: {ask}" if len(asked) > 1 else ask)
        lines.append(f"Answer, for the tutor: {answer}")
    every = sorted(number for numbers in asked.values() for number in numbers)
    return Block(heading=f"Ten-minute starter for {_slips(every)}", text=tuple(lines), picture=picture)


def _slips(numbers: Sequence[int]) -> str:
    """`slip 2`, `slips 1, 4 and 5`."""
    return f"{plural(len(numbers), 'slip')} {listed([str(number) for number in numbers])}"
