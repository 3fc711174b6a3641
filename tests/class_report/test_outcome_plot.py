"""Outcomes as dots and whiskers, read back as a drawing."""

from __future__ import annotations

import pytest
from statsmodels.stats.proportion import proportion_confint

from courseware.class_report.outcome_plot import ROW, WIDE, Outcome, at, outcome_plot
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.statistics.intervals import Index, wilson


def outcome(share: float, n: int = 12) -> Outcome:
    return Outcome(
        words="1 Opening sizes: How wide must it be?", got=Index(value=share, n=n, interval=wilson(share, n))
    )


def dots(picture: Picture) -> list[tuple[float, float]]:
    return [
        (sum(x for x, _ in outline) / len(outline), sum(y for _, y in outline) / len(outline))
        for mark in picture.marks
        if isinstance(mark, Stroke) and mark.fill == 0
        for outline in mark.outlines
    ]


def whiskers(picture: Picture) -> list[tuple[float, float]]:
    """From where to where each whisker goes."""
    strokes = [mark for mark in picture.marks if isinstance(mark, Stroke) and mark.weight == 0.4]
    return [(a[0], b[0]) for mark in strokes for a, b in mark.outlines if a[1] == b[1]]


@pytest.mark.parametrize("share", [0.0, 0.25, 0.5, 1.0])
def test_the_dot_stands_at_its_share_and_the_whisker_over_the_likely_ones(share: float) -> None:
    """The interval by statsmodels."""
    picture = outcome_plot([outcome(share)])
    assert dots(picture) == [(pytest.approx(at(share)), pytest.approx(ROW / 2))]
    low, high = proportion_confint(share * 12, 12, method="wilson")
    assert whiskers(picture) == [(pytest.approx(at(low), abs=1e-6), pytest.approx(at(high), abs=1e-6))]


def test_the_axis_goes_from_nothing_to_all() -> None:
    labels = {mark.text: mark.at[0] for mark in outcome_plot([outcome(0.5)]).marks if isinstance(mark, Label)}
    assert labels["0 %"] == at(0)
    assert labels["100 %"] == at(1)
    assert labels["50 %"] == (at(0) + at(1)) / 2


def test_each_has_a_line_of_its_own_with_its_words_and_its_figures() -> None:
    picture = outcome_plot([outcome(0.5), outcome(0.25), Outcome(words="3 nothing yet", got=None)])
    assert [y for _, y in dots(picture)] == [pytest.approx(ROW * 0.5), pytest.approx(ROW * 1.5)]
    texts = [mark.text for mark in picture.marks if isinstance(mark, Label)]
    assert texts[-2:] == ["3 nothing yet", "–"]
    assert texts.count("1 Opening sizes: How wide must it be?") == 2
    assert any(text.startswith("50\u00a0% (") for text in texts)


def test_all_words_are_on_the_picture_and_large_enough(wide) -> None:
    picture = outcome_plot([Outcome(words="12 " + "a long question about walls " * 4, got=outcome(1.0).got)] * 16)
    for label in (mark for mark in picture.marks if isinstance(mark, Label)):
        long = wide(label)
        start = {"end": label.at[0] - long, "middle": label.at[0] - long / 2, "start": label.at[0]}[label.anchor]
        assert label.size >= 8 * 25.4 / 72
        assert start >= 0, label.text
        assert start + long <= WIDE + 0.1, label.text


def test_the_alternative_text_has_every_share() -> None:
    alt = outcome_plot([outcome(0.5)]).alt
    assert "1 Opening sizes: How wide must it be?: 50\u00a0% (" in alt
