"""The distance travelled, as it is printed and as a workbook: for each pair of sittings a side, for the tutor."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from courseware.class_report.distance import Distance, OutcomeChange
from courseware.class_report.distance_plot import Journey, distance_plot, slips_plot
from courseware.class_report.report import outcome_words
from courseware.papers.dates import in_full
from courseware.reports.report import Block, Report
from courseware.reports.words import SMALL
from courseware.settings.settings import Settings
from courseware.spreadsheets.xlsx_out import Page, Value, safe_workbook
from courseware.statistics.intervals import Index
from courseware.words import count

MOST_SLIPS = 16
_PLACES = 4
Questions = Mapping[str, str]  # what each part asks, by its label


def distance_report(found: Sequence[tuple[Distance, Questions]], settings: Settings) -> Report:
    """A side for each pair, in the order of the levels or whatever order they come in."""
    blocks = [block for place, (one, questions) in enumerate(found) for block in _side(one, questions, new=place > 0)]
    return Report(file="distance-travelled", title="Distance travelled", centre=settings.name, blocks=tuple(blocks))


def distance_workbook(found: Sequence[tuple[Distance, Questions]], day: str) -> bytes:
    """Every figure as a number, dated `day`."""
    outcomes = {
        "start": 12, "end": 12, "exercise": 50, "papers at start": 10, "papers at end": 10, "share at start": 10,
        "share at end": 10, "wrote both": 10, "change": 10, "change from": 10, "change to": 10,
    }  # fmt: skip
    slips = {
        "start": 12,
        "end": 12,
        "what went wrong": 60,
        "papers at start": 10,
        "of": 6,
        "papers at end": 10,
        "of ": 6,
    }
    rows = [
        (
            one.start.date,
            one.end.date,
            outcome_words(change.start, questions),
            *one.papers,
            *(_number(index.value) if index else None for index in (change.start.facility, change.end.facility)),
            one.both,
            *_change(change.change),
        )
        for one, questions in found
        for change in one.outcomes
    ]
    seen = [
        (one.start.date, one.end.date, slip.words, slip.start, one.papers[0], slip.end, one.papers[1])
        for one, _ in found
        for slip in one.slips
    ]
    about = [(line,) for one, _ in found for line in (_head(one), *_about(one))]
    pages = (
        Page(title="Exercises", columns=outcomes, rows=rows),
        Page(title="Slips", columns=slips, rows=seen),
        Page(title="About", columns={"about these figures": 110}, rows=about),
    )
    return safe_workbook(pages, day)


def _side(one: Distance, questions: Questions, *, new: bool) -> Iterator[Block]:
    says = (
        "Ring: the share of its marks got at the start. Dot: at the end. The figure: the mean change of those who "
        "wrote both, in per cent of the marks, and between what it likely lies (19 times in 20)."
    )
    plot = distance_plot([_journey(change, questions) for change in one.outcomes])
    yield Block(heading=_head(one), text=tuple(_about(one)), new_page=new)
    yield Block(heading="How much of each exercise the class got", text=(says,), picture=plot)
    if not one.slips:
        yield Block(heading="What went wrong", text=("No answer showed a slip that has a name, then or now.",))
        return
    shown = one.slips[:MOST_SLIPS]
    more = f" {len(one.slips) - len(shown)} more stand in the workbook." if len(one.slips) > len(shown) else ""
    said = f"On how many papers each was seen, ring then dot; first those that are still to be taught.{more}"
    yield Block(heading="What went wrong", text=(said,), picture=slips_plot(shown, one.papers))


def _head(one: Distance) -> str:
    return f"{one.start.title}: {in_full(one.start.date)} to {in_full(one.end.date)}"


def _about(one: Distance) -> Iterator[str]:
    at_start, at_end = (count(papers, "paper") for papers in one.papers)
    yield (
        f"For the tutor. {at_start} at the start (sitting {one.start.code}), {at_end} at the end ({one.end.code}); "
        f"{count(one.both, 'learner')} wrote both. Nobody is put in an order."
    )
    if one.both < SMALL:
        yield f"With n = {one.both} chance has a large say: read what the change lies between, not the change alone."
    if not one.both:
        yield "No learner is known to have written both, by reference or name, so no change can be given."
    if one.waiting:
        yield f"{count(one.waiting, 'answer')} of the two still wait for an assessor: these figures are provisional."


def _journey(change: OutcomeChange, questions: Questions) -> Journey:
    start, end = change.start.facility, change.end.facility
    return Journey(
        words=outcome_words(change.start, questions),
        start=start.value if start else None,
        end=end.value if end else None,
        change=change.change,
    )


def _change(change: Index | None) -> tuple[Value, Value, Value]:
    if change is None:
        return None, None, None
    interval = change.interval
    low, high = (_number(interval.low), _number(interval.high)) if interval else (None, None)
    return _number(change.value), low, high


def _number(value: float) -> float:
    return round(value, _PLACES)
