"""What a class practised at home, from the files that learners saved: one sheet and its workbook. No ranks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from courseware.papers.dates import in_full
from courseware.papers.names import same_name
from courseware.practice.saved_file import SavedPractice
from courseware.reports.as_typed import as_typed
from courseware.reports.report import Block, Report, Table
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from courseware.words import count, listed

_NAMED = 2  # slips of a learner named on the sheet; the workbook has all
_COMMON = 12  # slips of the class on the sheet
_MARK = " *"
_ABOUT = (
    "Practice at home, as the learners' own files say it: for a talk with each of them, and for what to teach again. "
    "It is no evidence of what anybody can do: a file shows what was typed on a phone, not by whom."
)
_SECURE = (
    "Secure: right three times without help, on two days or more. A slip still comes until it was put right on five "
    "returns."
)
_ALONE = "No slip of this class is still to come back."


@dataclass(frozen=True, slots=True, kw_only=True)
class CommonSlip:
    """A slip that still comes, where, and to how many learners."""

    says: str
    topic: str
    exercise: str
    learners: int


def newest_of_each(files: Iterable[SavedPractice]) -> tuple[tuple[SavedPractice, ...], tuple[str, ...]]:
    """In order of names, of one phone's files under one name the one saved last; and a note of each left out."""
    newest: dict[tuple[str, int], SavedPractice] = {}
    left: list[str] = []
    for one in sorted(files, key=lambda one: (one.saved, sum(day.questions for day in one.days))):
        key = (same_name(one.name), one.phone)
        if key in newest:
            left.append(f"{newest[key].file} is left out: {one.file} is newer, of the same learner and phone.")
        newest[key] = one
    return tuple(sorted(newest.values(), key=lambda one: (not one.name, same_name(one.name), one.file))), tuple(left)


def common_slips(files: Sequence[SavedPractice]) -> tuple[CommonSlip, ...]:
    """The slips that still come, those of most learners first; one that nobody could name stands by its exercise."""
    learners: dict[tuple[str, str, str], set[int]] = {}
    for place, one in enumerate(files):
        for kind in one.practised:
            for says in kind.slips:
                learners.setdefault((says, kind.topic, kind.exercise), set()).add(place)
    found = [
        CommonSlip(says=says, topic=topic, exercise=exercise, learners=len(who))
        for (says, topic, exercise), who in learners.items()
    ]
    return tuple(sorted(found, key=lambda slip: (-slip.learners, not slip.says, slip.topic, slip.exercise, slip.says)))


def progress_sheet(files: Sequence[SavedPractice], day: str, centre: str) -> Report:
    """The sheet to print; `files` as `newest_of_each` orders them."""
    slips = common_slips(files)
    table = Table(
        headings=("Learner", "Days", "Last on", "Questions", "Right without help", "Secure", "Slips still coming"),
        rows=tuple(_row(one) for one in files),
        widths=(34, 12, 37, 20, 18, 16, 0),
    )
    common = Table(
        headings=("Slip", "Exercise", "Learners"),
        rows=tuple(
            (_said(slip), f"{slip.exercise} ({slip.topic})", f"{slip.learners} of {len(files)}")
            for slip in slips[:_COMMON]
        ),
        widths=(0, 62, 20),
    )
    more = (f"And {len(slips) - _COMMON} more, in the workbook.",) if len(slips) > _COMMON else ()
    return Report(
        file="progress",
        title="Practice of the class",
        centre=centre,
        blocks=(
            Block(text=(f"{count(len(files), 'learner')}, in order of names; {in_full(day)}.", _ABOUT)),
            Block(table=table, text=tuple(_doubtful(files))),
            Block(text=(_SECURE,)),
            Block(heading="Slips that still come", table=common if slips else None, text=more if slips else (_ALONE,)),
        ),
    )


def progress_workbook(files: Sequence[SavedPractice], day: str) -> bytes:
    """The same as a workbook, with every exercise of every learner."""
    learners = [
        (_name(one), len(one.days), _last(one), *_sums(one), _secure(one), len(one.practised), len(_slips(one)),
         "; ".join(one.doubts), one.file)
        for one in files
    ]  # fmt: skip
    exercises = [
        (
            _name(one),
            kind.topic,
            kind.exercise,
            kind.level,
            kind.questions,
            "yes" if kind.secure else "",
            "; ".join(filter(None, kind.slips)),
        )
        for one in files
        for kind in one.practised
    ]
    slips = [(slip.says, slip.topic, slip.exercise, slip.learners) for slip in common_slips(files)]
    days = [(_name(one), day.day.isoformat(), day.questions, day.right) for one in files for day in one.days]
    pages = (
        Page(
            title="Learners",
            columns={"learner": 26, "days": 8, "last on": 12, "questions": 11, "right without help": 12, "secure": 9,
                     "begun": 9, "slips still coming": 12, "not to be relied on": 40, "file": 30},
            rows=learners,
        ),
        Page(title="Slips", columns={"slip": 70, "topic": 26, "exercise": 32, "learners": 10}, rows=slips),
        Page(
            title="Exercises",
            columns={"learner": 26, "topic": 26, "exercise": 32, "level": 8, "questions": 11, "secure": 9,
                     "slips still coming": 70},
            rows=exercises,
        ),
        Page(title="Days", columns={"learner": 26, "day": 12, "questions": 11, "right without help": 12}, rows=days),
        Page(title="About", columns={"about this workbook": 110}, rows=[(line,) for line in (_ABOUT, _SECURE)]),
    )  # fmt: skip
    return safe_workbook(pages, day)


def _row(one: SavedPractice) -> tuple[str, ...]:
    asked, right = _sums(one)
    secure = f"{_secure(one)} of {len(one.practised)}"
    name = as_typed(_name(one)) + (_MARK if one.doubts else "")
    return (name, str(len(one.days)), in_full(_last(one)) or "–", str(asked), str(right), secure, _slips_said(one))


def _slips_said(one: SavedPractice) -> str:
    slips = _slips(one)
    named = [as_typed(says).rstrip(".") for says in dict.fromkeys(filter(None, slips))]
    if not slips:
        return "none"
    more = f"; {len(slips) - _NAMED} more" if len(slips) > _NAMED and named else ""
    return f"{len(slips)}" + (f": {'; '.join(named[:_NAMED])}{more}" if named else "")


def _doubtful(files: Sequence[SavedPractice]) -> Iterator[str]:
    """What is marked, and why."""
    for one in files:
        if one.doubts:
            yield f"* {as_typed(one.file)} ({as_typed(_name(one))}) is not to be relied on: it {listed(one.doubts)}."


def _said(slip: CommonSlip) -> str:
    return as_typed(slip.says).rstrip(".") or "not a slip that is known"


def _name(one: SavedPractice) -> str:
    return one.name or f"no name ({one.file})"


def _last(one: SavedPractice) -> str:
    return one.days[-1].day.isoformat() if one.days else ""


def _sums(one: SavedPractice) -> tuple[int, int]:
    """Questions answered, and right without help."""
    return sum(day.questions for day in one.days), sum(day.right for day in one.days)


def _secure(one: SavedPractice) -> int:
    return sum(kind.secure for kind in one.practised)


def _slips(one: SavedPractice) -> list[str]:
    return [says for kind in one.practised for says in kind.slips]
