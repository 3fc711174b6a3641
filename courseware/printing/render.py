"""A sheet's PDF: its template filled with finished text, its drawings made, its margins and working room drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import zip_longest
from pathlib import Path
from textwrap import shorten
from typing import TYPE_CHECKING

from courseware.banks.part_kinds import kind_places
from courseware.drawings import draw
from courseware.drawings.enlarged import enlarged
from courseware.drawings.picture import Label, Picture
from courseware.drawings.reduced import reduced
from courseware.feedback.feedback_text import FeedbackSheet
from courseware.glossary.sheets import Card, Glossary
from courseware.papers.sheets import AskedExercise, AskedPart, DrawingCall, Grid, Key, KeyAnswer, Paper
from courseware.practice.board import Board
from courseware.practice.booklet import Booklet
from courseware.printing.engine import LaidOut, lay_out, render
from courseware.printing.page_elements import gauge_scale, print_line, qr, squared, steps_in, working_room
from courseware.printing.part_kind import PRINT_KINDS
from courseware.reports.report import Report

if TYPE_CHECKING:
    from jinja2 import Environment

_BESIDE, _OVER = (91.0, 54.0), (140.0, 66.0)  # mm for a drawing on a feedback sheet: beside words, and over them
_ON_KEY = (120.0, 52.0)  # mm for a drawing on a key
_ON_BOARD, _BOARD_TYPE = (242.0, 131.0), 8.5  # mm for a drawing on the whiteboard, and of its type: 24 pt
_ON_CARD, _CARD_TYPE = (50.0, 38.0), 3.2  # mm for a drawing on the card, and of its type
_FOLDED = ((1, "right"), (4, "left"), (2, "left"), (3, "right"))  # pages of the card: two on a side of the sheet
_FIRST_LINE = 105  # characters of a question that its key repeats
_SHORT = 90  # characters, of a question that stands beside another


def paper_pdf(paper: Paper) -> bytes:
    """The learner's PDF."""
    return render(_templates().get_template("paper.html").render(paper=paper), paper_pictures(paper))


def key_pdf(key: Key) -> bytes:
    """The tutor's PDF."""
    return render(_templates().get_template("key.html").render(key=key), key_pictures(key))


def filled(template: str, **words: object) -> str:
    """A template's markup with its words filled in."""
    return _templates().get_template(template).render(**words)


def grid_pdf(grid: Grid) -> bytes:
    """The tutor's class grid as a PDF, on landscape sheets."""
    return render(_templates().get_template("grid.html").render(grid=grid), {})


def job_pdf(sheet: Report) -> bytes:
    """One sheet of a job as a PDF."""
    return lay_out_job(sheet).pdf()


def lay_out_job(sheet: Report) -> LaidOut:
    """One sheet of a job on its pages."""
    drawn = {f"block-{n}": block.picture for n, block in enumerate(sheet.blocks, 1) if block.picture}
    return lay_out(_templates().get_template("job.html").render(sheet=sheet), {"line": print_line(), **drawn})


def booklet_pdf(booklet: Booklet) -> bytes:
    """The practice booklet as one PDF, its answers on the last pages."""
    return render(_templates().get_template("booklet.html").render(booklet=booklet), booklet_pictures(booklet))


def booklet_pictures(booklet: Booklet) -> dict[str, Picture]:
    """Every picture of a booklet by the name its template gives it."""
    examples = dict(enumerate((block.example.drawing for block in booklet.blocks), 1))
    return {
        "scale": gauge_scale(booklet.scale),
        "line": print_line(),
        **_rooms(booklet.questions),
        **_drawn({question.number: question.drawing for question in booklet.questions}),
        **_drawn(examples, "example"),
        **_drawn({answer.asked.number: answer.drawing for answer in booklet.answers}, "answer"),
    }


def board_pdf(board: Board) -> bytes:
    """The pages for the whiteboard as one PDF, each with a drawing drawn as large as the page takes it."""
    return render(_templates().get_template("board.html").render(board=board), board_pictures(board))


def board_pictures(board: Board) -> dict[str, Picture]:
    """Every picture of the whiteboard's pages by the name its template gives it."""
    return {
        f"screen-{place}": enlarged(draw(screen.drawing), _ON_BOARD, _BOARD_TYPE)
        for place, screen in enumerate(board.screens, 1)
        if screen.drawing
    }


def glossary_pdf(glossary: Glossary) -> bytes:
    """The glossary as a PDF, a picture to each word."""
    drawn = {f"word-{place}": entry.picture for place, entry in enumerate(glossary.entries, 1)}
    return render(_templates().get_template("glossary.html").render(glossary=glossary), drawn)


def card_pdf(card: Card) -> bytes:
    """The card as a PDF: a sheet of A4 printed on both sides, to be folded to A5."""
    markup = _templates().get_template("card.html").render(card=card, folded=_FOLDED)
    return render(markup, card_pictures(card))


def card_pictures(card: Card) -> dict[str, Picture]:
    """The drawings of a card by the names its template gives them."""
    return {
        f"rule-{page}-{place}": enlarged(rule.picture, _ON_CARD, _CARD_TYPE)
        for page, rules in enumerate(card.pages, 1)
        for place, rule in enumerate(rules, 1)
    }


