"""Ten-minute starters: a fresh question with its answer for what went wrong, and what is taught first."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from courseware.class_report.figures import ClassFigures
from courseware.class_report.misconceptions import Misconception
from courseware.drawings.fitted import Sizes
from courseware.drawings.picture import Picture
from courseware.drawings.reduced import reduced
from courseware.papers.sheets import DrawingCall
from courseware.reports.in_short import cut
from courseware.reports.report import Block
from courseware.words import count, listed

_MOST_LABELS = 6


class Starter(NamedTuple):
    """A fresh question to start a lesson with: its pose, what it asks, the answer, and its drawing if it has one."""

    pose: str
    ask: str
    answer: str
    drawing: DrawingCall | None = None


def starter_for(one: Misconception, starters: Mapping[str, Starter]) -> Starter | None:
    """The starter of the part in which it was seen most, of those that have one; `starters` go by label."""
    return next((starters[label] for label in one.labels if label in starters), None)


def teach_first(
    figures: ClassFigures, starters: Mapping[str, Starter], room: tuple[float, float], most: int
) -> tuple[Block, ...]:
    """What to teach first: what went wrong on most papers, with its starter; no drawing larger than `room`, mm."""
    again = [one for one in figures.misconceptions if one.again]
    if not again:
        says = "No slip was seen on more than one paper: each learner's own feedback deals with it."
        return (Block(heading="Teach first", text=(says,)),)
    first = again[0]
    told_of = (seen_in(first, len(figures.codes)), *([first.rule] if first.rule else []))
    told = Block(heading=f"Teach first: {first.words}", text=told_of)
    starter = starter_for(first, starters)
    if starter is None:
        return told, Block(text=("No fresh question was made for it: set the same question with other sizes.",))
    return told, starter_block("Ten-minute starter", _shorter(starter, most), room)


def starter_block(heading: str, starter: Starter, room: tuple[float, float], said: tuple[str, ...] = ()) -> Block:
    """A starter with its answer for the tutor, below what is `said`, beside its drawing made for a `room` in mm."""
    picture = _made_for(starter.drawing, room) if starter.drawing else None
    lines = (*said, f"{starter.pose} {starter.ask}".strip(), f"Answer, for the tutor: {starter.answer}")
    return Block(heading=heading, text=lines, picture=picture, beside=picture is not None)


def seen_in(one: Misconception, of: int) -> str:
    """`Seen 9 times, on 5 of 7 papers, in 1a, 2c and 3b; perhaps 2 times more.`."""
    labels = list(one.labels)
    where = listed(labels[:_MOST_LABELS] + ([f"{len(labels) - _MOST_LABELS} more"] if labels[_MOST_LABELS:] else []))
    perhaps = len(one.perhaps)
    if not one.times:
        return f"Perhaps {count(perhaps, 'time')}, in {where}: another slip gives the same figure."
    more = f"; perhaps {count(perhaps, 'time')} more, where another slip gives the same figure" if perhaps else ""
    times = "once" if one.times == 1 else f"{one.times} times"
    return f"Seen {times}, on {one.learners} of {count(of, 'paper')}, in {where}{more}."


def _made_for(drawing: DrawingCall, room: tuple[float, float]) -> Picture:
    """Smaller than true size too, since nobody draws in it here."""
    sizes = Sizes(drawing)
    return sizes.fitting(room) or reduced(sizes.whole, room)


def _shorter(starter: Starter, most: int) -> Starter:
    return starter._replace(pose=cut(starter.pose, most), ask=cut(starter.ask, most))
