"""Papers marked by hand for the tests of feedback: everything right but what is told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from courseware.marking.marks import How, Mark, MarkedPaper, NamedSlip
from courseware.papers.compose import read_sources
from courseware.papers.deal import issue_exercise
from courseware.papers.sitting import IssuedExercise, IssuedPart, Sitting

Part = tuple[str, str]  # exercise and part
WIDTH = ("opening-for-a-panel", "opening_width")
SITE = {"place": "P", "street": "S", "client": "C"}


def parts_of(sitting: Sitting, place: int = 0) -> dict[Part, tuple[IssuedExercise, IssuedPart]]:
    return {(e.exercise, p.name): (e, p) for e in sitting.papers[place].exercises for p in e.parts}


def marked(sitting: Sitting, lost: Mapping[Part, Mark] | None = None, status: str = "", place: int = 0) -> MarkedPaper:
    """Everything right but the parts in `lost`."""
    marks = [
        replace((lost or {}).get(name, Mark(label="", marks=p.marks, of=0, how="right", why="", written=p.answer)),
                label=p.label, of=p.marks)
        for name, (_, p) in parts_of(sitting, place).items()
    ]  # fmt: skip
    return MarkedPaper(code=sitting.papers[place].code, status=status, marks=tuple(marks))  # type: ignore[arg-type]


def slip(sitting: Sitting, exercise: str, part: str, *places: int, earns: int = 0, how: How = "slip") -> Mark:
    """The mark for a figure that the part's slips of those places (from 1) give."""
    _, issued = parts_of(sitting)[exercise, part]
    named = tuple(NamedSlip(key=f"{exercise}/{part}/{n}", says=issued.slips[n - 1][1]) for n in places)
    return Mark(label="", marks=earns, of=0, how=how, why="", written=issued.slips[places[0] - 1][0], slips=named)


def other(how: How, marks: int = 0, written: str = "7", comment: str = "") -> Mark:
    return Mark(label="", marks=marks, of=0, how=how, why="", written=written, comment=comment)


UNKNOWN = {WIDTH: other("unknown")}


def only(sitting: Sitting, *exercises: str) -> Sitting:
    """The sitting with those exercises alone, as first and second."""
    sources = read_sources(sitting)
    papers = []
    for paper in sitting.papers:
        kept = [e for name in exercises for e in paper.exercises if e.exercise == name]
        issued = [
            issue_exercise(
                n, *sources.exercises[e.topic, e.exercise], _given(sources, e), e.site, sitting.seed, paper.code
            )
            for n, e in enumerate(kept, 1)
        ]
        papers.append(replace(paper, exercises=tuple(issued)))
    return replace(sitting, papers=tuple(papers))


def _given(sources, issued: IssuedExercise):
    exercise = sources.exercises[issued.topic, issued.exercise][1]
    return {g.name: next(v for v in g.values if str(v) == issued.given[g.name]) for g in exercise.givens}
