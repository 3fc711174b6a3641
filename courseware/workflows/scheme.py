"""A scheme of work laid out from the centre's settings, and read again for a week's papers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TypeAlias

from courseware.banks import Bank, SafetyNotes
from courseware.course.scheme import CannotPlan, Lesson, Topic, lay, teaching_weeks
from courseware.course.scheme_sheet import scheme_sheet
from courseware.course.scheme_workbook import read_scheme, scheme_workbook
from courseware.files.atomic import write_whole
from courseware.files.bank_files import NotFound, find_banks, own_banks, read_banks, read_file, shipped_banks
from courseware.papers.deal import Choosing, Chosen, choose
from courseware.settings.settings import Course, Settings
from courseware.words import listed

PLAN = "scheme-of-work"
_EXAMPLE = 'course: {starts: "2026-09-07", weeks: 30, without: ["2026-10-26"]}'


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A scheme of work as written: its lessons, its weeks, its files."""

    lessons: tuple[Lesson, ...]
    weeks: tuple[date, ...]
    files: tuple[Path, ...]


FindBank: TypeAlias = Callable[[str], Path]  # the file of a topic by the name that a scheme has for it


def by_name_or_path(named: str) -> Path:
    """A shipped topic by its short name, or any file. Raises `NotFound`."""
    return find_banks([named])[0]


def in_folder(work: Path) -> FindBank:
    """Finds shipped topics by short name and the tutor's own by their places in a folder of work, and no other."""
    known = {path.stem: path for path in shipped_banks()}
    known |= {path.relative_to(work).as_posix(): path for path in own_banks(work)}

    def find(named: str) -> Path:
        if named not in known:
            raise NotFound(f"there is no topic {named} in the folder of work; there are {', '.join(known)}")
        return known[named]

    return find


def plan(settings: Settings, out: Path, day: str, *, anew: bool, find: FindBank = by_name_or_path) -> Planned:
    """Lays the centre's course over its weeks and writes the table to change and the sheet to print.

    A table that is there may hold what the tutor changed: it is written over only `anew`. Raises `CannotPlan`,
    `NotFound` and `BankFaulty`.
    """
    if settings.course is None:
        file = settings.file or "centre.yaml"
        raise CannotPlan(f"{file} says nothing of your course; put a line into it such as `{_EXAMPLE}`")
    table = out / f"{PLAN}.xlsx"
    if table.exists() and not anew:
        raise NotFound(f"{table} is there, and may hold your changes; to lay it out anew, say --anew")
    course = settings.course
    topics = _topics(course, settings, find)
    lessons = lay(topics, course.weeks)
    return _written(lessons, mondays_of(course), {topic.named: topic.title for topic in topics}, settings, out, day)


def mondays_of(course: Course) -> tuple[date, ...]:
    """The Monday of each week that is taught."""
    closed = frozenset(map(date.fromisoformat, course.without))
    return teaching_weeks(date.fromisoformat(course.starts), course.weeks, closed)


def lessons_there(table: Path) -> tuple[Lesson, ...]:
    """The lessons of the table as it stands. Raises `NotFound` and `TableFaulty`."""
    if not table.is_file():
        raise NotFound(f"there is no scheme of work {table}; make one with `courseware plan`, or name it with --plan")
    return read_scheme(read_file(table), table.name)


def lessons_of_week(week: int, table: Path) -> tuple[Lesson, ...]:
    """The lessons of a week in the table as it stands. Raises `NotFound` and `TableFaulty`."""
    lessons = lessons_there(table)
    found = tuple(lesson for lesson in lessons if lesson.week == week)
    if not found:
        weeks = sorted({lesson.week for lesson in lessons})
        raise NotFound(f"{table.name} has nothing in week {week}; it has weeks {listed([str(one) for one in weeks])}")
    return found


def keep_table(out: Path, data: bytes) -> tuple[Lesson, ...]:
    """Keeps a table that the tutor changed in place of the one that is there. Raises `TableFaulty`; that one stays."""
    lessons = read_scheme(data, f"{PLAN}.xlsx")
    out.mkdir(parents=True, exist_ok=True)
    write_whole(out / f"{PLAN}.xlsx", data)
    return lessons


def exercises_of(
    lessons: Sequence[Lesson], settings: Settings, seed: str, find: FindBank = by_name_or_path
) -> tuple[tuple[tuple[str, Chosen], ...], SafetyNotes | None]:
    """The exercises of a week by a secret seed, rising in level, each with what the scheme calls its topic."""
    banks, notes = bank_of_each([lesson.topic for lesson in lessons], settings, find)
    chosen: dict[tuple[str, str], tuple[str, Chosen]] = {}
    for lesson in lessons:
        of_topic = choose((banks[lesson.topic],), Choosing(level=lesson.level, exercises=lesson.exercises), seed)
        chosen |= {(bank.topic, exercise.name): (lesson.topic, (bank, exercise)) for bank, exercise in of_topic}
    return tuple(sorted(chosen.values(), key=lambda one: one[1][1].level)), notes


def bank_of_each(
    named: Sequence[str], settings: Settings, find: FindBank = by_name_or_path
) -> tuple[Mapping[str, Bank], SafetyNotes | None]:
    """The bank by each name of a topic, and the safety notes that go with them. Raises `NotFound` and `BankFaulty`."""
    paths = {name: find(name) for name in named}
    banks, notes = read_banks(tuple(dict.fromkeys(paths.values())), settings)
    if strange := [name for name, path in paths.items() if path.name not in {bank.file for bank in banks}]:
        raise NotFound(f"{strange[0]} holds no exercises")
    places = dict(zip(dict.fromkeys(paths.values()), banks, strict=True))
    return {name: places[path] for name, path in paths.items()}, notes


def _topics(course: Course, settings: Settings, find: FindBank) -> tuple[Topic, ...]:
    named = course.topics or tuple(path.stem for path in shipped_banks())
    banks = bank_of_each(named, settings, find)[0]
    return tuple(_topic(name, banks[name]) for name in named)


def _topic(named: str, bank: Bank) -> Topic:
    return Topic(named=named, title=bank.topic, exercises=Counter(exercise.level for exercise in bank.exercises))


def _written(
    lessons: tuple[Lesson, ...],
    weeks: tuple[date, ...],
    titles: dict[str, str],
    settings: Settings,
    out: Path,
    day: str,
) -> Planned:
    from courseware.printing.render import job_pdf

    out.mkdir(parents=True, exist_ok=True)
    sheet = job_pdf(scheme_sheet(lessons, weeks, titles, settings))
    made = {f"{PLAN}.xlsx": scheme_workbook(lessons, weeks, titles, day), f"{PLAN}.pdf": sheet}
    for name, data in made.items():
        write_whole(out / name, data)
    return Planned(lessons=lessons, weeks=weeks, files=tuple(out / name for name in made))
