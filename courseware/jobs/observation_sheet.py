"""The observation sheet as it comes back: who was observed, what was measured and judged, photographs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from courseware.jobs.observation import TypedObservation
from courseware.jobs.workbooks import ABOUT, GIVEN, JUDGED_PAGE, MEASURED_PAGE, PHOTOS_PAGE, WRITTEN
from courseware.spreadsheets.rows import Row, TableFaulty, heading_key
from courseware.spreadsheets.table_in import read_table
from courseware.text_files.faults import Fault, harmless

_MOST_PHOTOS = 50
_MEASURED, _JUDGED, _PHOTOS, _ABOUT = (
    {heading_key(heading) for heading in headings}
    for headings in (MEASURED_PAGE, JUDGED_PAGE, PHOTOS_PAGE, (ABOUT, WRITTEN))
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadSheet:
    """What a sheet holds. `job` is the title of the job it was made for; `rows` where each line stands, from 1."""

    typed: TypedObservation
    job: str
    rows: Mapping[str, int]


def read_observation_sheet(data: bytes, file: str) -> ReadSheet:
    """The sheet's bytes read; `file` names it in messages. Raises `TableFaulty` for what is no observation sheet."""
    measured = _table(data, file, _MEASURED)
    if not measured:
        expected = f"expected the headings {', '.join(MEASURED_PAGE)}: the workbook that `courseware job` makes"
        raise TableFaulty((Fault(file, 1, 1, "this is not an observation sheet", expected),))
    workbook = file.lower().endswith((".xlsx", ".xlsm"))
    about = {heading_key(texts[ABOUT]): texts[WRITTEN] for _, texts in (_table(data, file, _ABOUT) if workbook else ())}
    judged = _table(data, file, _JUDGED) if workbook else []
    photos = _table(data, file, _PHOTOS) if workbook else []
    faults = list(_faults(file, [*measured, *judged], photos))
    if faults:
        raise TableFaulty(tuple(faults))
    sized = [(row, texts) for row, texts in measured if texts["target, mm"].strip()]
    typed = TypedObservation(
        learner=about.get("learner", ""),
        by=about.get("assessor", ""),
        day=about.get("date", "").strip(),
        bay=about.get("bay", ""),
        comment=about.get("assessorscomment", ""),
        learner_comment=about.get("learnerscomment", ""),
        lines={
            **{texts["line"].strip(): texts["measured, mm"] for _, texts in sized},
            **{texts["line"].strip(): texts[GIVEN] for _, texts in judged},
        },
        photos=tuple((texts["file"].strip(), texts["what it shows"].strip()) for _, texts in photos),
        sizes={
            texts["line"].strip(): (texts["target, mm"].strip(), texts["allowed, ± mm"].strip()) for _, texts in sized
        },
    )
    rows = {texts["line"].strip(): row.line for row, texts in (*sized, *judged)}
    return ReadSheet(typed=typed, job=about.get("job", "").strip(), rows=rows)


_Read = Sequence[tuple[Row, Mapping[str, str]]]


def _table(data: bytes, file: str, wanted: set[str]) -> _Read:
    """The rows under these headings, each with its texts by heading; none where no sheet has them."""

    def is_it(headings: Sequence[str]) -> bool:
        return wanted <= {heading_key(heading) for heading in headings}

    rows, _ = read_table(data, file, is_it, merges=True)
    headings = next(rows, None)
    if headings is None or not is_it(headings.cells):
        return []
    names = {heading_key(name): name for name in (*MEASURED_PAGE, *JUDGED_PAGE, *PHOTOS_PAGE, ABOUT, WRITTEN)}
    keys = [names.get(heading_key(heading), "") for heading in headings.cells]
    return [(row, dict(zip(keys, row.cells, strict=False))) for row in rows]


def _faults(file: str, lines: _Read, photos: _Read) -> Iterator[Fault]:
    seen: dict[str, int] = {}
    for row, texts in lines:
        what = texts["line"].strip()
        if what in seen:
            wrong = f"the line `{harmless(what)}` stands on row {seen[what]} too"
            yield Fault(file, row.line, 1, wrong, "expected each line once")
        seen[what] = row.line
        column = list(texts).index("measured, mm") if "measured, mm" in texts else None
        if column is not None and column in row.unread:
            wrong = f"the figure of `{harmless(what)}` {row.unread[column]}"
            yield Fault(file, row.line, column + 1, wrong, "type the figure itself")
    if len(photos) > _MOST_PHOTOS:
        yield Fault(file, photos[_MOST_PHOTOS][0].line, 1, f"{len(photos)} photographs", f"at most {_MOST_PHOTOS}")
