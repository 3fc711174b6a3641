"""The criteria map as a sheet and as a workbook: what is missing first, then each criterion with its evidence."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from courseware.marking.marks import MarkedSitting
from courseware.papers.dates import in_full
from courseware.quality.criteria import JobEvidence, PartEvidence
from courseware.quality.criteria_map import CriteriaMap, MapRow, Served, State
from courseware.reports.as_typed import as_typed
from courseware.reports.report import Block, Report, Table
from courseware.reports.words import DASH
from courseware.settings.settings import Settings
from courseware.spreadsheets.xlsx_out import Page, Value, safe_workbook
from courseware.words import count

_RULES = (
    "Secure: full marks, or right from the learner's own earlier answer. Of an exercise or a table that is named as a "
    "whole, every part of it. Tried: something was written. Not yet: neither.",
    "In part: some of a criterion's evidence is secure and some is not. Whether that is enough is for the assessor.",
    "Work at a job is judged on its observation sheet, which stands with the assessor: this map names the line alone.",
)
_MARKS: Mapping[State, str] = {"secure": "secure", "in part": "in part", "tried": "tried", "none": DASH}
_SAID: Mapping[State, str] = {"secure": "secure", "tried": "tried", "none": "not yet"}
_Names = Mapping[str, str]  # by the code that stands for the learner; empty where the sheet goes by codes alone


def named(found: CriteriaMap) -> dict[str, str]:
    """The learners' names, for a sheet that is to show them."""
    return {person.label: person.name for person in found.people if person.name}


def criteria_sheet(
    found: CriteriaMap, sittings: Sequence[MarkedSitting], settings: Settings, file: str, made: str, names: _Names
) -> Report:
    """The map to print, with the centre's name."""
    return Report(
        file="criteria-map",
        title="Criteria map",
        centre=settings.name,
        blocks=(
            Block(text=tuple(_about(found, sittings, file, made))),
            Block(heading="No evidence yet", text=tuple(_nothing_missing(found)), table=_gaps(found)),
            *(block for row in found.rows for block in _criterion(row, names)),
            Block(heading="How to read it", text=_RULES),
        ),
    )


def criteria_workbook(
    found: CriteriaMap, sittings: Sequence[MarkedSitting], file: str, made: str, names: _Names
) -> bytes:
    """The map as a workbook: learners by criteria, every piece of evidence, what is missing."""
    codes = [row.criterion.code for row in found.rows]
    name: dict[str, int] = {"name": 26} if names else {}
    learners = {"learner": 15, **name, "papers": 30}
    grid = [
        (
            *_learner(person.label, names),
            ", ".join(person.codes),
            *(_MARKS[row.states[person.label]] for row in found.rows),
        )
        for person in found.people
    ]
    evidence = {"criterion": 14, "says": 40, "evidence": 52, "learner": 15, **name, "paper": 15, "sitting": 15}
    evidence |= {"part": 10, "marks": 8, "of": 8, "state": 12}
    gaps = {"criterion": 14, "says": 40, "learner": 15, **name, "what is missing": 44}
    pages = (
        Page(title="Map", columns=_apart(learners, codes), rows=grid),
        Page(title="Evidence", columns=evidence, rows=list(_evidence_rows(found, names))),
        Page(title="No evidence yet", columns=gaps, rows=list(_gap_rows(found, names))),
        Page(
            title="About",
            columns={"about this map": 110},
            rows=[(line,) for line in (*_about(found, sittings, file, made), *_RULES)],
        ),
    )
    return safe_workbook(pages, made)


def _about(found: CriteriaMap, sittings: Sequence[MarkedSitting], file: str, made: str) -> Iterator[str]:
    criteria = f"{len(found.rows)} criteri{'on' if len(found.rows) == 1 else 'a'} from {as_typed(file)}"
    yield f"{criteria}, {count(len(found.people), 'learner')}. Made on {in_full(made)}."
    titles = [f"{one.sitting.title} ({one.sitting.code}, {one.sitting.date})" for one in sittings]
    yield f"Sittings: {'; '.join(titles)}." if titles else "There is no marked sitting yet."
    if open_parts := sum(len(paper.provisional) for one in sittings for paper in one.marked):
        are = "is" if open_parts == 1 else "are"
        yield f"{count(open_parts, 'mark')} {are} provisional: an assessor is still to look at the cell or the working."


