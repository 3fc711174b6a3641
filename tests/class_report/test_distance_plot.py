"""The distance travelled read back as a drawing: where rings and dots stand, and that its words have room."""

from __future__ import annotations

import pytest

from courseware.class_report.distance import SlipChange
from courseware.class_report.distance_plot import LEFT, ROW, WIDE, Journey, at, distance_plot, slips_plot
from courseware.drawings.picture import SMALLEST_TYPE, Label, Picture, Stroke
from courseware.statistics.intervals import Index, Interval

GAIN = Index(value=0.23, n=14, interval=Interval(low=0.05, high=0.41))
LONG = "12 Levelling projecting courses: How much higher than the datum must the top of the first course stand …"


def middles(picture: Picture, fill: float) -> list[tuple[float, float]]:
    return [
        (sum(x for x, _ in outline) / len(outline), sum(y for _, y in outline) / len(outline))
        for mark in picture.marks
        if isinstance(mark, Stroke) and mark.fill == fill
        for outline in mark.outlines
    ]


def lines(picture: Picture) -> list[tuple[float, float]]:
    thick = [mark for mark in picture.marks if isinstance(mark, Stroke) and mark.weight == 0.7]
    return [(a[0], b[0]) for mark in thick for a, b in mark.outlines]


def test_the_ring_stands_at_the_start_the_dot_at_the_end_and_a_line_goes_between() -> None:
    picture = distance_plot([Journey(words="1 Piers", start=0.4, end=0.63, change=GAIN)])
    assert middles(picture, 1.0) == [(pytest.approx(at(0.4)), pytest.approx(ROW / 2))]
    assert middles(picture, 0.0) == [(pytest.approx(at(0.63)), pytest.approx(ROW / 2))]
    assert lines(picture) == [(at(0.4), at(0.63))]
    assert "+23 (5 to 41)" not in picture.alt  # a low limit has its sign too
    assert "1 Piers: 40 %, then 63 %, +23 (+5 to +41)" in picture.alt


def test_a_sitting_that_nobody_wrote_has_no_mark_and_says_so() -> None:
    picture = distance_plot([Journey(words="1 Piers", start=0.4, end=None, change=None)])
    assert (len(middles(picture, 1.0)), middles(picture, 0.0), lines(picture)) == (1, [], [])
    assert "1 Piers: 40 %, then nobody wrote, –" in picture.alt


def test_slips_go_by_the_share_of_papers() -> None:
    picture = slips_plot([SlipChange(words="the beds were left out", start=7, end=2)], (14, 8))
    assert middles(picture, 1.0)[0][0] == pytest.approx(at(0.5))
    assert middles(picture, 0.0)[0][0] == pytest.approx(at(0.25))
    assert "the beds were left out: 7 of 14, then 2 of 8" in picture.alt


def test_words_are_large_enough_and_keep_clear_of_the_axis_and_the_edge(wide) -> None:
    change = Index(value=-1.0, n=2, interval=Interval(low=-1.0, high=-1.0))
    picture = distance_plot([Journey(words=LONG, start=0.0, end=1.0, change=change)])
    for label in (mark for mark in picture.marks if isinstance(mark, Label)):
        assert label.size >= SMALLEST_TYPE
        if label.anchor == "end" and label.at[0] < LEFT:
            assert label.at[0] - wide(label) >= 0
        elif label.anchor == "end":
            assert label.at[0] <= WIDE
            assert label.at[0] - wide(label) > at(1) + 1.3
