"""One learner's evidence as an index: item, criteria, page, how it stands, assessor, date, whether it was assured."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from courseware.jobs.observation import VERDICTS
from courseware.papers.dates import in_full
from courseware.papers.people import Person
from courseware.quality.criteria_map import CriteriaMap
from courseware.quality.criteria_sheet import STANDING
from courseware.quality.sample_results import SampleResult
from courseware.reports.as_typed import as_typed
from courseware.reports.report import Block, Report, Table
from courseware.reports.words import DASH
from courseware.settings.settings import Settings
from courseware.spreadsheets.xlsx_out import Page, safe_workbook

_HEADINGS = ("Item", "Criteria", "Page", "How it stands", "Assessor", "Date", "Assured")
_HOW = (
    "Page: of the paper as it was issued, or of the observation sheet. Assured: what a quality assurer's sample found "
    "of that paper, where it was in one."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Marker:
    """Who marked a paper, and on which day (ISO 8601); '' where that is not known."""

    who: str
    day: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A question of a paper, or work at a job, as a piece of evidence."""

    code: str
    says: str
    criteria: tuple[str, ...]
    page: str
    standing: str
    by: Marker
    assured: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of papers beside their marks: pages of their questions, who marked them, what samples found."""

    pages: Mapping[tuple[str, int], int]  # by paper and number of the question
    marked_by: Mapping[str, Marker]
    results: Sequence[SampleResult]


def items_of(found: CriteriaMap, person: Person, known: Known) -> tuple[Item, ...]:
    """A learner's evidence, papers in their order and their questions, then work at jobs by day."""
    questions: dict[tuple[str, int], tuple[dict[str, None], list[bool]]] = {}
    jobs: dict[tuple[str, str, str], tuple[dict[str, None], str]] = {}
    titles: dict[tuple[str, int], str] = {}
    seen: dict[tuple[str, str, str], tuple[str, Marker]] = {}
    for row in found.rows:
        for served in row.served:
            for one in served.shown(person.label):
                key = (one.code, _number(one.label))
                codes, secure = questions.setdefault(key, ({}, []))
                codes[row.criterion.code] = None
                secure.append(one.mark.secure)
                titles[key] = f"{one.sitting}"
            for work in served.observed.get(person.label, ()):
                place = (work.code, work.job, work.day)
                codes, _ = jobs.setdefault(place, ({}, VERDICTS[work.verdict]))
                codes[row.criterion.code] = None
                bay = f", bay {work.bay}" if work.bay else ""
                seen[place] = (f"{work.title}{bay}", Marker(who=work.by, day=work.day))
    order = {code: place for place, code in enumerate(person.codes)}
    written = [
        Item(
            code=code,
            says=f"Question {number} of paper {code}, sitting {titles[code, number]}",
            criteria=tuple(codes),
            page=str(known.pages.get((code, number), DASH)),
            standing=f"{sum(secure)} of {len(secure)} parts secure",
            by=known.marked_by.get(code, Marker(who="", day="")),
            assured=_assured(code, known.results),
        )
        for (code, number), (codes, secure) in sorted(questions.items(), key=lambda one: (order[one[0][0]], one[0][1]))
    ]
    done = [
        Item(code=place[0], says=seen[place][0], criteria=tuple(codes), page="1", standing=standing,
             by=seen[place][1], assured=DASH)
        for place, (codes, standing) in sorted(jobs.items(), key=lambda one: one[0][2])
    ]  # fmt: skip
    return (*written, *done)


def portfolio_sheet(
    found: CriteriaMap, person: Person, items: Sequence[Item], settings: Settings, made: str, name: str
) -> Report:
    """The index to print. `name` is '' where it goes by the code alone."""
    rows = tuple(tuple(map(as_typed, row)) for row in _rows(items))
    index = Table(headings=_HEADINGS, rows=rows, widths=(0, 24, 12, 27, 25, 21, 27))
    standing = Table(
        headings=("Criterion", "What it says", "How it stands", "What counted"),
        rows=tuple(tuple(map(as_typed, row)) for row in _standing(found, person)),
        widths=(24, 0, 22, 72),
    )
    return Report(
        file="portfolio",
        title=f"Portfolio index of {name or person.label}",
        centre=settings.name,
        blocks=(
            Block(text=(_about(person, made),)),
            Block(heading="The criteria", table=standing if standing.rows else None),
            Block(
                heading="The evidence",
                text=(_HOW,) if rows else ("There is no evidence yet.",),
                table=index if rows else None,
            ),
        ),
    )


def portfolio_workbook(found: CriteriaMap, person: Person, items: Sequence[Item], made: str) -> bytes:
    """The same as a workbook."""
    widths = (56, 20, 8, 22, 22, 12, 34)
    said = [(_about(person, made),), (_HOW,)]
    pages = (
        Page(title="Evidence", columns=dict(zip(_HEADINGS, widths, strict=True)), rows=list(_rows(items))),
        Page(
            title="Criteria",
            columns={"Criterion": 14, "What it says": 50, "How it stands": 16, "What counted": 60},
            rows=list(_standing(found, person)),
        ),
        Page(title="About", columns={"about this index": 110}, rows=said),
    )
    return safe_workbook(pages, made)


def _rows(items: Sequence[Item]) -> Iterator[tuple[str, ...]]:
    for one in items:
        codes = ", ".join(one.criteria)
        yield (one.says, codes, one.page, one.standing, one.by.who or DASH, one.by.day or DASH, one.assured)


def _standing(found: CriteriaMap, person: Person) -> Iterator[tuple[str, ...]]:
    for row in found.rows:
        counted = "; ".join(one.says for one in row.secure_pieces(person.label)) or DASH
        rule = f" ({row.criterion.rule})" if row.criterion.rule else ""
        yield (row.criterion.code, row.criterion.says + rule, STANDING[row.states[person.label]], counted)


def _about(person: Person, made: str) -> str:
    return f"Papers: {', '.join(person.codes)}. Made on {in_full(made)}."


def _assured(code: str, results: Sequence[SampleResult]) -> str:
    """What the newest sample found of a paper: `agreed, A. Quinn, 2026-02-01`."""
    own = [one for one in results if one.code == code]
    if not own:
        return DASH
    said = "agreed" if own[-1].agreed else "not agreed"
    return f"{said}{', action open' if own[-1].is_open else ''}, {own[-1].by}, {own[-1].day}"


def _number(label: str) -> int:
    """The question that a part belongs to: 12 of `12a(ii)`."""
    digits = label[: next((place for place, letter in enumerate(label) if not letter.isdigit()), len(label))]
    return int(digits or 0)
