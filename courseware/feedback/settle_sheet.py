"""Answers that wait for an assessor's look, each with all that is needed to decide it; and the sheet read back.

An answer that no rule fits may still earn for its working. The sheet has the question, what was written, the learner's
own earlier answers, the figure that they give and the right one, and a box beside each line of the working that earns.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice

from courseware.feedback.marked_part import MarkedPart, marked_parts
from courseware.marking.mark import Marked
from courseware.marking.marks import Decision
from courseware.marking.script_sheet import SheetFaulty, decision
from courseware.papers.compose import Sources, compose_key
from courseware.papers.sheets import KeyLine
from courseware.papers.sitting import Sitting
from courseware.spreadsheets.rows import Row, heading_key
from courseware.spreadsheets.table_in import read_table
from courseware.spreadsheets.xlsx_out import Page
from courseware.text_files.faults import Fault

TITLE = "To settle"
MOST_ROWS = 1000  # the others come once these are settled
_GIVEN = {
    "code": 14, "part": 8, "question": 44, "written": 16, "own earlier answers": 26, "these give": 14, "the key": 16,
    "why it waits": 44, "marks now": 8, "of": 6,
}  # fmt: skip
_ASKED = {"marks": 8, "reason": 40, "comment": 40}
_LINE, _TICK = "line {}", "seen {}"
_TICKS = {"x", "✓", "✔", "1", "y", "yes", "*"}
_NONE = {"", "0", "n", "no", "-"}
_LONGEST_REASON = 280
_MOST_FAULTS = 50


class TwoMarks(ValueError):
    """Lines are ticked as seen, and another mark than they earn is written beside them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """What an assessor decided on the sheet, and the answers that are others now than those looked at."""

    decisions: tuple[Decision, ...]
    lapsed: tuple[str, ...]  # what to tell of each


def settle_page(sitting: Sitting, sources: Sources, marked: Marked) -> Page:
    """A row for each answer that waits, at most `MOST_ROWS`; columns for the most lines that any of them has."""
    parts = list(islice(_open(sitting, sources, marked), MOST_ROWS))
    most = max((len(earning(part)) for _, part, _ in parts), default=0)
    lines = {
        heading: width
        for number in range(1, most + 1)
        for heading, width in ((_LINE.format(number), 36), (_TICK.format(number), 7))
    }
    rows = [_row(code, part, before, most) for code, part, before in parts]
    return Page(title=TITLE, columns={**_GIVEN, **_ASKED, **lines}, rows=rows, freeze="C2")


def read_settled(data: bytes, file: str, sitting: Sitting, written: Mapping[tuple[str, str], str]) -> Settled:
    """The rows that are filled in, as decisions. `written` is what stands in each cell now, by code and part.

    Raises `SheetFaulty` or `TableFaulty` with every fault by row.
    """
    rows, _ = read_table(data, file, _is_ours, merges=True)
    headings = next(rows, None)
    if headings is None or not _is_ours(headings.cells):
        return Settled(decisions=(), lapsed=())
    keys = [heading_key(heading) for heading in headings.cells]
    decided: list[Decision] = []
    lapsed: list[str] = []
    faults: list[Fault] = []
    for row in rows:
        texts = dict(zip(keys, (cell.strip() for cell in row.cells), strict=False))
        try:
            said = _decided(texts, row, file, sitting)
        except SheetFaulty as wrong:
            faults += wrong.faults
            continue
        if said is None:
            continue
        now = written.get((said.code, said.label), texts["written"])
        if now.strip() == texts["written"]:
            decided.append(said)
        else:
            before = texts["written"]
            lapsed.append(
                f"{said.code} {said.label} was `{before}` when it was looked at, now it is `{now}`: look again."
            )
    if faults:
        raise SheetFaulty(tuple(faults[:_MOST_FAULTS]))
    return Settled(decisions=tuple(decided), lapsed=tuple(lapsed))


def by_lines(seen: Sequence[str], worth: int, marks: str, reason: str) -> tuple[str, str]:
    """The marks and the reason of a decision, where lines worth so much were `seen` in the working.

    Raises `TwoMarks` where another mark was written as well.
    """
    if not seen:
        return marks, reason
    if marks and marks != str(worth):
        raise TwoMarks(f"the lines seen earn {worth}, and {marks} stands under `marks`")
    return str(worth), reason or f"Seen in the working: {'; '.join(seen)}"[:_LONGEST_REASON]


def earning(part: MarkedPart) -> list[KeyLine]:
    """The lines of a part's working that earn a mark."""
    return [line for line in part.answer.working if line.earns]


def _open(sitting: Sitting, sources: Sources, marked: Marked) -> Iterator[tuple[str, MarkedPart, Sequence[MarkedPart]]]:
    """Each part that waits, with its paper's code and the earlier parts of its exercise."""
    places = {paper.code: place for place, paper in enumerate(sitting.papers)}
    for paper in marked.papers:
        if paper.provisional:
            place = places[paper.code]
            parts = marked_parts(sitting.papers[place], compose_key(sitting, place, sources), paper, sources)
            for at, part in enumerate(parts):
                if part.mark.provisional:
                    yield paper.code, part, [one for one in parts[:at] if one.number == part.number]


def _row(code: str, part: MarkedPart, before: Sequence[MarkedPart], most: int) -> tuple[str | int, ...]:
    mark = part.mark
    own = "; ".join(f"{one.mark.label}: {one.mark.written}" for one in before if one.mark.written.strip())
    lines = [text for line in earning(part) for text in (f"{line.say}: {line.figure} ({line.earns})", "")]
    given = (code, mark.label, part.ask, mark.written, own, mark.carried, part.answer.answer, mark.why)
    return (*given, mark.marks, mark.of, "", "", "", *lines, *[""] * (2 * most - len(lines)))


def _is_ours(headings: Sequence[str]) -> bool:
    return {heading_key(heading) for heading in (*_GIVEN, *_ASKED)} <= {heading_key(heading) for heading in headings}


def _decided(texts: Mapping[str, str], row: Row, file: str, sitting: Sitting) -> Decision | None:
    """What a row decides, None where nothing is filled in. Raises `SheetFaulty`."""
    seen = list(_seen(texts, row, file))
    marks, reason, comment = (texts[name] for name in _ASKED)
    if not (seen or marks or reason or comment):
        return None
    worth = sum(int(line.rpartition("(")[2].strip(")MA")) for line in seen)
    try:
        marks, reason = by_lines([line.rpartition(" (")[0] for line in seen], worth, marks, reason)
    except TwoMarks as wrong:
        raise SheetFaulty((Fault(file, row.line, 1, str(wrong), "leave one of them out"),)) from None
    read = decision(texts["code"], texts["part"], marks, reason, comment, sitting=sitting)
    if isinstance(read, str):
        raise SheetFaulty((Fault(file, row.line, 1, read, "put it right, or empty what was filled in"),))
    return read


def _seen(texts: Mapping[str, str], row: Row, file: str) -> Iterator[str]:
    """The lines that are ticked as seen in the working."""
    number = 1
    while (tick := texts.get(heading_key(_TICK.format(number)))) is not None:
        line = texts.get(heading_key(_LINE.format(number)), "")
        if tick.lower() in _TICKS and line:
            yield line
        elif tick.lower() not in _NONE:
            wrong = f"`{tick[:20]}` is not a tick" if line else f"a line {number} is ticked that this answer has not"
            raise SheetFaulty((Fault(file, row.line, 1, wrong, "write x for a line that is there, else nothing"),))
        number += 1
