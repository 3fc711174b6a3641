"""About how many sides a feedback sheet takes, so that what cannot fit is not laid out in vain."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil

from courseware.drawings.picture import Picture
from courseware.feedback.feedback_text import ExerciseMarks, FeedbackSheet, FirstWrong, FreshQuestion
from courseware.papers.sheets import AskedPart
from courseware.printing.feedback_choices import Shown
from courseware.printing.page_format import A4
from courseware.printing.part_kind import PRINT_KINDS

PAGE, _WIDE = 275.0, 182.0  # mm, of a page within its margins, and 5 mm for what is reckoned too high
_LINE, _SMALL = 4.42, 3.9  # mm from line to line, of 10 and of 9 pt
_LETTER, _SMALL_LETTER = 1.64, 1.48  # mm that a letter takes on average
_TITLE, _SUBTITLE = 9.6, 7.2  # mm of a heading with its line and what stands round it
_ROOM = 6.6  # mm round an answer's room: the words over it and what keeps it apart


def likely_sides(sheet: FeedbackSheet, shown: Shown, pictures: Mapping[str, Picture]) -> int:
    """The sides that the pieces of a sheet take one after another; `pictures` are those of this choice."""
    sides, left = 1, PAGE
    for high in _pieces(sheet, shown, pictures):
        if high > left:
            sides, left = sides + 1, PAGE
        left -= high
    return sides


def _pieces(sheet: FeedbackSheet, shown: Shown, pictures: Mapping[str, Picture]) -> Iterator[float]:
    """How high each piece is that does not break over two sides."""
    chosen = shown.of(sheet)
    yield _head(sheet)
    if shown.secure:
        yield _TITLE + _SMALL
        yield from map(_row, sheet.marks)
    else:
        parts = sum(len(one.parts) for one in sheet.marks)
        yield _TITLE + ceil((parts + len(sheet.marks) / 2) * 12.5 / _WIDE) * _SMALL
    for place, wrong in enumerate(chosen.worked):
        yield (0 if place else _TITLE) + _worked(wrong, shown, pictures)
    for place, one in enumerate(chosen.lost[: shown.lines]):
        said = min(len(one.says), shown.words) + min(len(one.look), shown.words) + len(one.written) + 19
        yield (0 if place else _TITLE) + _text(said, _WIDE - 12, 1.55, 4.2) + 0.5
    for place, (_, comment) in enumerate(chosen.comments):
        yield (0 if place else _TITLE) + _text(min(len(comment), shown.comment) + 6) + 0.6
    if chosen.blank or len(chosen.lost) > shown.lines:
        yield 4.7 + (0 if chosen.lost else _TITLE) + _text(len(chosen.blank) * 4, _WIDE, _SMALL_LETTER, 4.2)
    end = 13.5 + (5.4 if sheet.marked_by else 0) + sum(11.4 for _ in sheet.signed.signed)
    end += _text(len(sheet.signed.says)) + 2 if sheet.signed.signed else 0
    if sheet.fresh and shown.fresh:
        asked = [_asked(part, pictures, sheet.fresh.asked.drawn_in_place) for part in sheet.fresh.asked.parts]
        posed = _posed(sheet, sheet.fresh, shown, pictures)
        answer = _answer(sheet.fresh, shown, pictures)
        yield from (end, posed, *asked, answer) if shown.flows else (posed + sum(asked), end + answer)
    else:
        yield end


def _text(letters: int, wide: float = _WIDE, letter: float = _LETTER, line: float = _LINE) -> float:
    return ceil(letters * letter / wide) * line


def _head(sheet: FeedbackSheet) -> float:
    centre = 6.6 if sheet.heading.centre else 0.0
    title = _text(len(sheet.heading.title) + 10, _WIDE, 2.9, 6.5)
    return centre + title + 6 + 9 + sum(_text(len(note), _WIDE, 1.56, 4.2) + 0.8 for note in sheet.notes)


def _row(one: ExerciseMarks) -> float:
    """A row of the table of marks: as high as its highest cell."""
    marks = sum(len(part.label) + len(part.marks) + 4 for part in one.parts)
    widths = ((len(one.topic) + 4, 44.0), (len(one.secure), 68.0), (marks, 64.0))
    return max(_text(max(letters, 1), wide, _SMALL_LETTER, 3.81) for letters, wide in widths) + 0.95


def _worked(wrong: FirstWrong, shown: Shown, pictures: Mapping[str, Picture]) -> float:
    drawing = pictures.get(f"wrong-{wrong.label}")
    wide = _WIDE - drawing.width - 3 if drawing else _WIDE
    said = [wrong.ask, *wrong.says, *(f"The slip {slip}" for slip in wrong.slips), wrong.repeated]
    words = sum(_text(len(text), wide) + 0.6 for text in said if text) + (6.4 if wrong.written else 0)
    words += _text(min(len(wrong.comment), shown.comment) + 14, wide) if wrong.comment else 0
    lead = _text(len(wrong.lead), wide) + 0.8
    beside = drawing is not None and wrong.worked
    across = (92.0 if beside else _WIDE) - (8 + (22 if beside else 34) if wrong.worked else 8)
    lines = sum(_text(len(line.say) + len(line.word) + 4, across, 1.56, 4.2) + 0.9 for line in wrong.lines) + 5
    high = drawing.height + 2 if drawing else 0.0
    inside = max(high, words + lead + lines) if beside else max(high, words) + lead + lines
    return _SUBTITLE + 2 + inside + _ROOM + pictures[f"room-{wrong.label}"].height


def _posed(sheet: FeedbackSheet, fresh: FreshQuestion, shown: Shown, pictures: Mapping[str, Picture]) -> float:
    asked = fresh.asked
    notes = sum(
        _text(len(note.title) + (sum(map(len, note.lines)) + len(note.source) + 10 if shown.safety else 0),
              _WIDE - 3, _SMALL_LETTER, 3.97) + 0.6
        for note in asked.safety
    )  # fmt: skip
    cautions = sum(_text(len(line), _WIDE, _SMALL_LETTER, _SMALL) + 0.8 for line in sheet.cautions)
    posed = _text(len(asked.setting) + len(asked.pose) + 1) + 1.2 + (5.4 if asked.brick else 0)
    drawing = pictures.get(f"drawing-{asked.number}")
    drawn = drawing.height + 2 if drawing else 0.0
    return _TITLE + notes + cautions + posed + drawn


def _asked(part: AskedPart, pictures: Mapping[str, Picture], in_place: bool) -> float:
    """A part with room for its answer: its pictures, or its choices, steps or rows."""
    rooms = [pictures[name].height + 2 for name in (f"work-{part.label}", f"grid-{part.label}") if name in pictures]
    if in_place and not part.lines:
        room = 0.0
    else:
        room = sum(rooms) if rooms else PRINT_KINDS[part.kind].height(part, A4.wide, A4) + 2
    return 1.5 + _text(len(part.ask) + len(part.note), _WIDE - 21) + room


def _answer(fresh: FreshQuestion, shown: Shown, pictures: Mapping[str, Picture]) -> float:
    drawn = shown.working and fresh.key.drawing is not None and fresh.key.drawing.to_draw_in
    high = 4 + 6 + (pictures["answer"].height + 2 if drawn else 0)
    for answers in fresh.key.answers:
        for answer in answers:
            letters = len(answer.label) + len(answer.answer) + len(answer.within) + 4
            letters += sum(len(line.say) + len(line.figure) + 3 for line in answer.working) if shown.working else 0
            letters += sum(len(one.says) + len(one.figure) + 14 for one in answer.accepts)
            letters += sum(len(note) + 2 for note in answer.notes) if shown.working or answer.by_eye else 0
            high += _text(letters, _WIDE, _SMALL_LETTER, 3.81) + 0.5
    return high
