"""Pages for the whiteboard as finished text: question, drawing, working a line at a time, slips to talk about.

A screen is a page of the PDF, so the presenter's remote goes on by a page. Each screen of a working has one line more
than the one before; where they fill it, the last lines go over to the next.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from textwrap import shorten, wrap

from courseware.papers.compose import CAUTIONS
from courseware.papers.sheets import AskedPart, DrawingCall, KeyAnswer, KeyExercise, SafetyNote
from courseware.practice.booklet import unmarked
from courseware.reports.words import plain
from courseware.words import listed

_ROOM = 9.2  # lines of type below a heading: with more the page would run over
_ACROSS, _BESIDE_FIGURE, _AFTER_LETTER, _FIGURE = 50, 31, 41, 15  # letters on a line of words, and of a figure
_SHARES = 24  # of a screen: how finely entries are shared out over screens
_BETWEEN = 0.26  # of a line, below each entry
_LEAD = 90  # letters of a question that stay above its working
_SENTENCES = re.compile(r"(?<=[.?!]) +")


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """An entry of a screen: words, with a letter before them or a figure at their end."""

    says: str
    figure: str = ""
    letter: str = ""
    strong: bool = False  # an answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """A page. `level` is that of its bookmark, 0 where it has none; a drawing has the page to itself."""

    heading: str = ""
    level: int = 0
    lines: tuple[Line, ...] = ()
    grows: bool = False  # whether its last line is new beside those of the screen before
    drawing: DrawingCall | None = None
    alt: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """The pages in their order."""

    title: str
    screens: tuple[Screen, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipOfClass:
    """A slip that the class showed: its place among the slips of its part, from 1, if it has one there; its words."""

    number: int | None
    says: str
    papers: str  # "5 of 12 papers"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """An exercise to go through: its key, the places from 0 of the parts that are worked, and what the class showed."""

    key: KeyExercise
    exercise: str
    parts: tuple[int, ...]
    seen: Mapping[str, tuple[SlipOfClass, ...]]  # by label


def compose_board(title: str, about: str, lessons: Sequence[Lesson]) -> Board:
    """The screens of these lessons. A safety note stands where it comes first alone."""
    screens = list(_flowing(title, 1, [Line(says=about), *(Line(says=line) for line in CAUTIONS)]))
    told: set[SafetyNote] = set()
    for lesson in lessons:
        notes = [note for note in lesson.key.asked.safety if note not in told]
        told |= set(notes)
        screens += _lesson(lesson, notes)
    return Board(title=title, screens=tuple(screens))


def height(line: Line) -> float:
    """How many lines of type an entry takes, by the number of its letters."""
    across = _BESIDE_FIGURE if line.figure else _AFTER_LETTER if line.letter else _ACROSS
    if line.strong:
        across, figures = int(across * 0.9), int(_FIGURE * 0.9)  # bold letters are wider
    else:
        figures = _FIGURE
    return max(len(wrap(line.says, across)), ceil(len(line.figure) / figures)) + _BETWEEN


def _lesson(lesson: Lesson, notes: Sequence[SafetyNote]) -> Iterator[Screen]:
    key = unmarked(lesson.key)
    asked = key.asked
    name = f"{asked.number} {_title(lesson.exercise)}"
    posed = _SENTENCES.split(f"{asked.setting} {asked.pose}".strip())
    brick = [Line(says=f"{asked.brick}.")] if asked.brick else []
    yield from _flowing(name, 1, [*(Line(says=sentence) for sentence in posed), *brick])
    for note in notes:
        source = [Line(says=f"Source: {note.source}")] if note.source else []
        yield from _flowing(f"Take care: {note.title}", 0, [*(Line(says=line) for line in note.lines), *source])
    if asked.drawing:
        yield Screen(drawing=asked.drawing, alt=asked.drawing.alt)
    known = [
        _known(part, answer)
        for place, (part, answers) in enumerate(key.by_part)
        if place not in lesson.parts and place < max(lesson.parts)
        for answer in answers
        if not answer.by_eye
    ]
    yield from _flowing(f"{asked.number}: worked out already", 0, known)
    for place in lesson.parts:
        yield from _part(*key.by_part[place], lesson.seen)
    if key.drawing and key.drawing != asked.drawing:
        yield Screen(drawing=key.drawing, alt=key.drawing.alt_filled)


def _known(asked: AskedPart, answer: KeyAnswer) -> Line:
    """A part that the class need not work out again, with its answer."""
    says = _asks(asked, answer)
    if answer.chosen:
        return Line(says=f"{says} {listed(answer.chosen)}.")
    return Line(says=says, figure=answer.answer)


def _part(
    asked: AskedPart, answers: Sequence[KeyAnswer], seen: Mapping[str, tuple[SlipOfClass, ...]]
) -> Iterator[Screen]:
    note = [Line(says=f"({asked.note})")] if asked.note else []
    options = [Line(letter=letter, says=says) for letter, says in asked.options]
    rows = [Line(letter=row.label, says=row.say) for row in asked.rows]
    yield from _flowing(f"Part {asked.label}", 2, [Line(says=asked.ask), *note, *options, *rows])
    for answer in answers:
        lead = Line(says=shorten(_asks(asked, answer), _LEAD, placeholder=" …"))
        yield from _revealed(f"Part {answer.label}: working", lead, _found(asked, answer))
        yield from _flowing(
            f"Part {answer.label}: to talk about", 2, _to_talk_about(answer, seen.get(answer.label, ()))
        )


def _asks(asked: AskedPart, answer: KeyAnswer) -> str:
    """What a part asks, or a row of its table."""
    return next((row.say for row in asked.rows if row.label == answer.label), asked.ask)


def _found(asked: AskedPart, answer: KeyAnswer) -> list[Line]:
    """The working and the answer, in the order in which they are shown."""
    if answer.by_eye:
        return [Line(says=point) for point in answer.notes]
    words = dict(asked.options)
    if words and not answer.chosen:  # an order: a step at a time
        return [Line(letter=letter, says=words[letter], strong=True) for letter in answer.answer.split(", ")]
    lines = [Line(says=line.say, figure=line.figure) for line in answer.working]
    if words:
        right = [letter for letter, says in asked.options if says in answer.chosen]
        return [*lines, *(Line(letter=letter, says=words[letter], strong=True) for letter in right)]
    return [*lines, Line(says="Answer", figure=f"{answer.answer} {answer.within}".strip(), strong=True)]


def _to_talk_about(answer: KeyAnswer, seen: Sequence[SlipOfClass]) -> list[Line]:
    """What the class showed first, then every other slip, other routes and notes."""
    slips, notes = dict(enumerate(answer.slips, 1)), list(answer.notes)
    lines: list[Line] = []
    for one in seen:
        slip = slips.pop(one.number, None) if one.number else None
        note = next((note for note in notes if slip is None and note.endswith(one.says)), None)
        if note:
            notes.remove(note)
        says = slip.says if slip else note or one.says
        lines.append(Line(says=f"{says} ({one.papers})", figure=slip.figure if slip else ""))
    lines += [Line(says=slip.says, figure=slip.figure) for slip in slips.values()]
    lines += [
        Line(says=f"Also right: {one.says}", figure=one.figure) for one in answer.accepts if one.figure != answer.answer
    ]
    return lines if answer.by_eye else [*lines, *(Line(says=note) for note in notes)]


def _flowing(heading: str, level: int, lines: Sequence[Line]) -> Iterator[Screen]:
    """As few screens with these entries as may be, about alike full; none where there are no entries."""
    fewest = len(_screens(lines, _ROOM))
    shares = (_ROOM * share / _SHARES for share in range(1, _SHARES + 1))
    for screen in next(cut for room in shares if len(cut := _screens(lines, room)) == fewest):
        yield Screen(heading=heading, level=level, lines=screen)
        level = 0


def _screens(lines: Sequence[Line], room: float) -> list[tuple[Line, ...]]:
    """The entries screen by screen, each as full as so many lines of type let it be."""
    left, cut = tuple(lines), []
    while left:
        taken = _fitting(left, room)
        cut.append(left[:taken])
        left = left[taken:]
    return cut


def _revealed(heading: str, lead: Line, lines: Sequence[Line]) -> Iterator[Screen]:
    """A screen for each entry, those before it staying as far as there is room."""
    start = 0
    for end in range(1, len(lines) + 1):
        if end - start > _fitting(lines[start:end], _ROOM - height(lead)):
            start = end - 2 if _fitting(lines[end - 2 : end], _ROOM - height(lead)) > 1 else end - 1
        yield Screen(heading=heading, lines=(lead, *lines[start:end]), grows=True)


def _fitting(lines: Sequence[Line], room: float) -> int:
    """How many of the entries so many lines of type take: one at least."""
    for place, line in enumerate(lines):
        room -= height(line)
        if room < 0 and place:
            return place
    return len(lines)


def _title(exercise: str) -> str:
    words = plain(exercise)
    return words[:1].upper() + words[1:]
