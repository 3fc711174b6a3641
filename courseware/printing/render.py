"""A sheet's PDF: its template filled with finished text, its drawings made, its margins and working room drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import accumulate
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.banks.part_kinds import kind_places
from courseware.drawings import draw
from courseware.drawings.enlarged import enlarged
from courseware.drawings.foot import possible_words
from courseware.drawings.picture import Label, Picture
from courseware.feedback.feedback_text import FeedbackSheet
from courseware.glossary.sheets import Card, Glossary
from courseware.papers.sheets import AskedExercise, AskedPart, DrawingCall, Grid, Key, Paper, SafetyNote
from courseware.practice.board import Board
from courseware.practice.booklet import Booklet
from courseware.printing.arrangement import Arrangement, arranged, drawing_for
from courseware.printing.engine import LaidOut, lay_out, render
from courseware.printing.feedback_choices import Shown
from courseware.printing.key_rows import figure_wide, first_line, key_drawing, key_rows
from courseware.printing.line_breaks import kept_together
from courseware.printing.page_elements import gauge_scale, print_line, squared, steps_in, working_room
from courseware.printing.page_format import A4, PageFormat, page_for
from courseware.printing.page_margins import page_margins
from courseware.printing.part_kind import INDENT, PRINT_KINDS
from courseware.reports.in_short import cut
from courseware.reports.report import Report

if TYPE_CHECKING:
    from jinja2 import Environment

_ON_BOARD, _BOARD_TYPE = (242.0, 131.0), 8.5  # mm for a drawing on the whiteboard, and of its type: 24 pt
_ON_CARD, _CARD_TYPE = (51.0, 38.8), 3.2  # mm for a drawing on the card, and of its type
_AGAIN_HIGH = 0.3, 0.45, 0.9  # of a page's height: a drawing of a feedback sheet in large type
_FOLDED = ((1, "right"), (4, "left"), (2, "left"), (3, "right"))  # pages of the card: two on a side of the sheet


Sheet = tuple[str, Mapping[str, Picture]]  # a sheet's markup, and its pictures by the names it gives them


def paper_pdf(paper: Paper) -> bytes:
    """The learner's PDF, set as the learner's sheets are; closer where it would take more sides and that saves one."""
    page = page_for(paper.set_as)
    laid = _lay_out_paper(paper, page)
    if page.closer and laid.pages > most_sides(len(paper.exercises)):
        closer = _lay_out_paper(paper, page.closer)
        laid = closer if closer.pages < laid.pages else laid
    return laid.pdf()


def most_sides(exercises: int) -> int:
    """How many sides a paper is to take: two for three exercises."""
    return -(-2 * exercises // 3)


def _lay_out_paper(paper: Paper, page: PageFormat) -> LaidOut:
    bricks = {str(exercise.number): exercise.format for exercise in paper.exercises}

    def margins(number: int, exercises: Sequence[str]) -> Picture:
        shown = [brick for name in exercises if (brick := bricks[name])]
        return page_margins(paper.heading.code, number, shown, page)

    return lay_out(*paper_sheet(paper, page), margins, page)


def key_pdf(key: Key) -> bytes:
    """The tutor's PDF, its lines closer where it would take more sides than half a paper's and that saves one."""
    laid = lay_out(*key_sheet(key))
    if laid.pages > max(1, most_sides(len(key.exercises)) // 2):
        closer = lay_out(*key_sheet(key, closer=True))
        laid = closer if closer.pages < laid.pages else laid
    return laid.pdf()


def paper_sheet(paper: Paper, page: PageFormat = A4) -> Sheet:
    """The learner's sheet before it is laid out, without its margins."""
    set_out = arrangements(paper.exercises, page)
    markup = filled("paper.html", paper=paper, set_out=set_out, scale=page.scale, large=page.large)
    return markup, arranged_pictures(set_out, page)