def _nothing_missing(found: CriteriaMap) -> Iterator[str]:
    if not any(row.gap or row.without for row in found.rows):
        yield "Every criterion has secure evidence from every learner."


def _gaps(found: CriteriaMap) -> Table | None:
    rows = tuple(
        (as_typed(row.criterion.code), as_typed(row.criterion.says), row.gap or _how_many(row))
        for row in found.rows
        if row.gap or row.without
    )
    headings = ("Criterion", "What it says", "What is missing")
    return Table(headings=headings, rows=rows, widths=(28, 0, 58)) if rows else None


def _how_many(row: MapRow) -> str:
    return f"{count(len(row.without), 'learner')} of {len(row.states)} without secure evidence"


def _criterion(row: MapRow, names: _Names) -> tuple[Block, ...]:
    """What serves the criterion, counted; then who stands how with each piece of evidence."""
    rows = [(as_typed(_says(one.evidence)), *_counts(one)) for one in row.served]
    rows += [(f"{as_typed(_job(one))} (on its observation sheet)", DASH, DASH, DASH) for one in row.criterion.jobs]
    heading = f"{as_typed(row.criterion.code)}  {as_typed(row.criterion.says)}"
    if not rows:
        return (Block(heading=heading, text=("No part and no job serves it.",)),)
    table = Table(headings=("Served by", "Secure", "Tried", "Not yet"), rows=tuple(rows), widths=(0, 26, 22, 22))
    said = tuple(line for number, one in enumerate(row.served, 1) for line in _who(number, one, names))
    return (Block(heading=heading, table=table), *((Block(text=said),) if said else ()))


def _counts(served: Served) -> tuple[str, str, str]:
    if not served.issued:
        return "not issued", DASH, DASH
    secure, tried, none = (str(len(served.who(state))) for state in _SAID)
    return secure, tried, none


def _who(number: int, served: Served, names: _Names) -> Iterator[str]:
    """The learners under one line of the table, `Line 1, secure: …`."""
    if served.issued:
        for state, says in _SAID.items():
            if who := served.who(state):
                yield f"Line {number}, {says}: {_listed(who, names)}."


def _listed(labels: Sequence[str], names: _Names) -> str:
    return ", ".join(names.get(label, label) for label in labels)


def _says(evidence: PartEvidence) -> str:
    return ", ".join(filter(None, (evidence.topic, evidence.exercise, evidence.part)))


def _job(evidence: JobEvidence) -> str:
    return f"Job {evidence.job}" + (f": {evidence.line}" if evidence.line else "")


def _learner(label: str, names: _Names) -> tuple[str, ...]:
    return (label, names.get(label, "")) if names else (label,)


def _evidence_rows(found: CriteriaMap, names: _Names) -> Iterator[tuple[Value, ...]]:
    blank = ("",) * (2 if names else 1)
    for row in found.rows:
        own = (row.criterion.code, row.criterion.says)
        for served in row.served:
            says = _says(served.evidence) + ("" if served.issued else " (not issued)")
            if not any(served.shown.values()):
                yield (*own, says, *blank, "", "", "", None, None, "")
            for label, shown in served.shown.items():
                for one in shown:
                    state = "secure" if one.secure else DASH if one.mark.how in ("blank", "unreached") else "tried"
                    place = (one.code, one.sitting, one.label)
                    yield (*own, says, *_learner(label, names), *place, one.mark.marks, one.mark.of, state)
        for job in row.criterion.jobs:
            yield (*own, _job(job), *blank, "", "", "", None, None, "on its sheet")


def _gap_rows(found: CriteriaMap, names: _Names) -> Iterator[tuple[Value, ...]]:
    for row in found.rows:
        own = (row.criterion.code, row.criterion.says)
        if row.gap:
            yield (*own, *(("", "") if names else ("",)), row.gap)
        else:
            for label in row.without:
                missing = "tried, not secure" if row.states[label] == "tried" else "nothing yet"
                yield (*own, *_learner(label, names), missing)


def _apart(first: Mapping[str, int], codes: Sequence[str]) -> dict[str, int]:
    """Columns for the criteria after the first ones, each heading once whatever a centre calls its criteria."""
    columns = dict(first)
    for code in codes:
        columns[code if code not in columns else f"criterion {code}"] = 14
    return columns
