"""What two markers settle between them: their differences as a sheet, and as a workbook that marking takes back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from courseware.papers.dates import in_full
from courseware.papers.sitting import Sitting
from courseware.quality.second_marking import Difference, Differences, OneMark
from courseware.reports.as_typed import as_typed, by_code
from courseware.reports.report import Block, Report, Table
from courseware.reports.words import DASH, SMALL, between, share, two
from courseware.spreadsheets.rows import heading_key
from courseware.spreadsheets.table_in import read_table
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from courseware.statistics.intervals import Index
from courseware.words import count, plural

_MEANINGS = (
    "Alike: the share of parts that both gave the same mark. Within one: at most one mark apart. Mean difference: the "
    "second marker's mark less the first's, on average; above 0 the second is the kinder.",
    "Kappa: agreement beyond what chance would bring; 1 is complete, 0 is no better than chance. It is taken over the "
    "marks of all parts together. Weighted by distance (or by its square), a mark far off counts for more.",
    "Parts of one paper hang together, so the true intervals are somewhat wider than those shown.",
)
_ALONE = (
    "the first marker's is the program's reading, and your centre's settings do not count it (`first_marker: program` "
    "would)."
)
FIRST, SECOND = "first marker", "second marker"  # headings by which the sheet is known again
_SIGNED = "First marker: ________________________   Second marker: ________________________   Date: ____________"


def second_sheet(found: Differences, sitting: Sitting, made: str, names: Mapping[str, str]) -> Report:
    """The differences to settle, with room for the mark agreed and its reason. `names` by code, or none."""
    title, centre = f"Two markers: {sitting.title}", sitting.settings.name
    if not found.compared:
        about = (Block(text=tuple(about_differences(found, sitting, made))),)
        return Report(file="two-markers", title=title, centre=centre, blocks=about)
    settled = Table(
        headings=("Paper", "Part", "First marker", "Second marker", "Agreed", "Reason"),
        rows=tuple(
            (_who(one, names), one.label, _told(one, one.first), _told(one, one.second), "", "")
            for one in differences_by_code(found, sitting, names)
        ),
        widths=(28, 13, 44, 44, 15, 0),
    )
    listed = Block(heading="To settle", table=settled) if found.differences else Block(text=("Nothing to settle.",))
    return Report(
        file="two-markers",
        title=title,
        centre=centre,
        blocks=(
            Block(text=(*about_differences(found, sitting, made), _SIGNED)),
            Block(heading="How far they agree", text=tuple(_caution(found)), table=agreement_table(found)),
            Block(text=_MEANINGS),
            listed,
        ),
    )


def second_workbook(found: Differences, sitting: Sitting, day_made: str, names: Mapping[str, str]) -> bytes:
    """The same as a workbook. `courseware mark` reads its sheet `Decisions`: fill in `marks` and `reason` there.

    Its sheet `Answers` has headings alone, so that no answer is entered a second time.
    """
    columns = {"code": 15, "part": 9, "marks": 9, "reason": 40, "comment": 30, **({"name": 26} if names else {})}
    columns |= {"of": 6, FIRST: 13, SECOND: 14, "written": 18, "first: why": 46, "second: why": 46, "second: who": 24}
    rows = [
        (
            *(one.code, one.label, None, "", ""),
            *((names.get(one.code, ""),) if names else ()),
            *(one.first.of, one.first.marks, one.second.marks, one.written),
            *(one.first.why, one.second.why, one.second.by),
        )
        for one in differences_by_code(found, sitting, names)
    ]
    labels = [part.label for part in sitting.papers[0].parts]
    said = [*about_differences(found, sitting, day_made), *_caution(found), *_MEANINGS]
    figures = agreement_table(found)
    pages = (
        Page(title="Decisions", columns=columns, rows=rows),
        Page(title="Agreement", columns=dict.fromkeys(figures.headings, 26), rows=figures.rows),
        Page(title="About", columns={"about this comparison": 110}, rows=[(line,) for line in said]),
        Page(title="Answers", columns={"code": 15, "status": 12, **dict.fromkeys(labels, 9)}, rows=()),
    )
    return safe_workbook(pages, day_made)


def is_settling(data: bytes, file: str) -> bool:
    """Whether a workbook is one on which two markers' differences are settled, whatever it is called."""

    def is_it(headings: Sequence[str]) -> bool:
        return {heading_key(name) for name in ("code", "part", "marks", "reason", FIRST, SECOND)} <= {
            heading_key(heading) for heading in headings
        }

    if not file.lower().endswith((".xlsx", ".xlsm")):
        return False
    rows, _ = read_table(data, file, is_it)
    headings = next(rows, None)
    return headings is not None and is_it(headings.cells)


