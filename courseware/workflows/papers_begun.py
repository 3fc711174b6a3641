"""Papers begun and not issued yet: who gets them, which exercises, how they are set; kept in the folder of work."""

from __future__ import annotations

import re
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from courseware.course.scheme import Lesson
from courseware.files.atomic import PRIVATE, one_at_a_time, write_whole
from courseware.files.bank_files import NotFound, own_banks, read_file, shipped_banks
from courseware.files.sitting_folders import read_folder
from courseware.papers.class_list import MOST_LEARNERS
from courseware.papers.sheet_format import LONGEST_FORMAT, FormatUnknown, SheetFormat, read_format
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_checks import LONGEST_TITLE, is_plain
from courseware.papers.sitting_file import SittingFaulty
from courseware.papers.titles import week_title
from courseware.settings.settings import Settings
from courseware.workflows.class_lists import open_list
from courseware.workflows.exercises_at_hand import Pick
from courseware.workflows.issue import (
    Issued,
    IssueOptions,
    group_of,
    groups_by_level,
    issue_by_level,
    issue_sitting,
)
from courseware.workflows.issuing import folder_name
from courseware.workflows.scheme import exercises_of, in_folder
from courseware.workflows.watch import Watch

BEGUN = "begun"
MOST_EXERCISES = 40
_KEY = re.compile(r"[0-9a-f]{8}")


