"""A scheme of work: a course's weeks over topics, each met first and coming back at least twice, weeks apart.

That what was learned is met again after weeks, at growing distances, is the one idea; the weeks are a start for a tutor
to change. The distances are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from datetime import date, timedelta

MOST_WEEKS, MOST_TOPICS = 60, 40
LEAST_APART = 2  # weeks between two meetings of a topic
_APART = (3, 6)  # weeks to the first and to the second return, where there is room
LEAST_WEEKS = 1 + LEAST_APART * len(_APART)
NEW, BACK = 4, 2  # exercises of a topic met first, and of one that comes back


class CannotPlan(ValueError):
    """A course that cannot be laid out, and what would do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """A topic by the name that its bank is found by, its title, and how many exercises it has of each level."""

    named: str
    title: str
    exercises: Mapping[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """A topic in a week, counted from 1: the first time or one that it comes back, and what a paper has of it.

    `level` None takes exercises of every level.
    """

    week: int
    topic: str
    meeting: int
    level: int | None
    exercises: int


def teaching_weeks(starts: date, weeks: int, without: AbstractSet[date]) -> tuple[date, ...]:
    """The Mondays of so many teaching weeks, those left out in which a day of `without` lies.

    >>> [day.isoformat() for day in teaching_weeks(date(2026, 9, 9), 3, {date(2026, 9, 18)})]
    ['2026-09-07', '2026-09-21', '2026-09-28']
    """
    closed = {_monday(day) for day in without}
    found: list[date] = []
    monday = _monday(starts)
    while len(found) < weeks:
        if monday not in closed:
            found.append(monday)
        monday += timedelta(days=7)
    return tuple(found)


def lay(topics: Sequence[Topic], weeks: int) -> tuple[Lesson, ...]:
    """The topics over so many weeks, in order of the weeks. Raises `CannotPlan` where each cannot come back twice."""
    if not LEAST_WEEKS <= weeks <= MOST_WEEKS:
        raise CannotPlan(
            f"{weeks} weeks are asked for; a topic that comes back twice, {LEAST_APART} weeks apart, takes "
            f"{LEAST_WEEKS} weeks at least, and a course has {MOST_WEEKS} at most"
        )
    if len(topics) > MOST_TOPICS:
        raise CannotPlan(f"{len(topics)} topics are asked for; a course has {MOST_TOPICS} at most")
    met = _returning(_first_meetings(len(topics), weeks), weeks)
    _fill(met, weeks)
    lessons = [
        _lesson(topic, week, meeting)
        for topic, own in zip(topics, met, strict=True)
        for meeting, week in enumerate(own, 1)
    ]
    return tuple(sorted(lessons, key=lambda lesson: (lesson.week, lesson.meeting)))


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _first_meetings(topics: int, weeks: int) -> list[list[int]]:
    """Spread evenly over as many weeks as leave room to come back."""
    span = max(weeks - sum(_APART), weeks - LEAST_APART * len(_APART) if weeks <= sum(_APART) else 1)
    return [[1 + place * span // topics] for place in range(topics)]


def _returning(met: list[list[int]], weeks: int) -> list[list[int]]:
    """Each return near its distance, in a week with little else."""
    load = [0] * (weeks + 1)
    for own in met:
        load[own[0]] += 1
    for back, apart in enumerate(_APART):
        last = weeks - LEAST_APART * (len(_APART) - 1 - back)  # later ones need room too
        for own in met:
            aim = own[-1] + apart
            week = min(
                range(own[-1] + LEAST_APART, last + 1), key=lambda week: (abs(week - aim) + 2 * load[week], week)
            )
            own.append(week)
            load[week] += 1
    return met


def _fill(met: list[list[int]], weeks: int) -> None:
    """Weeks with nothing get the topic not met for longest, where one was met and none is met within the distance."""
    for week in range(1, weeks + 1):
        if any(week in own for own in met):
            continue
        free = [own for own in met if own[0] < week and all(abs(week - one) >= LEAST_APART for one in own)]
        if free:
            longest = min(free, key=lambda own: max(one for one in own if one < week))
            longest.append(week)
            longest.sort()


def _lesson(topic: Topic, week: int, meeting: int) -> Lesson:
    """A level higher at each meeting, as far as the topic has one; no more exercises than it has of it."""
    levels = sorted(level for level, count in topic.exercises.items() if count)
    level = max((one for one in levels if one <= meeting), default=levels[0])
    exercises = min(NEW if meeting == 1 else BACK, topic.exercises[level])
    return Lesson(week=week, topic=topic.named, meeting=meeting, level=level, exercises=exercises)
