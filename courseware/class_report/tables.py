"""The class picture's tables: parts, outcomes, how the questions worked, the whole paper, variants, papers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from courseware.banks.figures import write_out
from courseware.class_report.figures import ClassFigures, OutcomeFigures, PartFigures
from courseware.class_report.teach_again import Numbered
from courseware.class_report.variant_bands import Band, PartBands
from courseware.reports.report import Table
from courseware.reports.words import DASH, between, got, index, plain, share, two
from courseware.statistics.reliability import Reliability


def parts_table(parts: Sequence[PartFigures]) -> Table:
    """How much of each part the class got, and how many wrote nothing."""
    return Table(
        headings=("Part", "Question", "Marks", "Got it", "Share, likely", "Blank", "Not reached", "To settle"),
        rows=tuple(
            (
                part.label,
                f"{plain(part.exercise)}: {plain(part.name)}",
                str(part.of),
                got(part.statistics.facility, part.of),
                share(part.statistics.facility),
                *map(str, (part.blank, part.unreached, part.asked)),
            )
            for part in parts
        ),
        widths=(0, 52, 13, 26, 30, 13, 16, 14),
    )


def outcomes_table(outcomes: Sequence[OutcomeFigures]) -> Table:
    """How much of each outcome (an exercise of a topic) the class got."""
    return Table(
        headings=("Topic", "Exercise", "Parts", "Marks", "Got it", "Share, likely"),
        rows=tuple(
            (
                one.topic,
                plain(one.exercise),
                one.labels[0] if len(one.labels) == 1 else f"{one.labels[0]} to {one.labels[-1]}",
                str(one.of),
                got(one.facility, one.of),
                share(one.facility),
            )
            for one in outcomes
        ),
        widths=(0, 52, 26, 13, 26, 30),
    )


def questions_table(parts: Sequence[PartFigures]) -> Table:
    """How each part went with the rest of the paper, and which to look at."""
    return Table(
        headings=("Part", "Tells apart", "n, each end", "Goes with the rest", "n", "Look at this question"),
        rows=tuple(
            (
                part.label,
                index(part.statistics.discrimination),
                str(part.statistics.discrimination.n) if part.statistics.discrimination else DASH,
                index(part.statistics.item_rest),
                str(part.statistics.item_rest.n) if part.statistics.item_rest else DASH,
                "; ".join(part.look),
            )
            for part in parts
        ),
        widths=(0, 40, 15, 42, 11, 52),
    )


def whole_table(whole: Reliability, of: int) -> Table:
    """The whole paper: mean, spread, steadiness and error."""
    rows = (
        ("Mean", f"{two(whole.mean)} of {of}", DASH),
        ("SD", two(whole.sd), DASH),
        ("Alpha", two(whole.alpha), between(whole.interval)),
        ("KR-20", two(whole.kr20), between(whole.interval) if whole.kr20 is not None else DASH),
        ("SEM, in marks", two(whole.sem), _marks_between(whole)),
    )
    return Table(
        headings=("The whole paper", "Figure", "Likely between", "n"),
        rows=tuple((*row, str(whole.n)) for row in rows),
        widths=(0, 40, 46, 16),
    )


def _marks_between(whole: Reliability) -> str:
    found = whole.sem_interval
    return f"{two(found.low)} to {two(found.high)}" if found else DASH


def bands_table(bands: Sequence[PartBands], labels: Mapping[tuple[str, str, str], str]) -> Table:
    """Facility by thirds of the issued answers."""
    return Table(
        headings=("Part", "Unit", "Low answers", "Middle answers", "High answers", "n", "Look at this question"),
        rows=tuple(
            (
                labels[one.topic, one.exercise, one.part],
                one.unit,
                *map(band_words, one.bands),
                str(one.n),
                "bands far apart" if one.apart else "",
            )
            for one in bands
        ),
        widths=(0, 16, 38, 38, 38, 10, 22),
    )


def band_words(band: Band) -> str:
    """A band's answers and facility: `910 to 1135: 50 % (15 to 85), n 4`."""
    if band.facility is None or band.least is None or band.most is None:
        return DASH
    least, most = write_out(band.least), write_out(band.most)
    return f"{least if least == most else f'{least} to {most}'}: {share(band.facility)}, n\u00a0{band.facility.n}"


def papers_table(figures: ClassFigures, slips: Sequence[Numbered], names: Mapping[str, str]) -> Table:
    """Each paper's marks and its slips by number, in order of code: no ranks."""
    shown: dict[str, list[str]] = {code: [] for code in figures.codes}
    for one in slips:
        for code in one.slip.codes:
            shown[code].append(str(one.number))
        for code in one.slip.perhaps:
            shown[code].append(f"{one.number}?")
    rows = [
        [code, names.get(code, ""), f"{total} of {figures.of}", ", ".join(shown[code]) or DASH]
        for code, total in zip(figures.codes, figures.totals, strict=True)
    ]
    headings, widths = ("Paper", "Name", "Marks", "Slips by number"), (0, 52, 24, 66)
    kept = (0, 1, 2, 3) if names else (0, 2, 3)
    return Table(
        headings=tuple(headings[place] for place in kept),
        rows=tuple(tuple(row[place] for place in kept) for row in rows),
        widths=tuple(widths[place] for place in kept),
    )
