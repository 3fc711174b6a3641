"""The class picture's charts as lines: each figure of the chart is there, its bar as long as the chart's."""

from __future__ import annotations

import pytest

from courseware.class_report.bars_in_words import outcomes_in_words, slips_in_words, spread_in_words
from courseware.class_report.figures import OutcomeFigures
from courseware.class_report.misconceptions import Misconception
from courseware.statistics.intervals import Index, wilson


def test_slips_are_as_long_as_they_were_seen_certain_or_not() -> None:
    beds = Misconception(
        words="the beds were left out", says="", seen=(("K", "1a"), ("L", "1b")), perhaps=(("M", "1a"),) * 2
    )
    once = Misconception(words="in mm", says="", seen=(("K", "2a"),), perhaps=())
    assert [(one.words, one.figure, one.part) for one in slips_in_words((beds, once))] == [
        ("The beds were left out", "2 times, 2 learners, 2 questions", 1.0), ("In mm", "once, in 2a", 0.25),
    ]  # fmt: skip


@pytest.mark.parametrize(("of", "lines", "first", "last"), [
    (9, 10, "0 of 9", "9 of 9"), (10, 6, "0 to 1 of 10", "10 of 10"), (68, 10, "0 to 6 of 68", "63 to 68 of 68"),
    (0, 1, "0 of 0", "0 of 0"),
])  # fmt: skip
def test_the_spread_has_every_mark_in_one_line_and_ten_lines_at_most(
    of: int, lines: int, first: str, last: str
) -> None:
    found = spread_in_words((0, of, of), of)
    assert (len(found), found[0].words, found[-1].words) == (lines, first, last)
    assert found[-1].part == 1.0


def test_every_paper_is_counted_in_the_band_of_its_marks() -> None:
    found = spread_in_words((0, 1, 2, 9, 10), 10)  # bands of two
    assert [one.figure for one in found] == ["2 papers", "1 paper", "none", "none", "1 paper", "1 paper"]
    assert [one.part for one in found] == [1.0, 0.5, 0.0, 0.0, 0.5, 0.5]


def test_outcomes_have_their_share_and_one_without_a_figure_has_no_bar() -> None:
    got = Index(value=0.5, n=8, interval=wilson(0.5, 8))
    both = [OutcomeFigures(topic="Piers", exercise="e", labels=("1a",), of=4, facility=one) for one in (got, None)]
    found = outcomes_in_words(both, {"1a": "How long?"})
    assert [(one.words, one.part) for one in found] == [("1 Piers: How long?", 0.5), ("1 Piers: How long?", None)]
    assert found[0].figure == "50\u00a0% (22 to 78)"
