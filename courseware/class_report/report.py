"""The class picture on two sides: what to teach first and the heat map; then slips, spread and outcomes.

Each side comes in several choices, from the fullest to the barest: which of them fits is found as it is printed. All
else is in the workbook.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from courseware.class_report.figures import ClassFigures, OutcomeFigures
from courseware.class_report.heat_map import heat_map
from courseware.class_report.heat_table import HeatTable, exercise_number, heat_table
from courseware.class_report.marks_plot import marks_plot
from courseware.class_report.outcome_plot import Outcome, outcome_plot
from courseware.class_report.slip_bars import slip_bars
from courseware.class_report.starters import Starter, starter_block, starter_for, teach_first
from courseware.papers.dates import in_full
from courseware.papers.sitting import Sitting
from courseware.reports.report import Block
from courseware.reports.words import SMALL, two
from courseware.words import count

Side = tuple[Block, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassPicture:
    """The class picture's title and its two sides; of each the choices, the fullest first. `second` may have none.

    `centre` is the centre's name over the title.
    """

    title: str
    first: tuple[Callable[[], Side], ...]
    second: tuple[Callable[[], Side], ...] = ()
    centre: str = ""


Room = tuple[float, float]  # mm


@dataclass(frozen=True, slots=True, kw_only=True)
class _First:
    """How much the first side shows: room for the starter's drawing, the map's most rows and their height in mm.

    A starter whose question has a drawing is shown with it, however little else there is room for.
    """

    drawing: Room
    rows: int
    high: float
    words: int = 2000  # characters of the starter, each of what it tells and what it asks


@dataclass(frozen=True, slots=True, kw_only=True)
class _Second:
    """How much the second side shows: bars, outcomes, mm of dots, and starters beside the first side's."""

    bars: int
    outcomes: int
    dots: float
    starters: int
    drawing: Room = (58, 38)


_FIRST = (
    _First(drawing=(91, 60), rows=30, high=7.0),
    _First(drawing=(80, 54), rows=30, high=5.4),
    _First(drawing=(72, 50), rows=30, high=4.6),
    _First(drawing=(58, 40), rows=30, high=4.2),
    _First(drawing=(58, 40), rows=20, high=4.2),
    _First(drawing=(58, 40), rows=14, high=4.2),
    _First(drawing=(50, 34), rows=14, high=4.0, words=1400),
    _First(drawing=(50, 34), rows=8, high=4.0, words=900),
)
_SECOND = (
    _Second(bars=14, outcomes=16, dots=34, starters=2, drawing=(62, 42)),
    _Second(bars=14, outcomes=16, dots=34, starters=1, drawing=(62, 42)),
    _Second(bars=12, outcomes=16, dots=24, starters=1, drawing=(62, 42)),
    _Second(bars=12, outcomes=16, dots=24, starters=1),
    _Second(bars=9, outcomes=12, dots=18, starters=1),
    _Second(bars=14, outcomes=16, dots=30, starters=0),
    _Second(bars=10, outcomes=12, dots=20, starters=0),
    _Second(bars=6, outcomes=8, dots=16, starters=0),
)


def class_picture(
    sitting: Sitting, figures: ClassFigures, questions: Mapping[str, str], starters: Mapping[str, Starter]
) -> ClassPicture:
    """The class picture of a sitting, for the tutor; papers go by their codes.

    `questions` are the parts' questions and `starters` fresh ones with their answers, both by label.
    """
    title = f"Class picture: {sitting.title}"
    head = Block(text=(who_is_in(sitting, figures),))
    if not figures.codes:
        nothing = Block(text=("Nothing is marked yet, so there is nothing to show.",))
        return ClassPicture(title=title, first=(lambda: (head, nothing),), centre=sitting.settings.name)

    def first(choice: _First) -> Side:
        table = heat_table(figures, choice.rows)
        return head, *teach_first(figures, starters, choice.drawing, choice.words), _map(figures, table, choice.high)

    def second(choice: _Second) -> Side:
        return (
            slips_block(figures, choice.bars),
            spread_block(figures, choice.dots),
            outcomes_block(figures, questions, choice.outcomes),
            *_more_starters(figures, starters, choice),
        )

    return ClassPicture(
        title=title,
        first=tuple(partial(first, choice) for choice in _FIRST),
        second=tuple(partial(second, choice) for choice in _SECOND),
        centre=sitting.settings.name,
    )