def about_differences(found: Differences, sitting: Sitting, made: str) -> Iterator[str]:
    """Of what the comparison is: papers, parts, and what does not count."""
    yield (
        f"Sitting {sitting.code}, {sitting.group}. Made on {in_full(made)}."
        if sitting.group
        else (f"Sitting {sitting.code}. Made on {in_full(made)}.")
    )
    if not found.compared:
        yield "No script is marked in full by a second marker yet, so nothing of either is shown."
    else:
        papers, parts = count(len(found.both), "paper"), count(found.parts, "part")
        yield f"On {papers} both have marked {parts}: {count(len(found.differences), 'part')} differently."
    if found.alone:
        yield (
            f"{count(found.alone, 'part')} {plural(found.alone, 'has', 'have')} one person's mark alone "
            f"and {plural(found.alone, 'does', 'do')} not count: {_ALONE}"
        )
    if found.waiting:
        yield f"Not finished by the second marker, so nothing is shown: {', '.join(found.waiting)}."


def _caution(found: Differences) -> Iterator[str]:
    if len(found.both) < SMALL:
        yield (
            f"{count(len(found.both), 'paper')} {plural(len(found.both), 'says', 'say')} little about two "
            "markers: read the intervals, and look at the differences themselves."
        )


def agreement_table(found: Differences) -> Table:
    """How far two markers agree, each figure with its interval."""
    whole = found.agreement
    rows = (
        ("Alike", *_share(whole.exact)),
        ("Within one mark", *_share(whole.within_one)),
        ("Mean difference, in marks", two(whole.mean_difference), DASH),
        ("Kappa", *_kappa(whole.kappa)),
        ("Kappa, weighted by distance", *_kappa(whole.kappa_linear)),
        ("Kappa, weighted by its square", *_kappa(whole.kappa_quadratic)),
    )
    return Table(
        headings=("Figure", "Found", "Likely between", "n, parts"),
        rows=tuple((*row, str(whole.n)) for row in rows),
        widths=(0, 28, 40, 20),
    )


def _share(found: Index | None) -> tuple[str, str]:
    said, _, likely = share(found).partition(" (")
    return said, f"{likely.removesuffix(')')} %" if likely else DASH


def _kappa(found: Index | None) -> tuple[str, str]:
    return (two(found.value), between(found.interval)) if found else (DASH, DASH)


def differences_by_code(found: Differences, sitting: Sitting, names: Mapping[str, str]) -> tuple[Difference, ...]:
    """The differences; where the sheet goes by codes, without learners' names in what was typed about them."""
    learners = {} if names else {paper.code: paper.learner.name for paper in sitting.papers}
    return tuple(_coded(one, learners.get(one.code, "")) for one in found.differences)


def _coded(one: Difference, name: str) -> Difference:
    def own(mark: OneMark) -> OneMark:
        return replace(mark, why=by_code(mark.why, name, one.code))

    return replace(one, written=by_code(one.written, name, one.code), first=own(one.first), second=own(one.second))


def _told(one: Difference, mark: OneMark) -> str:
    by = f" ({mark.by})" if mark.by else ""
    return as_typed(f"{mark.marks} of {mark.of}{by}; written {one.written or '–'}. {mark.why}".strip())


def _who(one: Difference, names: Mapping[str, str]) -> str:
    again = f" (script {one.attempt})" if one.attempt > 1 else ""
    return f"{one.code}{again} {names.get(one.code, '')}".strip()
