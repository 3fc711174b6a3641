"""A sampling plan as it is handed to a quality assurer: a sheet to sign and a workbook."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from courseware.banks.figures import write_out
from courseware.papers.dates import in_full
from courseware.quality.sample_results import ASKED, PLAN
from courseware.quality.sampling import Chance, Pick, SamplingPlan
from courseware.reports.report import Block, Report, Table
from courseware.settings.settings import Settings
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from courseware.words import count

_ALIKE = (
    "These chances take an error to be as likely on one paper as on any other. Papers that are in the sample because a "
    "mark was changed, or because two markers differed, are likelier to show one."
)
HOW = (
    "To fill in: agreed (yes or no), by, date as 2026-11-25; action, where something is to be done, and the day on "
    "which it was closed. `courseware sample --results` with this workbook enters them, and once more when an action "
    "is closed."
)
_SIGNED = "Quality assurer: ______________________________   Date: ______________"
_Names = Mapping[str, str]


def sampling_sheet(plan: SamplingPlan, day: str, settings: Settings, names: _Names) -> Report:
    """The plan to print, with the centre's name; `names` by paper code, empty where it goes by codes alone."""
    table = Table(
        headings=("Paper", "Sitting", "Marked by", "Marks", "Why it is here", "Agreed, date"),
        rows=tuple(
            (_who(pick, names), pick.paper.sitting, ", ".join(pick.paper.assessors), _marks(pick), _why(pick), "")
            for pick in plan.picks
        ),
        widths=(28, 32, 26, 19, 0, 24),
    )
    return Report(
        file="sampling-plan",
        title="Sampling plan",
        centre=settings.name,
        blocks=(
            Block(text=(*_about(plan, day), _SIGNED)),
            Block(
                heading="The chance of catching an error",
                text=(*(chance_line(plan, chance) for chance in plan.chances), _ALIKE),
            ),
            Block(heading="The sample", table=table),
        ),
    )


def sampling_workbook(plan: SamplingPlan, day: str, names: _Names) -> bytes:
    """The plan as a workbook: the sample, and what is said of it."""
    columns = {"paper": 15, **({"name": 26} if names else {}), "sitting": 30, "marked by": 22, "marks": 8, "of": 8}
    columns |= {"why it is here": 60, PLAN: 10, **ASKED}
    rows = [
        (
            pick.paper.code,
            *((names.get(pick.paper.code, ""),) if names else ()),
            pick.paper.sitting,
            ", ".join(pick.paper.assessors),
            pick.paper.total,
            pick.paper.of,
            _why(pick),
            plan.seed,
        )
        for pick in plan.picks
    ]
    said = (*_about(plan, day), HOW, *(chance_line(plan, chance) for chance in plan.chances), _ALIKE)
    pages = (
        Page(title="Sample", columns=columns, rows=rows),
        Page(title="About", columns={"about this plan": 110}, rows=[(line,) for line in said]),
    )
    return safe_workbook(pages, day)


def chance_line(plan: SamplingPlan, chance: Chance) -> str:
    """One chance in plain words: `If 3 of the 30 papers (10 %) carried an error, …`."""
    supposed = (
        f"If {chance.wrong} of the {plan.of} papers ({write_out(100 * Fraction(chance.wrong, plan.of), 0)} %) "
        "carried an error, this sample would hold "
    )
    one = "it" if chance.wrong == 1 else "at least one of them"
    if chance.chance == 1:
        return f"{supposed}{one} for certain."
    times, percent = _in_ten(chance.chance), write_out(100 * chance.chance, 1)
    return f"{supposed}{one} {times} ({percent} %); to be 95 % sure, look at {chance.for_sure} papers."


def _in_ten(chance: Fraction) -> str:
    tenths = (20 * chance.numerator + chance.denominator) // (2 * chance.denominator)
    if tenths in (0, 10):
        return "less than once in 20 times" if tenths == 0 else "at least 19 times in 20"
    return f"about {count(tenths, 'time')} in 10"


def _about(plan: SamplingPlan, day: str) -> Iterator[str]:
    yield f"{len(plan.picks)} of {plan.of} marked papers. Made on {in_full(day)} with the seed {plan.seed}."
    yield "The same papers and the same seed give the same sample again."
    if plan.provisional:
        yield (
            f"Papers with provisional marks, where an assessor is still to look at a cell or at the working: "
            f"{plan.provisional} of the {plan.of}."
        )
    if plan.not_shown:
        yield f"{plan.asked} had been asked for, which leaves no room to show: {'; '.join(plan.not_shown)}."
    elif len(plan.picks) < plan.asked:
        yield f"{plan.asked} had been asked for; there are no more."
    if plan.flagged_outside:
        yield (
            f"{plan.flagged_outside} more have a mark changed by the assessor or marked otherwise by a second marker; "
            "there was no room for them."
        )


def _who(pick: Pick, names: _Names) -> str:
    name = names.get(pick.paper.code, "")
    return f"{pick.paper.code} {name}".strip()


def _why(pick: Pick) -> str:
    return "; ".join(pick.reasons)


def _marks(pick: Pick) -> str:
    return f"{pick.paper.total} of {pick.paper.of}"
