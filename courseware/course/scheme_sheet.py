"""A scheme of work to print: the chart of topics by weeks, then week by week."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from courseware.course.scheme import Lesson
from courseware.course.scheme_chart import scheme_chart
from courseware.reports.report import Block, Report, Table
from courseware.settings.settings import Settings
from courseware.words import count

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "June", "July", "Aug", "Sept", "Oct", "Nov", "Dec")
_READ = (
    "N: the topic is new in this week. 1, 2, …: it comes back for the first, the second time: after weeks, at growing "
    "distances, and a level higher as far as it has one.",
    "This is a start. Change the workbook beside this sheet: papers for a week are made from what stands there.",
)


def scheme_sheet(
    lessons: Sequence[Lesson], mondays: Sequence[date], titles: Mapping[str, str], settings: Settings
) -> Report:
    """The sheet, with the Monday of each week and what each topic is called."""
    weeks = [_week(week, monday, lessons, titles) for week, monday in enumerate(mondays, 1)]
    return Report(
        file="scheme-of-work",
        title="Scheme of work",
        centre=settings.name,
        blocks=(
            Block(text=_READ, picture=scheme_chart(lessons, titles, len(mondays))),
            Block(
                heading=f"{count(len(mondays), 'week')}",
                table=Table(headings=("Week", "From", "New", "Comes back"), rows=tuple(weeks), widths=(14, 27, 64, 0)),
            ),
        ),
    )


def _week(week: int, monday: date, lessons: Sequence[Lesson], titles: Mapping[str, str]) -> tuple[str, ...]:
    own = [lesson for lesson in lessons if lesson.week == week]
    new = "; ".join(_what(lesson, titles) for lesson in own if lesson.meeting == 1)
    back = "; ".join(_what(lesson, titles) for lesson in own if lesson.meeting > 1)
    free = "" if own else "nothing to calculate: practical work, or what the class needs"
    return str(week), f"{monday.day} {_MONTHS[monday.month - 1]} {monday.year}", new, back or free


def _what(lesson: Lesson, titles: Mapping[str, str]) -> str:
    level = f"level {lesson.level}, " if lesson.level else ""
    return f"{titles[lesson.topic]} ({level}{count(lesson.exercises, 'exercise')})"
