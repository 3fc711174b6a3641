"""Titles made of topics."""

from __future__ import annotations

import pytest

from courseware.papers.titles import in_one_line, title_of


@pytest.mark.parametrize(
    ("lengths", "title"),
    [
        ((48, 47), "a" * 48 + " and " + "b" * 47),  # 100 characters
        ((48, 48), "a" * 48 + " and 1 more topic"),  # 101
        ((48, 20, 48), "a" * 48 + ", " + "b" * 20 + " and 1 more topic"),
        ((80, 20, 48), "a" * 80 + " and 2 more topics"),
        ((100,), "a" * 100),
        ((101,), "a" * 100),
        ((101, 5), "a" * 100),
    ],
)
def test_a_title_made_of_topics_is_never_too_long(lengths, title) -> None:
    assert title_of([letter * length for letter, length in zip("abc", lengths, strict=False)]) == title


@pytest.mark.parametrize(
    ("topics", "line"),
    [
        (["Opening sizes"], "Opening sizes"),
        (["Opening sizes", "Course gauge"], "Opening sizes and course gauge"),
        (["Opening sizes", "Course gauge", "Resource lists"], "Opening sizes, course gauge and resource lists"),
        (["Opening sizes", "Course gauge", "Opening sizes"], "Opening sizes and course gauge"),
    ],
)
def test_topics_are_told_in_one_line_each_once(topics: list[str], line: str) -> None:
    assert in_one_line(topics) == line
