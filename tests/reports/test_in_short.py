"""Long texts in short, cut between words."""

from __future__ import annotations

import pytest

from courseware.reports.in_short import cut, in_short


@pytest.mark.parametrize(("ask", "short"), [
    ("Draw the four courses. Mark the rod. Name the datum.", "Draw the four courses."),
    ("Heights of 1.5 m and 2.5 m are marked. Which is right?", "Which is right?"),
    (f"{'a word ' * 20}at the end?", f"{'a word ' * 11}a …"),
])  # fmt: skip
def test_a_question_in_short_is_what_it_asks(ask, short) -> None:
    assert in_short(ask) == short


@pytest.mark.parametrize(("most", "said"), [
    (22, "The beds were left out"), (21, "The beds were left …"), (19, "The beds were left …"), (18, "The beds were left …"),
    (17, "The beds were …"), (2, "Th …"),
])  # fmt: skip
def test_a_text_is_cut_between_words_where_it_is_too_long(most: int, said: str) -> None:
    assert cut("The beds were left out", most) == said


def test_no_stop_stands_before_the_ellipsis() -> None:
    assert cut("One, two, three", 9) == "One, two …"