def key_sheet(key: Key, *, closer: bool = False) -> Sheet:
    """The tutor's sheet before it is laid out."""
    drawings = {exercise.asked.number: key_drawing(exercise) for exercise in key.exercises}
    drawn = {f"drawing-{number}": one.picture for number, one in drawings.items() if one.picture}
    return filled("key.html", key=key, drawings=drawings, closer=closer), {"line": print_line(), **drawn}


def filled(template: str, **words: object) -> str:
    """A template's markup with its words filled in."""
    return _templates().get_template(template).render(**words)


def grid_pdf(grid: Grid) -> bytes:
    """The tutor's class grid as a PDF, on landscape sheets."""
    return render(filled("grid.html", grid=grid), {})


def job_pdf(sheet: Report) -> bytes:
    """One sheet of a job as a PDF."""
    return lay_out_job(sheet).pdf()


def lay_out_job(sheet: Report) -> LaidOut:
    """One sheet of a job on its pages."""
    drawn = {f"block-{n}": block.picture for n, block in enumerate(sheet.blocks, 1) if block.picture}
    return lay_out(filled("job.html", sheet=sheet), {"line": print_line(), **drawn})


def booklet_pdf(booklet: Booklet) -> bytes:
    """The practice booklet as one PDF, its answers on the last pages."""
    set_out = arrangements(booklet.questions)
    examples = dict(enumerate((block.example.drawing for block in booklet.blocks), 1))
    pictures = {
        "scale": gauge_scale(booklet.scale),
        "line": print_line(),
        **arranged_pictures(set_out),
        **_drawn(examples, "example"),
        **_drawn({answer.asked.number: answer.drawing for answer in booklet.answers}, "answer"),
    }
    return render(filled("booklet.html", booklet=booklet, set_out=set_out), pictures)


def board_pdf(board: Board) -> bytes:
    """The pages for the whiteboard as one PDF, each with a drawing drawn as large as the page takes it."""
    return render(filled("board.html", board=board), board_pictures(board))


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
    return render(filled("glossary.html", glossary=glossary), drawn)


def card_pdf(card: Card) -> bytes:
    """The card as a PDF: a sheet of A4 printed on both sides, to be folded to A5."""
    return render(filled("card.html", card=card, folded=_FOLDED), card_pictures(card))


def card_pictures(card: Card) -> dict[str, Picture]:
    """The drawings of a card by the names its template gives them."""
    return {
        f"rule-{page}-{place}": enlarged(rule.picture, _ON_CARD, _CARD_TYPE)
        for page, rules in enumerate(card.pages, 1)
        for place, rule in enumerate(rules, 1)
    }


def lay_out_feedback(sheet: FeedbackSheet, shown: Shown, pictures: Mapping[str, Picture]) -> LaidOut:
    """As much of a learner's feedback as `shown` says, on its pages, with the pictures of this choice."""
    fresh = sheet.fresh if shown.fresh else None
    page = page_for(sheet.set_as)
    markup = filled(
        "feedback.html", sheet=sheet, shown=shown, chosen=shown.of(sheet), fresh=fresh, wide=page.wide / page.scale
    )
    return lay_out(markup, pictures, page=page)


def feedback_pictures(sheet: FeedbackSheet, shown: Shown) -> dict[str, Picture]:
    """Every picture of a feedback sheet by the name its template gives it."""
    page = page_for(sheet.set_as)
    pictures = {"line": print_line()}
    for wrong in shown.of(sheet).worked:
        pictures[f"room-{wrong.label}"] = squared() if wrong.squares else working_room(wrong.unit, 1, page.wide, page)
        if wrong.drawing and shown.beside:
            pictures[f"wrong-{wrong.label}"] = drawing_for(wrong.drawing, page, shown.beside, shares=_AGAIN_HIGH)
    if sheet.fresh and shown.fresh:
        asked, key = sheet.fresh.asked, sheet.fresh.key
        for part in asked.parts:
            pictures |= PRINT_KINDS[part.kind].rooms(
                part, part.marks if part is asked.parts[-1] else 1, page.wide, page
            )
        if asked.drawing:
            pictures[f"drawing-{asked.number}"] = drawing_for(asked.drawing, page, shown.over, shares=_AGAIN_HIGH)
        if key.drawing:
            pictures["answer"] = drawing_for(key.drawing, page, shown.over)
    return pictures


