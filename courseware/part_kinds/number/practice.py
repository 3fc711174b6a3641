"""A figure as data of the practice page: exact figures to judge by, and its rule."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from courseware.banks.figures import Figure, exact_text
from courseware.banks.number_part import Route, SolvedNumber, shown_lines
from courseware.banks.part import Solved
from courseware.papers.part_kind import Entries
from courseware.papers.sheets import AskedPart, KeyAnswer, KeySlip
from courseware.practice.part_kind import Before, Data, KindInPractice, working_data
from courseware.practice.rules import rule_of


def _data(_: AskedPart, answers: Sequence[KeyAnswer], solved: Solved, __: Entries, before: Before) -> Data:
    return figure_data(cast("SolvedNumber", solved), answers[0], before)


def figure_data(solved: SolvedNumber, answer: KeyAnswer, before: Before) -> Data:
    """What the page has of a figure, asked for alone or in a row of a table."""
    part = solved.part
    rule = rule_of(part)
    found: Data = {
        "answer": answer.answer,
        "right": exact_text(solved.answer),
        "exact": exact_text(solved.exact) if solved.exact != solved.answer else "",
        "before": exact_text(before[part.name]) if part.name in before else "",
        "unit": part.unit,
        "within": exact_text(solved.within) if solved.within else "",
        "band": answer.within,
        "working": working_data(part.working, shown_lines(solved), answer, part.unit),
        "slips": [
            route | ({"earns": slip.earns} if slip.earns else {})
            for route, slip in zip(_routes(part.slips, solved.slips, answer.slips), answer.slips, strict=True)
        ],
        "method": min(sum(line.earns == "method" for line in part.working), part.marks - 1) or "",
        "accepts": _routes(part.accept, solved.accept, answer.accepts),
        "rule": [rule.right, *rule.others] if rule else [],
    }
    return found | ({} if part.places is None else {"places": part.places})


def _routes(routes: Sequence[Route], figures: Sequence[Figure], said: Sequence[KeySlip]) -> list[Data]:
    return [
        {"right": exact_text(figure), "says": slip.says} for _, figure, slip in zip(routes, figures, said, strict=True)
    ]


KIND = KindInPractice(data=_data)
