"""What waits for a look, one answer after another, and what is decided of it: on the screen, into the record.

The same answers, lines and decisions as on the sheet `to-settle.xlsx`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from courseware.database.entering import Role
from courseware.database.kept_decisions import has_lapsed
from courseware.database.scripts import decisions_of, enter_scripts, scripts_of
from courseware.database.sittings import take
from courseware.feedback.marked_part import MarkedPart, marked_parts
from courseware.feedback.settle_sheet import TwoMarks, by_lines, earning
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.mark import Marked
from courseware.marking.marks import WHOLE_PAPER, Decision, MarkedPaper
from courseware.marking.script_sheet import decision
from courseware.papers.compose import compose_key
from courseware.papers.sheets import KeyLine
from courseware.papers.sitting import Sitting
from courseware.printing.workers import sitting_in
from courseware.words import count
from courseware.workflows.decisions_file import keep_decisions
from courseware.workflows.marking import marked_as_it_stands

if TYPE_CHECKING:
    from sqlalchemy import Engine


class CannotDecide(ValueError):
    """A decision that cannot stand, and why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """An answer, or a whole row (`label` ''), that somebody must look at: what is written, and why it waits."""

    code: str
    name: str
    label: str
    written: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingAnswer:
    """One answer with all that is needed to decide it; `lines` are those of the working that earn marks."""

    name: str
    part: MarkedPart
    earlier: tuple[MarkedPart, ...]  # of its exercise
    lines: tuple[KeyLine, ...]
    decided: Decision | None  # what stands already


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What an assessor decides having looked: the lines seen, by their places; or marks with a reason; or a comment.

    `written` is the answer that was looked at, `decided` what was decided of it by then, in words (none: not looked
    at): where either is another by now, nothing is decided.
    """

    code: str
    label: str
    written: str
    seen: tuple[int, ...] = ()
    marks: str = ""
    reason: str = ""
    comment: str = ""
    decided: str | None = None


def decided_words(decision: Decision | None) -> str:
    """A decision in words, as it is known again; '' for none."""
    if decision is None:
        return ""
    marks = "the mark stands" if decision.marks is None else count(decision.marks, "mark")
    return ", ".join(filter(None, (marks, decision.reason, decision.comment)))


def waiting(engine: Engine, where: SittingFolder, role: Role = "first") -> tuple[Waiting, ...]:
    """All that waits, in the order of the papers: what could not be read, then what is to be looked at, of each."""
    marked = marked_as_it_stands(engine, where, role)
    names = {paper.code: paper.learner.name for paper in where.sitting.papers}
    found: dict[tuple[str, str], Waiting] = {}
    for asked in marked.questions:
        one = Waiting(code=asked.code, name=names[asked.code], label=asked.label, written=asked.written, why=asked.why)
        found.setdefault((asked.code, asked.label), one)
    for paper in marked.papers:
        for mark in paper.marks:
            if mark.provisional:
                one = Waiting(
                    code=paper.code, name=names[paper.code], label=mark.label, written=mark.written, why=mark.why
                )
                found.setdefault((paper.code, mark.label), one)
    places = _places(where.sitting)
    return tuple(sorted(found.values(), key=lambda one: places[one.code, one.label]))


def waiting_answer(
    engine: Engine, where: SittingFolder, code: str, label: str, role: Role = "first"
) -> WaitingAnswer | None:
    """One answer with its question, key, working and the learner's earlier answers, whether it still waits or not.

    None where its paper is not in, or has no such part.
    """
    marked = marked_as_it_stands(engine, where, role)
    paper = next((paper for paper in _all(marked) if paper.code == code and paper.marks), None)
    if paper is None:
        return None
    parts = _parts(where, paper)
    at = next((place for place, part in enumerate(parts) if part.mark.label == label), None)
    if at is None:
        return None
    return WaitingAnswer(
        name=next(paper.learner.name for paper in where.sitting.papers if paper.code == code),
        part=parts[at],
        earlier=tuple(part for part in parts[:at] if part.number == parts[at].number),
        lines=tuple(earning(parts[at])),
        decided=_standing(engine, where, code, label, role),
    )


def decide(
    engine: Engine, where: SittingFolder, look: Look, *, assessor: str, at: datetime, role: Role = "first"
) -> Decision:
    """Enters what was decided. Raises `CannotDecide`, with what to do; then nothing was entered."""
    sitting = where.sitting
    now = _written(engine, sitting, role).get((look.code, look.label), "")
    marks, reason = _marks(where, look)
    said = decision(look.code, look.label, marks, reason, look.comment, sitting=sitting)
    if isinstance(said, str):
        raise CannotDecide(said)
    if has_lapsed(said, look.written, now):
        raise CannotDecide(f"the answer was `{look.written}` when you looked at it, now it is `{now}`: look again")
    stands = decided_words(_standing(engine, where, look.code, look.label, role))
    if look.decided is not None and look.decided != stands:
        raise CannotDecide(
            f"somebody decided it meanwhile: {stands or 'taken back'}. Look again, and decide once more to put yours "
            "in its place"
        )
    take(engine, sitting, where.text, at=at)
    entered = enter_scripts(
        engine, sitting.code, (), (), assessor=assessor, role=role, source="", at=at, typed_decisions=(said,)
    )
    keep_decisions(engine, where, entered.pending)
    return said


def _standing(engine: Engine, where: SittingFolder, code: str, label: str, role: Role) -> Decision | None:
    """What was decided of a part, if anything stands."""
    found = [one for one in decisions_of(engine, where.sitting.code, role, code).standing if one.label == label]
    return found[-1] if found else None


def _marks(where: SittingFolder, look: Look) -> tuple[str, str]:
    """The marks and the reason, by the lines seen where any are. Raises `CannotDecide`."""
    if not look.seen:
        return look.marks.strip(), look.reason.strip()
    sitting, sources = sitting_in(where.text)
    place = next((place for place, paper in enumerate(sitting.papers) if paper.code == look.code), None)
    exercises = compose_key(sitting, place, sources).exercises if place is not None else ()
    answers = (answer for one in exercises for own in one.answers for answer in own)
    lines = next(([line for line in a.working if line.earns] for a in answers if a.label == look.label), [])
    if not all(0 <= seen < len(lines) for seen in look.seen):
        raise CannotDecide(f"{look.label} has {len(lines)} lines that earn marks; load the page again")
    seen = [lines[place] for place in sorted(set(look.seen))]
    worth = sum(int(line.earns[1:]) for line in seen)
    try:
        return by_lines([f"{line.say}: {line.figure}" for line in seen], worth, look.marks.strip(), look.reason.strip())
    except TwoMarks as wrong:
        raise CannotDecide(f"{wrong}; leave one of them out") from None


def _written(engine: Engine, sitting: Sitting, role: Role) -> Mapping[tuple[str, str], str]:
    """What stands in each cell of what was handed in last."""
    scripts = scripts_of(engine, sitting.code, role)
    return {(script.code, label): text for script in scripts for label, text in script.cells.items()}


def _parts(where: SittingFolder, paper: MarkedPaper) -> tuple[MarkedPart, ...]:
    sitting, sources = sitting_in(where.text)
    place = next(place for place, issued in enumerate(sitting.papers) if issued.code == paper.code)
    return marked_parts(sitting.papers[place], compose_key(sitting, place, sources), paper, sources)


def _all(marked: Marked) -> Sequence[MarkedPaper]:
    """Every paper that is in as it stands now, those held back among them."""
    held = {paper.code: paper for paper in marked.held}
    return (*marked.papers, *held.values())


def _places(sitting: Sitting) -> dict[tuple[str, str], tuple[int, int]]:
    """Where each part of each paper stands; whole rows first."""
    return {
        (paper.code, label): (place, at)
        for place, paper in enumerate(sitting.papers)
        for at, label in enumerate(("", WHOLE_PAPER, *(part.label for part in paper.parts)))
    }
