"""The class picture as finished text: what to teach again, what the class got, how the questions worked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from courseware.class_report.figures import ClassFigures, class_figures
from courseware.class_report.marks_plot import marks_plot
from courseware.class_report.tables import (
    bands_table,
    outcomes_table,
    papers_table,
    parts_table,
    questions_table,
    whole_table,
)
from courseware.class_report.teach_again import Numbered, Starter, numbered_slips, teach_again
from courseware.class_report.variant_bands import PartBands, variant_bands
from courseware.class_report.words import MEANINGS, caution
from courseware.marking.marks import MarkedPaper, MarkedSitting
from courseware.papers.dates import in_full
from courseware.papers.sitting import Sitting
from courseware.reports.report import Block, Report, Table
from courseware.reports.words import two
from courseware.words import count

NO_NAMES: Mapping[str, str] = {}


def class_picture(
    sitting: Sitting,
    marked: Sequence[MarkedPaper],
    starters: Mapping[str, Starter],
    names: Mapping[str, str] = NO_NAMES,
    others: Sequence[MarkedSitting] = (),
) -> Report:
    """The class picture of a sitting, for the tutor.

    `starters` are fresh questions with their answers, by `exercise/part` or exercise; `names` by code, none unless
    given; `others` are sittings of the same exercises, for the comparison of variants.
    """
    figures = class_figures(sitting, marked)
    title = f"Class picture: {sitting.title}"
    head = Block(text=(_who(sitting, figures, named=bool(names)),))
    if not figures.codes:
        nothing = Block(text=("Nothing is marked yet, so there is nothing to show.",))
        return Report(file="class-picture", title=title, blocks=(head, nothing))
    slips = numbered_slips(figures.slips, starters)
    return Report(
        file="class-picture",
        title=title,
        blocks=(
            head,
            *teach_again(figures, slips),
            *_got(figures),
            _spread(figures),
            *_questions(figures),
            *_variants(sitting, bands_of(sitting, marked, others), 1 + len(others)),
            _papers(figures, slips, names),
            _meanings(),
        ),
    )


def bands_of(sitting: Sitting, marked: Sequence[MarkedPaper], others: Sequence[MarkedSitting]) -> tuple[PartBands, ...]:
    """The variant bands of the sitting's own parts, over it and the others."""
    own = part_labels(sitting)
    found = variant_bands((MarkedSitting(sitting, tuple(marked)), *others))
    return tuple(one for one in found if (one.topic, one.exercise, one.part) in own)


def part_labels(sitting: Sitting) -> dict[tuple[str, str, str], str]:
    """Each part's label by its topic, exercise and name."""
    exercises = sitting.papers[0].exercises
    return {(e.topic, e.exercise, part.name): part.label for e in exercises for part in e.parts}


def _who(sitting: Sitting, figures: ClassFigures, *, named: bool) -> str:
    """Whose papers these are, and which are left out."""
    papers = figures.papers
    left = (
        (papers.absent, "absent"),
        (papers.missing, "not handed in"),
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
    return says if named else says + " Papers go by their codes."


def _got(figures: ClassFigures) -> tuple[Block, ...]:
    says = (
        "About how many of the class got each part, blanks and parts not reached counted as no marks, and between what "
        "shares such classes would likely lie."
    )
    return (
        Block(heading="How much of each part the class got", text=(says,), table=parts_table(figures.parts)),
        Block(heading="How much of each outcome the class got", table=outcomes_table(figures.outcomes)),
    )


def _spread(figures: ClassFigures) -> Block:
    totals = sorted(figures.totals)
    middle = (totals[(len(totals) - 1) // 2] + totals[len(totals) // 2]) / 2
    says = (
        f"{count(len(totals), 'paper')}: from {totals[0]} to {totals[-1]} of {figures.of} marks, mean "
        f"{two(figures.whole.mean)}, the middle paper {middle:g}."
    )
    return Block(heading="Spread of marks", text=(says,), picture=marks_plot(totals, figures.of))


def _questions(figures: ClassFigures) -> tuple[Block, ...]:
    says = [
        "Tells apart: how much more of a part those with the higher totals got. Goes with the rest: whether those who "
        "got it did well elsewhere. In brackets, between what figures each likely lies."
    ]
    says += [small] if (small := caution(len(figures.codes))) else []
    return (
        Block(heading="How the questions worked", text=tuple(says), table=questions_table(figures.parts)),
        Block(heading="How steady the totals are", table=whole_table(figures.whole, figures.of)),
    )


def _variants(sitting: Sitting, bands: Sequence[PartBands], sittings: int) -> tuple[Block, ...]:
    if not bands:
        return ()
    says = (
        f"The numbers differ from paper to paper. Over {count(sittings, 'sitting')}, the answers issued in thirds by "
        "size, and the share got in each: were papers with large or small answers harder?"
    )
    return (
        Block(heading="Were all papers equally hard?", text=(says,), table=bands_table(bands, part_labels(sitting))),
    )


def _papers(figures: ClassFigures, slips: Sequence[Numbered], names: Mapping[str, str]) -> Block:
    says = "In order of code. A number with ? may be another slip of the same figure."
    return Block(heading="Each paper", text=(says,), table=papers_table(figures, slips, names))


def _meanings() -> Block:
    table = Table(headings=("Word", "What it means here"), rows=MEANINGS, widths=(0, 142))
    return Block(heading="What the words mean", table=table)
