"""A scheme of work as a plain table that a tutor changes: a row a topic and week, out as XLSX and in again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from courseware.course.scheme import MOST_WEEKS, Lesson
from courseware.papers.levels import level_in
from courseware.spreadsheets.rows import Row, TableFaulty, heading_key, repeated_heading, shown_headings
from courseware.spreadsheets.table_in import read_table
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from courseware.text_files.faults import Fault, harmless

WEEK, TOPIC, LEVEL, EXERCISES = "week", "topic", "level", "exercises"
_WANTED = (WEEK, TOPIC, LEVEL, EXERCISES)
_MOST_EXERCISES, _MOST_ROWS, _MOST_FAULTS, _LONGEST = 40, 1000, 50, 300
_ABOUT = (
    "A row is a topic in a week. Change, add and delete rows as your course needs, and save. Then "
    "`courseware issue --week 5` makes papers of the rows of week 5.",
    "topic: a shipped topic by its short name, or a bank's file. level: 1, 2 or 3, or blank for every level. "
    "exercises: how many a paper has of the topic.",
    "The other columns are for reading; what stands in them is not read.",
)


def scheme_workbook(lessons: Sequence[Lesson], mondays: Sequence[date], titles: Mapping[str, str], day: str) -> bytes:
    """The table, with the Monday of each week and what each topic is called; dated `day`."""
    rows = [
        (
            lesson.week,
            mondays[lesson.week - 1].isoformat(),
            titles[lesson.topic],
            meeting_words(lesson.meeting),
            lesson.topic,
            lesson.level,
            lesson.exercises,
            "",
        )
        for lesson in lessons
    ]
    columns = {
        WEEK: 8, "from": 13, "what": 34, "meeting": 18, TOPIC: 28, LEVEL: 8, EXERCISES: 11, "note": 40,
    }  # fmt: skip
    pages = (
        Page(title="Scheme of work", columns=columns, rows=rows),
        Page(title="About", columns={"about this table": 110}, rows=[(line,) for line in _ABOUT]),
    )
    return safe_workbook(pages, day)


def meeting_words(meeting: int) -> str:
    """`new`, then `comes back`, the second time `comes back (2)`.

    >>> [meeting_words(meeting) for meeting in (1, 2, 3)]
    ['new', 'comes back', 'comes back (2)']
    """
    return "new" if meeting == 1 else "comes back" if meeting == 2 else f"comes back ({meeting - 1})"


def read_scheme(data: bytes, file: str) -> tuple[Lesson, ...]:
    """The lessons of a table as a tutor left it. Raises `TableFaulty` with every fault found.

    Which time a topic is met is counted anew.
    """
    rows, _ = read_table(data, file, lambda cells: _columns(cells) is not None)
    headings = next(rows, None)
    columns = _columns(headings.cells) if headings else None
    if headings is None or columns is None:
        told = f"only {shown_headings(headings.cells)}" if headings else "nothing"
        wrong = f"this is no scheme of work: its headings are {told}"
        raise TableFaulty((Fault(file, headings.line if headings else 1, 1, wrong, f"expected {', '.join(_WANTED)}"),))
    if (again := repeated_heading(headings.cells)) is not None:
        wrong = f"the heading {shown_headings(headings.cells[again : again + 1])} stands twice"
        raise TableFaulty((Fault(file, headings.line, again + 1, wrong, "expected each heading once"),))
    lessons: list[Lesson] = []
    faults: list[Fault] = []
    met: dict[str, int] = {}
    for number, row in enumerate(rows, 1):
        if number > _MOST_ROWS:
            faults.append(Fault(file, row.line, 1, f"the table goes on after {_MOST_ROWS} rows", "fewer rows"))
            break
        cells = {name: row.cells[place].strip() if place < len(row.cells) else "" for name, place in columns.items()}
        found = [
            Fault(file, row.line, columns[name] + 1, wrong, expected)
            for name, wrong, expected in _wrong(row, cells, columns)
        ]
        faults += found
        if not found:
            topic = cells[TOPIC]
            met[topic] = met.get(topic, 0) + 1
            lessons.append(
                Lesson(
                    week=int(cells[WEEK]),
                    topic=topic,
                    meeting=met[topic],
                    level=level_in(cells[LEVEL]),
                    exercises=int(cells[EXERCISES]),
                )
            )
    if not lessons and not faults:
        faults.append(Fault(file, headings.line, 1, "no row stands below the headings", "a row a topic and week"))
    if faults:
        raise TableFaulty(tuple(faults[:_MOST_FAULTS]))
    return tuple(lessons)


def _columns(headings: Sequence[str]) -> Mapping[str, int] | None:
    keys = [heading_key(heading) for heading in headings]
    return {name: keys.index(name) for name in _WANTED} if set(_WANTED) <= set(keys) else None


def _wrong(row: Row, cells: Mapping[str, str], columns: Mapping[str, int]) -> Iterator[tuple[str, str, str]]:
    """What is wrong with a row: in which column, what, and what was expected."""
    for name, place in columns.items():
        if place in row.unread:
            yield name, row.unread[place], "expected what is to be read"
    for name, most in ((WEEK, MOST_WEEKS), (EXERCISES, _MOST_EXERCISES)):
        text = cells[name]
        if not (text.isascii() and text.isdigit() and len(text) <= 4 and 1 <= int(text) <= most):
            yield name, f"`{harmless(text)}` stands under {name}", f"expected a number from 1 to {most}"
    if not 1 <= len(cells[TOPIC]) <= _LONGEST:
        yield TOPIC, "no topic stands in this row", "expected a shipped topic's short name, or a bank's file"
    if cells[LEVEL] and level_in(cells[LEVEL]) is None:
        yield LEVEL, f"`{harmless(cells[LEVEL])}` is not a level", "expected 1, 2 or 3, or nothing for every level"