def feedback_pdf(sheet: FeedbackSheet) -> bytes:
    """A learner's feedback sheet; the answer to its fresh question stands on its last page, a left-hand one."""
    return render(_templates().get_template("feedback.html").render(sheet=sheet), feedback_pictures(sheet))


def feedback_pictures(sheet: FeedbackSheet) -> dict[str, Picture]:
    """Every picture of a feedback sheet by the name its template gives it."""
    rooms = {
        f"room-{place}": squared() if wrong.squares else working_room(wrong.unit, 1)
        for place, wrong in enumerate(sheet.wrong, 1)
    }
    small = {
        f"wrong-{place}": reduced(draw(wrong.drawing), _BESIDE)
        for place, wrong in enumerate(sheet.wrong, 1)
        if wrong.drawing
    }
    pictures = {"scale": gauge_scale(sheet.scale), "line": print_line(), "grid": squared(), **rooms, **small}
    if sheet.fresh:
        asked, key = sheet.fresh.asked, sheet.fresh.key
        for part in asked.parts:
            pictures |= PRINT_KINDS[part.kind].rooms(part, part.marks if part is asked.parts[-1] else 1, False)
        over = _OVER if len(asked.parts) < 3 else _BESIDE  # a long question keeps to one page where it can
        for name, call in ((f"drawing-{asked.number}", asked.drawing), ("overleaf", key.drawing)):
            if call:
                pictures[name] = _fitted(call, asked, over)
    return pictures


def paper_pictures(paper: Paper) -> dict[str, Picture]:
    """Every picture of a paper by the name its template gives it."""
    drawings = {exercise.number: exercise.drawing for exercise in paper.exercises}
    return {
        "qr": qr(paper.heading.code),
        "scale": gauge_scale(paper.scale),
        "line": print_line(),
        **_rooms(paper.exercises),
        **_drawn(drawings),
    }


def key_pictures(key: Key) -> dict[str, Picture]:
    """Every picture of a key by the name its template gives it."""
    drawn = {
        f"drawing-{exercise.asked.number}": _fitted(exercise.drawing, exercise.asked, _ON_KEY)
        for exercise in key.exercises
        if exercise.drawing
    }
    return {"line": print_line(), **drawn}


def margin_words(paper: Paper) -> tuple[str, ...]:
    """The words that the margins of a paper's pages draw."""
    pictures = (gauge_scale(paper.scale), print_line())
    return tuple(mark.text for picture in pictures for mark in picture.marks if isinstance(mark, Label))


def _fitted(call: DrawingCall, asked: AskedExercise, room: tuple[float, float]) -> Picture:
    """A drawing no larger than `room`; what is drawn in at true size keeps it."""
    return draw(call) if asked.drawn_in_place else reduced(draw(call), room)


def _rooms(exercises: Sequence[AskedExercise]) -> dict[str, Picture]:
    """The pictures of the room for each answer."""
    found: dict[str, Picture] = {}
    for exercise in exercises:
        for row in side_by_side(exercise.parts):
            for part in row:
                found |= PRINT_KINDS[part.kind].rooms(part, part.marks, len(row) > 1)
    return found


def side_by_side(parts: Sequence[AskedPart]) -> list[tuple[AskedPart, ...]]:
    """The parts in rows: two figures of a mark each that follow one another, shortly asked, stand side by side."""
    rows: list[tuple[AskedPart, ...]] = []
    for part in parts:
        if rows and len(rows[-1]) == 1 and all(map(_short, (part, rows[-1][0]))):
            rows[-1] += (part,)
        else:
            rows.append((part,))
    return rows


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyRow:
    """Half a row of a key's table: words, a figure where there is one, and what it earns."""

    says: str
    figure: str = ""
    earns: str | int = ""


def key_rows(answer: KeyAnswer) -> list[tuple[KeyRow | None, KeyRow | None]]:
    """What to look for, and beside it the slips and what else is to be known."""
    found = [KeyRow(says=line.say, figure=line.figure, earns=line.earns) for line in answer.working]
    found += [KeyRow(says=f"Accept: {one.says}", figure=one.figure, earns=one.earns) for one in answer.accepts]
    beside = [KeyRow(says=slip.says, figure=slip.figure, earns=slip.earns) for slip in answer.slips]
    notes = [KeyRow(says=note) for note in answer.notes]
    return list(zip_longest(found, [*beside, *notes]))


def first_line(text: str, most: int = _FIRST_LINE) -> str:
    """As much of a text as stands on a line, cut between words."""
    return shorten(text, most, placeholder=" …")


def _short(part: AskedPart) -> bool:
    return PRINT_KINDS[part.kind].may_halve and not steps_in(part.marks) and len(part.ask) + len(part.note) <= _SHORT


def _drawn(drawings: Mapping[int, DrawingCall | None], name: str = "drawing") -> dict[str, Picture]:
    return {f"{name}-{number}": draw(call) for number, call in drawings.items() if call}


def _templates() -> Environment:
    return _environment((str(Path(__file__).parent / "templates"), *kind_places()))


@lru_cache(maxsize=4)
def _environment(places: tuple[str, ...]) -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    templates = Environment(loader=FileSystemLoader(places), autoescape=True, undefined=StrictUndefined)
    templates.globals |= {
        "side_by_side": side_by_side, "steps_in": steps_in, "key_rows": key_rows, "first_line": first_line,
    }  # fmt: skip
    return templates
