"""A course's weeks laid over topics: each is met first and comes back twice at least, weeks apart, whatever the course."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as some

from courseware.course.scheme import (
    LEAST_APART,
    LEAST_WEEKS,
    MOST_TOPICS,
    MOST_WEEKS,
    NEW,
    CannotPlan,
    Lesson,
    Topic,
    lay,
    teaching_weeks,
)


def topics(count: int, exercises: dict[int, int] | None = None) -> list[Topic]:
    levels = exercises or {1: 4, 2: 3, 3: 2}
    return [Topic(named=f"topic-{n}", title=f"Topic {n}", exercises=levels) for n in range(1, count + 1)]


def weeks_of(topic: str, lessons: tuple[Lesson, ...]) -> list[int]:
    return [lesson.week for lesson in lessons if lesson.topic == topic]


@given(some.integers(1, MOST_TOPICS), some.integers(LEAST_WEEKS, MOST_WEEKS))
def test_each_topic_comes_back_twice_at_least_and_weeks_apart(count: int, weeks: int) -> None:
    lessons = lay(topics(count), weeks)
    for topic in topics(count):
        met = weeks_of(topic.named, lessons)
        assert len(met) >= 3
        assert all(after - before >= LEAST_APART for before, after in pairwise(met))
        assert 1 <= met[0] <= met[-1] <= weeks
        assert [one.meeting for one in lessons if one.topic == topic.named] == list(range(1, len(met) + 1))


def test_topics_begin_in_their_order_and_the_second_return_is_further_off_where_there_is_room() -> None:
    lessons = lay(topics(10), 30)
    firsts = [weeks_of(topic.named, lessons)[0] for topic in topics(10)]
    assert firsts == sorted(firsts)
    assert firsts[0] == 1
    for topic in topics(10):
        first, back, again = weeks_of(topic.named, lessons)[:3]
        assert again - back >= back - first


def test_no_week_is_left_empty_in_which_a_topic_may_come_back() -> None:
    lessons = lay(topics(2), 40)
    taught = {lesson.week for lesson in lessons}
    for week in set(range(1, 41)) - taught:
        assert all(
            min(abs(week - one) for one in weeks_of(topic.named, lessons)) < LEAST_APART
            or weeks_of(topic.named, lessons)[0] > week
            for topic in topics(2)
        )


@pytest.mark.parametrize("weeks", [LEAST_WEEKS - 1, MOST_WEEKS + 1])
def test_a_course_too_short_or_too_long_is_refused_with_what_would_do(weeks: int) -> None:
    with pytest.raises(CannotPlan, match=rf"{weeks} weeks are asked for.* takes 5 weeks at least, .* 60 at most"):
        lay(topics(1), weeks)


def test_too_many_topics_are_refused() -> None:
    assert lay(topics(MOST_TOPICS), 30)
    with pytest.raises(CannotPlan, match="41 topics are asked for"):
        lay(topics(MOST_TOPICS + 1), 30)


def test_a_topic_rises_in_level_as_far_as_it_has_one_and_asks_no_more_than_it_has() -> None:
    rising = lay(topics(1), 12)
    assert [(one.level, one.exercises) for one in rising][:3] == [(1, NEW), (2, 2), (3, 2)]
    low = lay(topics(1, {2: 1}), 12)
    assert {(one.level, one.exercises) for one in low} == {(2, 1)}


def test_weeks_begin_on_mondays_and_closed_ones_are_left_out() -> None:
    """The days of the week by the calendar of 2026 (ISO 8601: 26 October 2026 is the Monday of week 44)."""
    found = teaching_weeks(date(2026, 10, 21), 3, {date(2026, 10, 30)})
    assert found == (date(2026, 10, 19), date(2026, 11, 2), date(2026, 11, 9))
    assert [day.isocalendar()[:2] for day in found] == [(2026, 43), (2026, 45), (2026, 46)]