class NotReady(NotFound):
    """Papers that cannot be issued yet, or an entry that cannot be; the message says what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PapersBegun:
    """What was chosen so far; '' and 0 where nothing was.

    Papers go to a class list kept in the folder of work, or to so many `learners` without names. `by_level` gives each
    learner of the list a paper of their own level, of so many `exercises`, drawn from the topics of the picks.
    """

    class_list: str = ""
    learners: int = 0
    read: tuple[str, ...] = ()  # what was left out of the list when it was taken in
    picks: tuple[Pick, ...] = ()
    title: str = ""
    date: str = ""  # ISO 8601; '' is the day on which they are issued
    due: str = ""  # ISO 8601: when papers are to be handed in
    group_name: str = ""
    sheets: str = ""  # the words of a format
    word: bool = False
    by_level: bool = False
    exercises: int = 0
    seed: str = ""
    issuing: bool = False  # it was begun to issue them as they stand


def begin_papers(work: Path, papers: PapersBegun | None = None) -> str:
    """Begins papers. Returns the key by which they are found."""
    key = secrets.token_hex(4)
    keep_papers(work, key, papers or PapersBegun())
    return key


def begin_week(work: Path, week: int, lessons: Sequence[Lesson], settings: Settings) -> str:
    """Begins the papers of a week of a scheme of work. Returns the key by which they are found."""
    chosen, _ = exercises_of(lessons, settings, secrets.token_hex(32), in_folder(work))
    topics = list(dict.fromkeys(bank.topic for _, (bank, _) in chosen))
    picks = tuple(Pick(bank=named, exercise=exercise.name) for named, (_, exercise) in chosen)
    return begin_papers(work, PapersBegun(picks=picks, title=week_title(week, topics)))


def begun(work: Path) -> tuple[tuple[str, PapersBegun], ...]:
    """All papers begun that can be read, the latest first."""
    files = [file for file in (work / BEGUN).glob("*.json") if _KEY.fullmatch(file.stem)]
    files.sort(key=lambda file: (-file.stat().st_mtime_ns, file.name))
    found = []
    for file in files:
        try:
            found.append((file.stem, papers_begun(work, file.stem)))
        except NotFound:
            continue
    return tuple(found)


def papers_begun(work: Path, key: str) -> PapersBegun:
    """The papers of that key. Raises `NotFound`."""
    from pydantic import TypeAdapter, ValidationError

    file = work / BEGUN / f"{key}.json"
    if not _KEY.fullmatch(key) or not file.is_file():
        raise NotFound("these papers are not begun any more; they were issued or put away")
    try:
        return TypeAdapter(PapersBegun).validate_json(read_file(file))
    except ValidationError:
        raise NotFound(f"{file} was changed by hand and cannot be read; begin again") from None


def keep_papers(work: Path, key: str, papers: PapersBegun) -> None:
    """Keeps them as they are now."""
    from pydantic import TypeAdapter

    (work / BEGUN).mkdir(parents=True, exist_ok=True)
    write_whole(work / BEGUN / f"{key}.json", TypeAdapter(PapersBegun).dump_json(papers, indent=1) + b"\n", PRIVATE)


def change_papers(work: Path, key: str, **changed: Any) -> PapersBegun:
    """Changes some of what was chosen, each window its own. Raises `NotFound`."""
    with one_at_a_time(work / BEGUN, lambda: None):
        papers = replace(papers_begun(work, key), **{"issuing": False, **changed})
        keep_papers(work, key, papers)
    return papers


def put_away(work: Path, key: str) -> None:
    """Forgets papers begun."""
    papers_begun(work, key)
    (work / BEGUN / f"{key}.json").unlink(missing_ok=True)


def put_away_issued(work: Path, sitting: Sitting) -> None:
    """Forgets the papers begun of which this sitting came, after a run that was stopped while it issued them."""
    exercises = tuple(one.exercise for one in sitting.papers[0].exercises)
    for key, papers in begun(work):
        same = tuple(one.exercise for one in papers.picks) == exercises and papers.date in ("", sitting.date)
        if papers.issuing and not papers.by_level and same:
            put_away(work, key)


def pick(work: Path, key: str, one: Pick, *, on: bool) -> PapersBegun:
    """Puts an exercise on the paper, after the others, or takes it off. Raises `NotReady` where that cannot be."""
    picks = tuple(other for other in papers_begun(work, key).picks if other != one)
    if on and len(picks) >= MOST_EXERCISES:
        raise NotReady(f"a paper has at most {MOST_EXERCISES} exercises; take one off first")
    same = next((other for other in picks if on and other.exercise == one.exercise), None)
    if same:
        raise NotReady(f"an exercise of that name, from {same.bank}, is on the paper already; take it off first")
    return change_papers(work, key, picks=(*picks, one) if on else picks)


def move(work: Path, key: str, one: Pick, by: int) -> PapersBegun:
    """Moves an exercise so many places down, or up; at an end it stays there."""
    picks = list(papers_begun(work, key).picks)
    if one in picks:
        place = picks.index(one)
        picks.insert(min(max(place + by, 0), len(picks) - 1), picks.pop(place))
    return change_papers(work, key, picks=tuple(picks))


def entries_wrong(asked: Mapping[str, str]) -> dict[str, str]:
    """What is wrong with the settings of a paper as they were typed, by the name of each."""
    wrong: dict[str, str] = {}
    for name in ("title", "group_name", "seed"):
        if not is_plain(asked.get(name, ""), LONGEST_TITLE):
            wrong[name] = f"Use at most {LONGEST_TITLE} characters, all of which can be seen."
    for name in ("date", "due"):
        if not _is_day(asked.get(name, "")):
            wrong[name] = "Write the date as 2026-11-25."
    if not wrong and asked.get("due") and asked["due"] < (asked.get("date") or date.today().isoformat()):
        wrong["due"] = "This is before the day of the papers."
    try:
        read_format(asked.get("sheets", "")[: LONGEST_FORMAT + 1])
    except FormatUnknown as unknown:
        wrong["sheets"] = f"{unknown}."
    return wrong


def _is_day(typed: str) -> bool:
    try:
        return not typed or date.fromisoformat(typed).isoformat() == typed
    except ValueError:
        return False


def sheets_of(papers: PapersBegun) -> SheetFormat:
    """How the sheets of every learner are set whose list says no other."""
    return read_format(papers.sheets)


def missing(work: Path, papers: PapersBegun) -> dict[str, str]:
    """What still has to be done before these papers can be issued, by the step at which it is."""
    found: dict[str, str] = {}
    if papers.class_list:
        try:
            checked = open_list(work, papers.class_list).checked
        except (NotFound, ValueError) as gone:
            found["who"] = f"The class list cannot be read: {gone}."
        else:
            if checked.found is None:
                found["who"] = "The class list has rows to be mended first."
            elif papers.by_level and not checked.levels:
                found["settings"] = "Not every learner of the list has a level."
    elif not 1 <= papers.learners <= MOST_LEARNERS:
        found["who"] = "Say who gets papers."
    if not papers.picks:
        found["exercises"] = "Choose the exercises."
    return found


def issue_begun(
    work: Path, key: str, out: Path, settings: Settings, processes: int, watch: Watch, *, by: str = "",
    for_approval: bool = False,
) -> tuple[Issued, ...]:  # fmt: skip
    """Issues papers begun, exactly as the command does with the same choices, and puts what was begun away.

    A sitting, or one a level; where they are `for_approval`, dealt and not printed yet. Raises `NotReady`, and what
    the issuing of sittings does.
    """
    papers = papers_begun(work, key)
    if left := missing(work, papers):
        raise NotReady(" ".join(left.values()).rstrip("."))
    list_file = open_list(work, papers.class_list).file if papers.class_list else None
    change_papers(work, key, issuing=True)
    day = papers.date or date.today().isoformat()
    named = banks_named(work, papers)
    options = IssueOptions(
        out=out,
        settings=settings,
        processes=processes,
        title=papers.title or None,
        seed=papers.seed or None,
        exercises=(papers.exercises or None) if papers.by_level else None,
        picked=() if papers.by_level else tuple(one.exercise for one in papers.picks),
        for_approval=for_approval,
        due=papers.due,
        by=by,
        word=papers.word,
        sheets=sheets_of(papers),
    )
    if papers.by_level and list_file is not None:
        groups = groups_by_level(list_file, papers.group_name or None, watch)
        issued = tuple(issue_by_level(named, groups, day, options, watch))
    else:
        group = group_of(list_file, papers.learners or 1, papers.group_name or None, watch)
        issued = (issue_sitting(named, group, day, options, watch),)
    put_away(work, key)
    return issued


def made_already(out: Path, day: str, title: str, group: str) -> str:
    """The code of a sitting of that day, title and group; '' where there is none, or it cannot be read."""
    try:
        return read_folder(out / folder_name(day, title, group)).sitting.code
    except SittingFaulty:
        return ""


def banks_named(work: Path, papers: PapersBegun) -> tuple[str, ...]:
    """The files of the banks that the picks are from, in their order."""
    files = {path.stem: path for path in shipped_banks()}
    files |= {path.relative_to(work).as_posix(): path for path in own_banks(work)}
    keys = tuple(dict.fromkeys(one.bank for one in papers.picks))
    if gone := [key for key in keys if key not in files]:
        raise NotFound(f"the bank {gone[0]} is not there any more; take its questions off the paper")
    return tuple(str(files[key]) for key in keys)
