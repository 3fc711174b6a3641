"""What a quality assurer found of each sampled paper, read back from the plan's own workbook; what is still open."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from courseware.papers.codes import read_code
from courseware.papers.names import LONGEST_NAME
from courseware.papers.sitting_checks import is_plain
from courseware.spreadsheets.rows import TableFaulty, heading_key
from courseware.spreadsheets.table_in import read_table
from courseware.text_files.faults import Fault, harmless

ASKED = {"agreed": 10, "action": 40, "by": 20, "date": 12, "action closed": 14, "note": 40}  # columns, with widths
PLAN = "plan"
_NEEDED = ("paper", PLAN, "agreed", "action", "by", "date", "action closed")
_YES, _NO = {"yes", "y", "agreed", "x", "✓"}, {"no", "n", "not agreed"}
LONGEST = 300  # characters of an action or a note
_LONGEST_PLAN = 80
_MOST_FAULTS = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleResult:
    """What was found of a paper in a sample. `plan` is its seed; `done` the day its action was closed, or ''."""

    code: str
    plan: str
    agreed: bool
    by: str
    day: str
    action: str = ""
    done: str = ""
    note: str = ""

    @property
    def is_open(self) -> bool:
        """Whether something is still to be done."""
        return bool(self.action) and not self.done


def read_results(data: bytes, file: str, papers: Collection[str]) -> tuple[SampleResult, ...]:
    """The rows of a sampling plan that are filled in. `papers` are the codes that the record has.

    Raises `TableFaulty` with every fault by row.
    """
    rows, _ = read_table(data, file, _is_ours, merges=True)
    headings = next(rows, None)
    if headings is None or not _is_ours(headings.cells):
        expected = "expected the workbook that `courseware sample` makes"
        raise TableFaulty((Fault(file, 1, 1, "this is not a sampling plan", expected),))
    keys = [heading_key(heading) for heading in headings.cells]
    found: dict[tuple[str, str], SampleResult] = {}
    faults: list[Fault] = []
    for row in rows:
        texts = dict(zip(keys, (" ".join(cell.split()) for cell in row.cells), strict=False))
        if not any(texts.get(heading_key(name), "") for name in ASKED):
            continue
        read = _result(texts, papers)
        if isinstance(read, SampleResult) and (read.code, read.plan) in found:
            read = f"the paper {read.code} stands on an earlier row too"
        if isinstance(read, SampleResult):
            found[read.code, read.plan] = read
        else:
            faults.append(Fault(file, row.line, 1, read, "put the row right, or empty what was filled in"))
    if faults:
        raise TableFaulty(tuple(faults[:_MOST_FAULTS]))
    return tuple(found.values())


def open_actions(results: Sequence[SampleResult]) -> tuple[SampleResult, ...]:
    """The results with an action that nobody has closed, the oldest first."""
    return tuple(sorted((one for one in results if one.is_open), key=lambda one: (one.day, one.code)))


def _result(texts: Mapping[str, str], papers: Collection[str]) -> SampleResult | str:
    """A row as a result, or what is wrong with it."""
    code = read_code(texts["paper"].split(" ")[0])
    if code is None or code not in papers:
        return f"`{harmless(texts['paper'])}` is not the code of a paper in the record"
    agreed = texts["agreed"].casefold()
    if agreed not in _YES | _NO:
        return f"`{harmless(texts['agreed'])}` under `agreed` is neither yes nor no" if agreed else "`agreed` is blank"
    if agreed in _NO and not texts["action"]:
        return "a mark that is not agreed needs an action"
    if not texts["by"] or not is_plain(texts["by"], LONGEST_NAME):
        return f"`by` is blank, or more than {LONGEST_NAME} plain characters"
    for what in ("date", "action closed"):
        text = texts[heading_key(what)]
        if not _is_day(text) and (text or what == "date"):
            return f"`{harmless(text)}` under `{what}` is not a date; write it as 2026-11-25"
    if texts["actionclosed"] and not texts["action"]:
        return "an action is closed that is not written down"
    if not is_plain(texts[PLAN], _LONGEST_PLAN):
        return "the plan's seed was changed; copy it from the sheet `About`"
    for what in ("action", "note"):
        if not is_plain(texts.get(what, ""), LONGEST):
            return f"`{what}` has more than {LONGEST} characters, or some that do not show"
    return SampleResult(
        code=code,
        plan=texts[PLAN],
        agreed=agreed in _YES,
        by=texts["by"],
        day=texts["date"],
        action=texts["action"],
        done=texts["actionclosed"],
        note=texts.get("note", ""),
    )


def _is_ours(headings: Sequence[str]) -> bool:
    return {heading_key(name) for name in _NEEDED} <= {heading_key(heading) for heading in headings}


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True
