"""The outcome of an appeal: typed on the re-mark's own workbook, and told with both markings side by side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from courseware.marking.marks import MarkedPaper
from courseware.papers.dates import in_full
from courseware.papers.sitting_checks import is_plain
from courseware.quality.marks_by_hand import HandMark
from courseware.reports.as_typed import as_typed, by_code
from courseware.reports.report import Block, Report, Table
from courseware.settings.settings import Signed
from courseware.spreadsheets.rows import TableFaulty, heading_key
from courseware.spreadsheets.table_in import read_table
from courseware.spreadsheets.xlsx_out import Page
from courseware.text_files.faults import Fault, harmless

Decided = Literal["stands", "changed", "withdrawn"]
_WORDS: Mapping[str, Decided] = {"stands": "stands", "changed": "changed", "withdrawn": "withdrawn"}
SAID: Mapping[Decided, str] = {
    "stands": "The marks stand.", "changed": "The marks are changed to those of the re-mark.",
    "withdrawn": "The appeal was withdrawn.",
}  # fmt: skip
_ASKED = {
    "outcome": "stands, changed (the re-mark's marks take the place of the first), or withdrawn",
    "date": "as 2026-11-25",
    "reason": "why",
}
LONGEST_REASON = 200  # characters


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedOutcome:
    """How an appeal ends, on which day (ISO 8601) and why."""

    outcome: Decided
    day: str
    reason: str


def outcome_page() -> Page:
    """The sheet on which the outcome is written."""
    rows = [(what, "", how) for what, how in _ASKED.items()]
    return Page(title="Outcome", columns={"about": 16, "decision": 40, "how to write it": 70}, rows=rows)


def read_outcome(data: bytes, file: str) -> TypedOutcome:
    """The outcome written on a re-mark's workbook. Raises `TableFaulty` with every fault."""
    rows, _ = read_table(data, file, _is_ours, merges=True)
    headings = next(rows, None)
    if headings is None or not _is_ours(headings.cells):
        expected = "expected the workbook that `courseware appeal` made"
        raise TableFaulty((Fault(file, 1, 1, "there is no sheet `Outcome` in it", expected),))
    place = [heading_key(heading) for heading in headings.cells].index("decision")
    typed = {heading_key(row.cells[0]): " ".join(row.cells[place].split()) for row in rows}
    faults = list(_wrong(typed))
    if faults:
        mend = "fill in the sheet `Outcome`"
        raise TableFaulty(tuple(Fault(f"{file}, outcome", 1, 1, wrong, mend) for wrong in faults))
    outcome = _WORDS[typed["outcome"].casefold()]
    return TypedOutcome(outcome=outcome, day=typed["date"], reason=typed["reason"])


def outcome_sheet(
    before: MarkedPaper, again: Sequence[HandMark], typed: TypedOutcome, *, by: str, first: str, name: str, centre: str
) -> Report:
    """The outcome to hand over: what stood, what the re-mark gave, what stands now. `name` is taken out of answers."""
    code, found = before.code, both(before, again, typed)
    rows = tuple(tuple(as_typed(by_code(text, name, code)) for text in row) for row in found)
    total = sum(int(row[4].split(" ")[0]) for row in rows)
    about = (
        f"Paper {before.code}. First marked by {first}; marked again by {by} on {in_full(typed.day)}.",
        f"{SAID[typed.outcome]} Reason: {as_typed(by_code(typed.reason, name, before.code))}",
        f"Total: {before.total} of {before.of} before, {total} of {before.of} now.",
    )
    widths = (16, 46, 26, 26, 26, 0)
    headings = ("Part", "As written", "As it stood", "Re-mark", "Now", "The re-marker's note")
    return Report(
        file="appeal-outcome",
        title=f"Outcome of an appeal, paper {before.code}",
        centre=centre,
        blocks=(
            Block(text=about),
            Block(heading="Part by part", table=Table(headings=headings, rows=rows, widths=widths)),
            Block(signed=Signed(says="", signed=("Marked again by", "Quality assurer", "Learner"))),
        ),
    )


def both(
    before: MarkedPaper, again: Sequence[HandMark], typed: TypedOutcome
) -> Iterator[tuple[str, str, str, str, str, str]]:
    """Part by part: label, what was written, the mark that stood, the re-mark, the mark now, the note."""
    given = {mark.label: mark for mark in again}
    for mark in before.marks:
        other = given.get(mark.label)
        now = other.marks if other and typed.outcome == "changed" else mark.marks
        yield (
            mark.label,
            mark.written or "–",
            f"{mark.marks} of {mark.of}",
            f"{other.marks} of {mark.of}" if other else "–",
            f"{now} of {mark.of}",
            other.note if other else "",
        )


def _wrong(typed: Mapping[str, str]) -> Iterator[str]:
    outcome = typed.get("outcome", "").casefold()
    if outcome not in _WORDS:
        yield f"the outcome `{harmless(outcome)}` is none of these: {_ASKED['outcome']}"
    try:
        date.fromisoformat(typed.get("date", ""))
    except ValueError:
        yield f"`{harmless(typed.get('date', ''))}` is not a date; write it {_ASKED['date']}"
    reason = typed.get("reason", "")
    if not reason or not is_plain(reason, LONGEST_REASON):
        yield f"the reason is missing, or has more than {LONGEST_REASON} plain characters"


def _is_ours(headings: Sequence[str]) -> bool:
    return {"about", "decision"} <= {heading_key(heading) for heading in headings}
