"""The criteria map as a sheet and as a workbook: what is missing first, then each criterion with its evidence."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from courseware.jobs.observation import VERDICTS
from courseware.marking.marks import MarkedSitting
from courseware.papers.dates import in_full
from courseware.quality.criteria import JobEvidence
from courseware.quality.criteria_map import CriteriaMap, MapRow, Served, State, verdict_of
from courseware.reports.as_typed import as_typed
from courseware.reports.report import Block, Report, Table
from courseware.reports.words import DASH
from courseware.settings.settings import Settings
from courseware.spreadsheets.xlsx_out import Page, Value, safe_workbook
from courseware.words import count

_RULES = (
    "A piece of evidence is secure with full marks, or right from the learner's own earlier answer; of an exercise or "
    "a table that is named as a whole, with every part of it; of a job, where its observation sheet, or the line that "
    "is named, passes. A criterion is secure when as many pieces are as its rule asks for.",
    "Not yet: something was written or observed, and that is not enough. Nothing yet: neither.",
)
STANDING: Mapping[State, str] = {"secure": "secure", "tried": "not yet", "none": "nothing yet"}
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
            Block(heading="Not secure yet", text=tuple(_nothing_missing(found)), table=_gaps(found)),
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
            *(_standing(row, person.label) for row in found.rows),
        )
        for person in found.people
    ]
    evidence = {"criterion": 14, "says": 40, "evidence": 52, "learner": 15, **name, "paper": 15, "sitting": 15}
    evidence |= {"part": 10, "marks": 8, "of": 8, "state": 22}
    gaps = {"criterion": 14, "says": 40, "learner": 15, **name, "what is missing": 44}
    pages = (
        Page(title="Map", columns=_apart(learners, codes), rows=grid),
        Page(title="Evidence", columns=evidence, rows=list(_evidence_rows(found, names))),
        Page(title="Not secure yet", columns=gaps, rows=list(_gap_rows(found, names))),
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
        yield "Every criterion is secure for every learner."


def _gaps(found: CriteriaMap) -> Table | None:
    rows = tuple(
        (as_typed(row.criterion.code), as_typed(row.criterion.says), row.gap or _how_many(row))
        for row in found.rows
        if row.gap or row.without
    )
    headings = ("Criterion", "What it says", "What is missing")
    return Table(headings=headings, rows=rows, widths=(28, 0, 58)) if rows else None


def _how_many(row: MapRow) -> str:
    return f"not secure for {count(len(row.without), 'learner')} of {len(row.states)}"


def _standing(row: MapRow, label: str) -> str:
    """`secure`, `not yet`, `nothing yet`; with how many pieces counted where there are several."""
    said, pieces = STANDING[row.states[label]], len(row.served)
    if pieces < 2 or row.states[label] == "none":
        return said
    return f"{said} ({len(row.secure_pieces(label))} of {pieces})"


def _criterion(row: MapRow, names: _Names) -> tuple[Block, ...]:
    """What serves the criterion, counted; then who stands how with each piece of evidence."""
    rows = [(as_typed(one.says), *_counts(one)) for one in row.served]
    heading = f"{as_typed(row.criterion.code)}  {as_typed(row.criterion.says)}"
    if not rows:
        return (Block(heading=heading, text=("No part and no job serves it.",)),)
    rule = (f"Secure with {row.criterion.rule}.",) if row.criterion.rule else ()
    table = Table(headings=("Served by", "Secure", "Not yet", "Nothing yet"), rows=tuple(rows), widths=(0, 26, 22, 26))
    return (Block(heading=heading, text=rule, table=table), Block(text=tuple(_people(row, names))))


def _people(row: MapRow, names: _Names) -> Iterator[str]:
    """Who stands how with the criterion; for the others, line by line, what counted already."""
    for state, says in STANDING.items():
        if who := [label for label, own in row.states.items() if own == state]:
            told = [f"{names.get(label, label)}{_counted(row, label) if len(row.served) > 1 else ''}" for label in who]
            yield f"{says.capitalize()}: {', '.join(told)}."


def _counted(row: MapRow, label: str) -> str:
    """` (lines 1, 3)`: which lines of the table count for a learner."""
    lines = [str(number) for number, one in enumerate(row.served, 1) if one.states[label] == "secure"]
    return f" ({'line' if len(lines) == 1 else 'lines'} {', '.join(lines)})" if lines else ""


def _counts(served: Served) -> tuple[str, str, str]:
    if not served.issued:
        return "not observed" if isinstance(served.evidence, JobEvidence) else "not issued", DASH, DASH
    secure, tried, none = (str(len(served.who(state))) for state in STANDING)
    return secure, tried, none


def _learner(label: str, names: _Names) -> tuple[str, ...]:
    return (label, names.get(label, "")) if names else (label,)


def _evidence_rows(found: CriteriaMap, names: _Names) -> Iterator[tuple[Value, ...]]:
    blank = ("",) * (2 if names else 1)
    for row in found.rows:
        own = (row.criterion.code, row.criterion.says)
        for served in row.served:
            says = served.says
            if not (served.papers or any(served.observed.values())):
                yield (*own, f"{says} ({_counts(served)[0]})", *blank, "", "", "", None, None, "")
            for label in row.states:
                for one in served.shown(label):
                    state = "secure" if one.mark.secure else "tried" if one.mark.tried else DASH
                    place = (one.code, one.sitting, one.label)
                    yield (*own, says, *_learner(label, names), *place, one.mark.marks, one.mark.of, state)
            for label, seen in served.observed.items():
                for one_day in seen:
                    place = (one_day.code, one_day.day, "")
                    state = VERDICTS[verdict_of(one_day, served.evidence)]
                    yield (*own, says, *_learner(label, names), *place, None, None, state)


def _gap_rows(found: CriteriaMap, names: _Names) -> Iterator[tuple[Value, ...]]:
    for row in found.rows:
        own = (row.criterion.code, row.criterion.says)
        if row.gap:
            yield (*own, *(("", "") if names else ("",)), row.gap)
        else:
            for label in row.without:
                yield (*own, *_learner(label, names), _standing(row, label))


def _apart(first: Mapping[str, int], codes: Sequence[str]) -> dict[str, int]:
    """Columns for the criteria after the first ones, each heading once whatever a centre calls its criteria."""
    columns = dict(first)
    for code in codes:
        columns[code if code not in columns else f"criterion {code}"] = 14
    return columns
