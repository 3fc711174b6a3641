"""Marked papers: to sample from, and as two markers left them."""

from __future__ import annotations

from dataclasses import replace

from courseware.marking.marks import Mark, MarkedPaper
from courseware.papers.codes import code
from courseware.quality.marks_by_hand import HandMark
from courseware.quality.sampling import (
    Candidate,
    SamplingPlan,
)

LABELS = ("1a", "1b", "1c")
ASSESSORS = ("J. Marsh", "P. Dunn", "R. Holt")  # invented
TOPICS = ("Opening sizes", "Course gauge", "Squaring and datums")


def marked(number: int, total: int, **more: object) -> Candidate:
    """A marked paper of 40 marks."""
    told = {"assessors": (ASSESSORS[number % 3],), "topics": (TOPICS[number % 2],), "decided": 0, "differing": 0} | more
    return Candidate(code=code("papers", str(number)), sitting="Setting out", total=total, of=40, **told)


def codes(plan: SamplingPlan) -> list[str]:
    return [pick.paper.code for pick in plan.picks]


def paper(code: str, *marks: int, how: str = "right", status: str = "", of: int = 4) -> MarkedPaper:
    """A marked paper; its parts are 1a, 1b and so on."""
    return MarkedPaper(
        code=code,
        status=status,
        marks=tuple(
            Mark(label=label, marks=got, of=of, how=how, why=f"{got} earned.", written=f"{label} = {got}")
            for label, got in zip(LABELS, marks, strict=False)
        ),
    )


def asked(one: MarkedPaper, label: str) -> MarkedPaper:
    """The paper with one part still put to a person."""
    return replace(one, marks=tuple(replace(m, how="asked", marks=0) if m.label == label else m for m in one.marks))


def by_hand(code: str, *marks: int, by: str = "P. Dunn", attempt: int = 1) -> tuple[HandMark, ...]:
    """A script marked by a person, part by part."""
    return tuple(
        HandMark(code=code, attempt=attempt, label=label, marks=got, note=f"{got} seen.", by=by)
        for label, got in zip(LABELS, marks, strict=False)
    )


def decided(one: MarkedPaper, *labels: str) -> MarkedPaper:
    """The paper with these parts (all unless named) decided by its assessor."""
    wanted = labels or LABELS
    return replace(one, marks=tuple(replace(m, how="decided") if m.label in wanted else m for m in one.marks))