def arrangements(exercises: Sequence[AskedExercise], page: PageFormat = A4) -> dict[int, Arrangement]:
    """How each exercise is set, by its number."""
    return {exercise.number: arranged(exercise, page) for exercise in exercises}


def paper_pictures(paper: Paper, page: PageFormat = A4) -> dict[str, Picture]:
    """The drawings of a paper as large as they come, and the room for each answer over the page's width."""
    found = _drawn({exercise.number: exercise.drawing for exercise in paper.exercises})
    for part in (part for exercise in paper.exercises for part in exercise.parts):
        found |= PRINT_KINDS[part.kind].rooms(part, part.marks, page.wide, page)
    return found


def key_pictures(key: Key) -> dict[str, Picture]:
    """Every drawing of a key, as large as it comes."""
    return _drawn({exercise.asked.number: exercise.drawing for exercise in key.exercises})


def arranged_pictures(set_out: Mapping[int, Arrangement], page: PageFormat = A4) -> dict[str, Picture]:
    """The drawings of exercises and the room for each answer."""
    found = {f"drawing-{number}": one.drawing for number, one in set_out.items() if one.drawing}
    for one in set_out.values():
        for placed in one.placed:
            found |= PRINT_KINDS[placed.part.kind].rooms(placed.part, placed.part.marks, placed.wide, page)
    return found


def margin_words(paper: Paper) -> tuple[str, ...]:
    """The words that the margins of a paper's pages draw, and those of its drawings' scales and legends."""
    pictures = (*(gauge_scale(exercise.format) for exercise in paper.exercises), print_line())
    words = tuple(mark.text for picture in pictures for mark in picture.marks if isinstance(mark, Label))
    drawn = (exercise.drawing for exercise in paper.exercises if exercise.drawing)
    return words + tuple(word for call in drawn for word in sorted(possible_words(draw(call))))


def columns(part: AskedPart, wide: float) -> int:
    """In how many columns the options of a part stand."""
    return A4.columns([says for _, says in part.options], wide - INDENT, PRINT_KINDS[part.kind].before)


def in_two(notes: Sequence[SafetyNote]) -> tuple[Sequence[SafetyNote], Sequence[SafetyNote]]:
    """The notes in two columns of about the same length, in their order."""
    lengths = list(accumulate(len(" ".join((note.title, *note.lines, note.source))) for note in notes))
    half = min(range(len(notes)), key=lambda place: abs(2 * lengths[place] - lengths[-1]), default=0) + 1
    return notes[:half], notes[half:]


def _drawn(drawings: Mapping[int, DrawingCall | None], name: str = "drawing") -> dict[str, Picture]:
    return {f"{name}-{number}": draw(call) for number, call in drawings.items() if call}


def _finished(value: object) -> object:
    """What a template puts in: of finished text, sizes that no line breaks; what is markup already stays."""
    return kept_together(value) if type(value) is str else value


def _templates() -> Environment:
    return _environment((str(Path(__file__).parent / "templates"), *kind_places()))


@lru_cache(maxsize=4)
def _environment(places: tuple[str, ...]) -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    templates = Environment(
        loader=FileSystemLoader(places), autoescape=True, undefined=StrictUndefined, finalize=_finished
    )
    templates.globals |= {
        "steps_in": steps_in, "key_rows": key_rows, "figure_wide": figure_wide, "first_line": first_line,
        "columns": columns, "in_two": in_two, "whole_width": A4.wide, "scale": A4.scale, "cut": cut,
    }  # fmt: skip
    return templates
