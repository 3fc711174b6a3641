"""The title of a sitting, made of its topics."""

from __future__ import annotations

from collections.abc import Sequence

from courseware.papers.sitting_checks import LONGEST_TITLE
from courseware.words import count, listed


def title_of(topics: Sequence[str]) -> str:
    """The topics in words; of those that are too long for a title as many as fit, and how many more there are."""
    each = list(dict.fromkeys(topics))
    titles = [in_one_line(each)]
    for named in range(len(each) - 1, 0, -1):
        titles.append(in_one_line([*each[:named], count(len(each) - named, "more topic")]))
    return next((title for title in titles if len(title) <= LONGEST_TITLE), each[0][:LONGEST_TITLE])


def week_title(week: int, topics: Sequence[str]) -> str:
    """The title of a week's papers."""
    return f"Week {week}: {title_of(topics)}"[:LONGEST_TITLE]


def in_one_line(topics: Sequence[str]) -> str:
    """Each topic once: `Opening sizes, course gauge and resource lists`."""
    first, *others = dict.fromkeys(topics)
    return listed([first, *(topic[:1].lower() + topic[1:] for topic in others)])
