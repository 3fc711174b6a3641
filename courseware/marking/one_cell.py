"""One cell of a script, looked at while it is typed: how it is read, what it earns, what is carried to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courseware.marking.mark import mark_scripts
from courseware.marking.marks import Decision, Mark, MarkedPaper, Query, Script
from courseware.marking.part_kind import MARKING_KINDS, NotRead, Work, mark_entry
from courseware.papers.compose import Sources, issued_from
from courseware.papers.sitting import IssuedPaper, Sitting


@dataclass(frozen=True, slots=True, kw_only=True)
class CellRead:
    """A cell as marking takes it. `unclear` is what is asked where it does not read; an absent learner has no mark."""

    reading: str  # "0.91 m = 910 mm"
    unclear: str  # "a comma: 1.5 or 1500?"
    carried: str  # what the learner's own earlier answers give, where it is another than the right answer
    mark: Mark | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperRead:
    """One paper marked by itself, as it stands; `marked` None where nothing of it is in."""

    marked: MarkedPaper | None
    questions: tuple[Query, ...]


def read_paper(
    sitting: Sitting, paper: IssuedPaper, scripts: Sequence[Script], decisions: Sequence[Decision], sources: Sources
) -> PaperRead:
    """The paper with these scripts, its attempts in order. Whether its row may be another's only the class can show."""
    own = [decision for decision in decisions if decision.code == paper.code]
    marked = mark_scripts(sitting, scripts, own, sources)
    both = (*marked.attempts, *marked.held)
    return PaperRead(marked=both[-1] if both else None, questions=marked.questions)


def read_cell(paper: IssuedPaper, label: str, typed: str, read: PaperRead, sources: Sources) -> CellRead:
    """One cell of a paper that was marked with `typed` in it. Raises `KeyError` for a part that it has not."""
    cells = {mark.label: mark for mark in read.marked.marks} if read.marked else {}
    written = {own: mark.written for own, mark in cells.items()}
    issued = next((one for one in paper.exercises if any(part.label == label for part in one.parts)), None)
    if issued is None:
        raise KeyError(label)
    _, exercise = issued_from(issued, sources)
    work = Work(issued, exercise)
    rows = [
        pair
        for part, own in zip(exercise.parts, work.entries, strict=True)
        for pair in zip(part.entries, own, strict=True)
    ]
    at = next(place for place, (_, entry) in enumerate(rows) if entry.label == label)
    for row, entry in rows[:at]:
        try:
            mark_entry(row, entry, work, written.get(entry.label, ""), {})
        except NotRead:
            continue  # it is asked about where it stands
    row, entry = rows[at]
    kind = MARKING_KINDS[row.kind]
    carried, reading, unclear = kind.carried(row, entry, work), "", ""
    try:
        reading = kind.read(row, entry, work, typed)
    except NotRead as why:
        unclear = str(why)
    return CellRead(reading=reading, unclear=unclear, carried=carried, mark=cells.get(label))
