"""The class picture as a workbook: every figure a number, to sort and to calculate with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from courseware.class_report.figures import ClassFigures
from courseware.class_report.starters import Starter, starter_for
from courseware.class_report.variant_bands import BANDS, PartBands, part_labels
from courseware.class_report.words import MEANINGS, caution
from courseware.papers.sitting import Sitting
from courseware.reports.words import DASH, SMALL
from courseware.spreadsheets.xlsx_out import Page, Value, safe_workbook
from courseware.statistics.intervals import Index, Interval

NO_NAMES: Mapping[str, str] = {}
_PLACES = 4


def class_workbook(
    sitting: Sitting,
    figures: ClassFigures,
    questions: Mapping[str, str],
    starters: Mapping[str, Starter],
    bands: Sequence[PartBands] = (),
    names: Mapping[str, str] = NO_NAMES,
) -> bytes:
    """The workbook, from what `class_picture` takes. The same marks give the same bytes.

    `bands` compare variants over this sitting and others; `names` go by code, none unless given.
    """
    pages = (
        _teach_again(figures, starters, names),
        _slips(figures, questions, names),
        _starters(starters, questions),
        _parts(figures, questions),
        _outcomes(figures, questions),
        _whole(figures),
        _marks(figures, names),
        _bands(sitting, bands, questions),
        _meanings(figures),
    )
    return safe_workbook(pages, sitting.date)


def _teach_again(figures: ClassFigures, starters: Mapping[str, Starter], names: Mapping[str, str]) -> Page:
    columns = {
        "what went wrong": 50, "learners": 9, "of": 6, "times": 8, "questions": 10, "perhaps": 9, "teach again": 12,
        "where": 24, "what its slip says": 60, "which papers": 40, "which perhaps": 30, "starter": 50, "it asks": 40,
        "its answer": 24,
    }  # fmt: skip
    rows: list[Sequence[Value]] = []
    for one in figures.misconceptions:
        certain, maybe = (tuple(dict.fromkeys(code for code, _ in seen)) for seen in (one.seen, one.perhaps))
        starter = starter_for(one, starters) if one.again else None
        rows.append(
            (
                one.words, one.learners, len(figures.codes), one.times, len({label for _, label in one.seen}),
                len(one.perhaps), "yes" if one.again else "a slip", ", ".join(one.labels), one.says,
                _who(certain, names), _who(maybe, names), *(starter[:3] if starter else ("", "", "")),
            )
        )  # fmt: skip
    return Page(title="Teach again", columns=columns, rows=rows, freeze="B2")


def _slips(figures: ClassFigures, questions: Mapping[str, str], names: Mapping[str, str]) -> Page:
    """Each slip of each part, apart."""
    columns = {
        "part": 8, "what the slip says": 60, "counted as": 44, "papers": 9, "perhaps": 9, "of": 6, "question": 50,
        "which papers": 40, "which perhaps": 30,
    }  # fmt: skip
    rows = [
        (
            slip.label, slip.says, slip.words, len(slip.codes), len(slip.perhaps), len(figures.codes),
            questions.get(slip.label, ""), _who(slip.codes, names), _who(slip.perhaps, names),
        )
        for slip in figures.slips
    ]  # fmt: skip
    return Page(title="Slips", columns=columns, rows=rows, freeze="B2")


def _starters(starters: Mapping[str, Starter], questions: Mapping[str, str]) -> Page:
    """A fresh question for every part that has one, to start a lesson with or to set again."""
    columns = {"part": 8, "of the kind of": 50, "starter": 70, "it asks": 50, "its answer": 24, "has a drawing": 14}
    rows = [
        (label, questions.get(label, ""), one.pose, one.ask, one.answer, "yes" if one.drawing else "")
        for label, one in starters.items()
    ]
    return Page(title="Starters", columns=columns, rows=rows, freeze="B2")


def _who(codes: Sequence[str], names: Mapping[str, str]) -> str:
    return ", ".join(f"{code} {names[code]}" if code in names else code for code in codes)


def _parts(figures: ClassFigures, questions: Mapping[str, str]) -> Page:
    columns = {
        "part": 8, "topic": 24, "question": 50, "marks": 8, "n": 6, "share got": 10, "from": 8, "to": 8,
        "tells apart": 11, "n, each end": 11, "tells apart, from": 16, "tells apart, to": 16, "goes with rest": 14,
        "rest, n": 8, "rest, from": 11, "rest, to": 11, "blank": 8, "not reached": 12, "to settle": 10,
        "to look at": 10, "look at this question": 40,
    }  # fmt: skip
    rows: list[Sequence[Value]] = []
    for part in figures.parts:
        found = part.statistics
        rows.append(
            (
                part.label, part.topic, questions.get(part.label, ""), part.of, len(figures.codes),
                _value(found.facility), *_limits(found.facility),
                _value(found.discrimination), _n(found.discrimination), *_limits(found.discrimination),
                _value(found.item_rest), _n(found.item_rest), *_limits(found.item_rest),
                part.blank, part.unreached, part.asked, part.waiting, "; ".join(part.look),
            )
        )  # fmt: skip
    return Page(title="Parts", columns=columns, rows=rows, freeze="B2")


def _outcomes(figures: ClassFigures, questions: Mapping[str, str]) -> Page:
    columns = {"parts": 16, "topic": 28, "first asks": 50, "marks": 8, "n": 6, "share got": 10, "from": 8, "to": 8}
    rows = [
        (
            ", ".join(one.labels), one.topic, questions.get(one.labels[0], ""), one.of, len(figures.codes),
            _value(one.facility), *_limits(one.facility),
        )
        for one in figures.outcomes
    ]  # fmt: skip
    return Page(title="Outcomes", columns=columns, rows=rows, freeze="B2")


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
        ("withdrawn", figures.papers.withdrawn),
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
    return Page(title="Marks", columns=columns, rows=rows, freeze="C2")


def _bands(sitting: Sitting, bands: Sequence[PartBands], questions: Mapping[str, str]) -> Page:
    figures = ("answers from", "answers to", "share got", "from", "to", "n")
    columns = {"part": 8, "question": 50, "unit": 10}
    columns |= {f"{name}: {figure}": 14 for name in BANDS for figure in figures}
    labels = part_labels(sitting)
    rows: list[Sequence[Value]] = []
    for one in bands:
        label = labels[one.topic, one.exercise, one.part]
        row: list[Value] = [label, questions.get(label, ""), one.unit]
        for band in one.bands:
            ends = [DASH if end is None else float(end) for end in (band.least, band.most)]
            row += [*ends, _value(band.facility), *_limits(band.facility), band.facility.n if band.facility else 0]
        rows.append((*row, "bands far apart" if one.apart else ""))
    return Page(title="Variants", columns={**columns, "look at this question": 24}, rows=rows, freeze="B2")


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
