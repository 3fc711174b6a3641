"""The class picture as a workbook: every figure a number, to sort and to calculate with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from courseware.class_report.figures import ClassFigures, class_figures
from courseware.class_report.report import NO_NAMES, bands_of, part_labels
from courseware.class_report.teach_again import Numbered, Starter, numbered_slips
from courseware.class_report.variant_bands import BANDS, PartBands
from courseware.class_report.words import MEANINGS, caution
from courseware.marking.marks import MarkedPaper, MarkedSitting
from courseware.papers.sitting import Sitting
from courseware.reports.words import DASH, SMALL, plain
from courseware.spreadsheets.xlsx_out import Page, Value, safe_workbook
from courseware.statistics.intervals import Index, Interval

_PLACES = 4


def class_workbook(
    sitting: Sitting,
    marked: Sequence[MarkedPaper],
    starters: Mapping[str, Starter],
    names: Mapping[str, str] = NO_NAMES,
    others: Sequence[MarkedSitting] = (),
) -> bytes:
    """The workbook, from what `class_picture` takes. The same marks give the same bytes."""
    figures = class_figures(sitting, marked)
    pages = (
        _teach_again(figures, numbered_slips(figures.slips, starters), names),
        _parts(figures),
        _outcomes(figures),
        _whole(figures),
        _marks(figures, names),
        _bands(sitting, bands_of(sitting, marked, others)),
        _meanings(figures),
    )
    return safe_workbook(pages, sitting.date)


def _teach_again(figures: ClassFigures, slips: Sequence[Numbered], names: Mapping[str, str]) -> Page:
    columns = {
        "no.": 6, "what went wrong": 60, "part": 8, "exercise": 28, "papers": 9, "perhaps": 9, "of": 6,
        "teach again": 12, "which papers": 40, "which perhaps": 30, "starter": 50, "it asks": 40, "its answer": 24,
    }  # fmt: skip
    rows = [
        (
            one.number, one.slip.says, one.slip.label, plain(one.slip.exercise), len(one.slip.codes),
            len(one.slip.perhaps), len(figures.codes), "yes" if one.slip.again else "a slip",
            _who(one.slip.codes, names), _who(one.slip.perhaps, names),
            *(one.starter[:3] if one.starter else ("", "", "")),
        )
        for one in slips
    ]  # fmt: skip
    return Page(title="Teach again", columns=columns, rows=rows)


def _who(codes: Sequence[str], names: Mapping[str, str]) -> str:
    return ", ".join(f"{code} {names[code]}" if code in names else code for code in codes)


def _parts(figures: ClassFigures) -> Page:
    columns = {
        "part": 8, "topic": 24, "exercise": 28, "what": 24, "marks": 8, "n": 6, "share got": 10, "from": 8, "to": 8,
        "tells apart": 11, "n, each end": 11, "tells apart, from": 16, "tells apart, to": 16, "goes with rest": 14,
        "rest, n": 8, "rest, from": 11, "rest, to": 11, "blank": 8, "not reached": 12, "to settle": 10,
        "look at this question": 40,
    }  # fmt: skip
    rows: list[Sequence[Value]] = []
    for part in figures.parts:
        found = part.statistics
        rows.append(
            (
                part.label, part.topic, plain(part.exercise), plain(part.name), part.of, len(figures.codes),
                _value(found.facility), *_limits(found.facility),
                _value(found.discrimination), _n(found.discrimination), *_limits(found.discrimination),
                _value(found.item_rest), _n(found.item_rest), *_limits(found.item_rest),
                part.blank, part.unreached, part.asked, "; ".join(part.look),
            )
        )  # fmt: skip
    return Page(title="Parts", columns=columns, rows=rows)


def _outcomes(figures: ClassFigures) -> Page:
    columns = {"topic": 28, "exercise": 32, "parts": 16, "marks": 8, "n": 6, "share got": 10, "from": 8, "to": 8}
    rows = [
        (
            one.topic, plain(one.exercise), ", ".join(one.labels), one.of, len(figures.codes), _value(one.facility),
            *_limits(one.facility),
        )
        for one in figures.outcomes
    ]  # fmt: skip
    return Page(title="Outcomes", columns=columns, rows=rows)


def _whole(figures: ClassFigures) -> Page:
    whole = figures.whole
    no_kr20 = None if whole.kr20 is None else whole.interval
    rows: list[Sequence[Value]] = [
        ("marks in all", figures.of, DASH, DASH, whole.n),
        ("parts", whole.parts, DASH, DASH, whole.n),
        ("mean", _shown(whole.mean), DASH, DASH, whole.n),
        ("SD", _shown(whole.sd), DASH, DASH, whole.n),
        ("alpha", _shown(whole.alpha), *_ends(whole.interval), whole.n),
        ("KR-20", _shown(whole.kr20), *_ends(no_kr20), whole.n),
        ("SEM, in marks", _shown(whole.sem), *_ends(whole.sem_interval), whole.n),
        ("absent", figures.papers.absent),
        ("not handed in", figures.papers.missing),
        ("not marked in every part", figures.papers.unfinished),
    ]
    return Page(title="Whole paper", columns={"what": 28, "figure": 10, "from": 10, "to": 10, "n": 8}, rows=rows)


def _marks(figures: ClassFigures, names: Mapping[str, str]) -> Page:
    """Learners by parts, in order of code."""
    columns = {"paper": 16, "name": 28, **{part.label: 8 for part in figures.parts}, "total": 8, "of": 6}
    rows: list[Sequence[Value]] = [
        (code, names.get(code, ""), *row, total, figures.of)
        for code, row, total in zip(figures.codes, figures.marks, figures.totals, strict=True)
    ]
    return Page(title="Marks", columns=columns, rows=rows)


def _bands(sitting: Sitting, bands: Sequence[PartBands]) -> Page:
    figures = ("answers from", "answers to", "share got", "from", "to", "n")
    columns = {"part": 8, "exercise": 28, "what": 24, "unit": 10}
    columns |= {f"{name}: {figure}": 14 for name in BANDS for figure in figures}
    labels = part_labels(sitting)
    rows: list[Sequence[Value]] = []
    for one in bands:
        row: list[Value] = [labels[one.topic, one.exercise, one.part], plain(one.exercise), plain(one.part), one.unit]
        for band in one.bands:
            ends = [DASH if end is None else float(end) for end in (band.least, band.most)]
            row += [*ends, _value(band.facility), *_limits(band.facility), band.facility.n if band.facility else 0]
        rows.append((*row, "bands far apart" if one.apart else ""))
    return Page(title="Variants", columns={**columns, "look at this question": 24}, rows=rows)


def _meanings(figures: ClassFigures) -> Page:
    small = [("a small class", caution(len(figures.codes)))] if len(figures.codes) < SMALL else []
    between = ("from, to", "Between what figures the one before them would likely lie, 19 times in 20.")
    return Page(title="What is what", columns={"word": 26, "meaning": 110}, rows=[*MEANINGS, between, *small])


def _value(found: Index | None) -> Value:
    return _shown(found.value if found else None)


def _n(found: Index | None) -> Value:
    return found.n if found else DASH


def _limits(found: Index | None) -> tuple[Value, Value]:
    return _ends(found.interval if found else None)


def _ends(interval: Interval | None) -> tuple[Value, Value]:
    return (_shown(interval.low), _shown(interval.high)) if interval else (DASH, DASH)


def _shown(value: float | None) -> Value:
    return DASH if value is None else round(value, _PLACES)