def who_is_in(sitting: Sitting, figures: ClassFigures) -> str:
    """Whose papers these are, which are left out, and what is not settled."""
    papers = figures.papers
    left = (
        (papers.absent, "absent"),
        (papers.missing, "not handed in"),
        (papers.withdrawn, "withdrawn"),
        (papers.unfinished, "not marked in every part"),
    )
    group = f"{sitting.group}, " if sitting.group else ""
    says = f"For the tutor, not for learners. {group}{in_full(sitting.date)}, sitting {sitting.code}. "
    says += f"{count(len(figures.codes), 'paper')} marked"
    says += "".join(f"; {n} {why}" for n, why in left if n) + "."
    if open_cells := sum(part.asked for part in figures.parts):
        earns = "earns" if open_cells == 1 else "earn"
        says += f" {count(open_cells, 'answer')} could not be read and {earns} nothing until settled."
    if waiting := sum(part.waiting for part in figures.parts):
        waits = "waits" if waiting == 1 else "wait"
        says += f" {count(waiting, 'answer')} {waits} for a look at the working: figures are provisional."
    return says + " Every figure, slip and starter is in class-picture.xlsx."


def _map(figures: ClassFigures, table: HeatTable, high: float) -> Block:
    what = "part" if table.parts else "exercise"
    if table.papers:
        says = f"Marks of each paper in each {what}: white where all were got, the darker the fewer."
        says += " –: nothing written." if any(part.blank + part.unreached for part in figures.parts) else ""
    else:
        says = f"Papers in bands by their marks, and the share of each {what} that a band got, in per cent: the darker "
        says += "the fewer. Each paper has a row in the workbook, on the sheet Marks."
    says += (
        " ?: still to be settled." if table.papers and any(part.asked + part.waiting for part in figures.parts) else ""
    )
    return Block(heading="Who got what", text=(says,), picture=heat_map(table, high))


def slips_block(figures: ClassFigures, most: int) -> Block:
    """What went wrong as bars, so many at most."""
    found = figures.misconceptions
    if not found:
        return Block(heading="What went wrong", text=("No answer showed a slip that has a name.",))
    says = "Black: learners who showed it. Grey goes on to how often it was seen in all."
    if any(one.perhaps for one in found[:most]):
        says += " Broken line: perhaps, since another slip gives the same figure."
    if found[most:]:
        says += f" {len(found) - most} more stand in the workbook."
    return Block(heading="What went wrong", text=(says,), picture=slip_bars(found[:most]))


def spread_block(figures: ClassFigures, dots: float) -> Block:
    """The spread of marks, its dots so many mm high at most."""
    totals = sorted(figures.totals)
    middle = (totals[(len(totals) - 1) // 2] + totals[len(totals) // 2]) / 2
    says = f"From {totals[0]} to {totals[-1]} of {figures.of} marks, mean {two(figures.whole.mean)}, middle {middle:g}."
    return Block(heading="Spread of marks", text=(says,), picture=marks_plot(totals, figures.of, dots))


def outcomes_block(figures: ClassFigures, questions: Mapping[str, str], most: int) -> Block:
    """All outcomes in the order of the paper, or the weakest of many."""
    shown = outcomes_shown(figures, most)
    says = "The dot: the share of its marks that the class got. The line: where the share likely lies (19 times in 20)."
    if len(figures.codes) < SMALL:
        says += f" So small a class (n = {len(figures.codes)}) says little: read the line, not the dot."
    if len(shown) < len(figures.outcomes):
        says += f" The {most} weakest of {len(figures.outcomes)} are shown."
    plot = outcome_plot([Outcome(words=outcome_words(one, questions), got=one.facility) for one in shown])
    return Block(heading="How much of each exercise the class got", text=(says,), picture=plot)


def outcomes_shown(figures: ClassFigures, most: int) -> Sequence[OutcomeFigures]:
    """All outcomes in the order of the paper; of more than `most`, the weakest."""
    if len(figures.outcomes) <= most:
        return figures.outcomes
    least = sorted(figures.outcomes, key=lambda one: one.facility.value if one.facility else 1.0)[:most]
    return [one for one in figures.outcomes if one in least]


def outcome_words(one: OutcomeFigures, questions: Mapping[str, str]) -> str:
    """An exercise by its number, its topic and what its first part asks: `2 Opening sizes: How high must it be?`."""
    first = one.labels[0]
    return f"{exercise_number(first)} {one.topic}: {questions.get(first, '')}".rstrip(": ")


def _more_starters(figures: ClassFigures, starters: Mapping[str, Starter], choice: _Second) -> list[Block]:
    """Starters for what is to be taught next, each once, as many as chosen."""
    taught = [one for one in figures.misconceptions if one.again]
    used = [starter_for(one, starters) for one in taught[:1]]
    blocks: list[Block] = []
    for one in taught[1:]:
        starter = starter_for(one, starters)
        if starter and starter not in used and len(blocks) < choice.starters:
            used.append(starter)
            said = (one.rule,) if one.rule else ()
            blocks.append(starter_block(f"Then: {one.words}", starter, choice.drawing, said))
    return blocks
