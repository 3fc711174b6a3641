"""The pages for the whiteboard as printed: 16 to 9, large, tagged, a page a screen, found by bookmarks."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import page
import pypdfium2
import pytest
from pikepdf import Pdf

from courseware.banks import prove, read_bank
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.compose import Sources, compose_exercise
from courseware.papers.deal import issue_exercise
from courseware.papers.invented import invented_site
from courseware.papers.shares import for_practice
from courseware.practice.board import Board, Lesson, SlipOfClass, compose_board
from courseware.practice.kinds import needs_paper
from courseware.printing.render import board_pdf
from tests.commands.conftest import BANK

GOLDEN = Path(__file__).parent / "golden"
LEAST = 24  # pt on a page 254 mm wide


@pytest.fixture(scope="session")
def boards(space_of) -> dict[str, Board]:
    """A board of every exercise of each shipped topic."""
    banks, notes = read_banks(shipped_banks())
    made: dict[str, Board] = {}
    for bank in banks:
        lessons = []
        for exercise in bank.exercises:
            space = for_practice(space_of(bank, exercise))
            if len(space) and not needs_paper(exercise):
                number = len(lessons) + 1
                issued = issue_exercise(number, bank, exercise, space.variant(0), invented_site(7), "plumb", "board")
                key = compose_exercise(number, issued, Sources(exercises={(bank.topic, exercise.name): (bank, exercise)}, safety=notes))  # fmt: skip
                every = tuple(range(len(key.answers)))
                lessons.append(Lesson(key=key, exercise=exercise.name, parts=every, seen={}))
        made[bank.topic] = compose_board(f"Whiteboard: {bank.topic}", "Questions with their working.", lessons)
    return made


@pytest.fixture(scope="session")
def pdfs(boards) -> dict[str, bytes]:
    return {topic: board_pdf(board) for topic, board in boards.items()}


def test_each_screen_is_a_page_and_none_runs_over(boards, pdfs) -> None:
    """So the presenter's remote shows what it should: every exercise that is shipped, with all its lines."""
    for topic, board in boards.items():
        with Pdf.open(BytesIO(pdfs[topic])) as opened:
            assert len(opened.pages) == len(board.screens), topic
            assert {tuple(map(float, sheet.MediaBox)) for sheet in opened.pages} == {(0, 0, 720, 405)}


Letters = list[tuple[float, tuple[float, float, float, float]]]


@pytest.fixture(scope="session")
def letters(pdfs) -> dict[str, list[Letters]]:
    """By topic, of each page the size in pt of each letter that shows, and where it stands."""
    return {topic: [list(letters_of(sheet)) for sheet in pypdfium2.PdfDocument(pdf)] for topic, pdf in pdfs.items()}


def letters_of(sheet: pypdfium2.PdfPage) -> Iterator[tuple[float, tuple[float, float, float, float]]]:
    read = sheet.get_textpage()
    for place in range(read.count_chars()):
        if read.get_text_range(place, 1).strip():
            yield high(read, place), read.get_charbox(place)


def test_words_are_large_and_nothing_is_near_the_edge(boards, letters) -> None:
    """24 pt and more where a page has words alone; 3 mm and more are left at every edge."""
    for topic, board in boards.items():
        for screen, found in zip(board.screens, letters[topic], strict=True):
            for size, (left, bottom, right, top) in found:
                assert screen.drawing or size >= LEAST, screen
                assert min(left, bottom, 720 - right, 405 - top) > 8.5, screen


def test_drawings_are_large_and_their_words_too(boards, letters) -> None:
    """Half of a drawing's letters have 20 pt and more, and none less than 10: names of a datum, between lines."""
    sizes = sorted(
        size
        for topic, board in boards.items()
        for screen, found in zip(board.screens, letters[topic], strict=True)
        if screen.drawing
        for size, _ in found
    )
    assert sizes[0] >= 10
    assert sizes[len(sizes) // 2] >= 20


def high(read: pypdfium2.PdfTextPage, place: int) -> float:
    """The size of a letter as it stands on the page, in pt: its type's and how much the drawing is enlarged."""
    matrix = pypdfium2.raw.FS_MATRIX()
    assert pypdfium2.raw.FPDFText_GetMatrix(read, place, matrix)
    return pypdfium2.raw.FPDFText_GetFontSize(read, place) * (matrix.a**2 + matrix.b**2) ** 0.5


def test_it_conforms_to_pdf_ua(pdfs) -> None:
    """ISO 14289-1, as the checker `page` of the package page-validation reads it."""
    report = page.validate_pdf_bytes(pdfs["Opening sizes"], profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


def test_questions_and_parts_are_found_from_the_outline(boards, pdfs) -> None:
    for topic, board in boards.items():
        with Pdf.open(BytesIO(pdfs[topic])) as opened, opened.open_outline() as outline:
            found = [(item.title, 1) for item in outline.root]
            inner = sum(len(item.children) for item in outline.root)
        firsts = [screen.heading for screen in board.screens if screen.level == 1]
        assert [title for title, _ in found] == firsts
        assert inner == sum(screen.level == 2 for screen in board.screens)


def test_the_same_board_is_the_same_bytes(boards, pdfs) -> None:
    assert board_pdf(boards["Safe cutting"]) == pdfs["Safe cutting"]


def test_the_words_of_a_board(read_aloud, same_text) -> None:
    """Golden text. Refresh with `pytest tests/printing/test_render_board.py --refresh`, then read the diff."""
    bank = read_bank(BANK.replace("2 to 9", "5 to 40").encode(), "piers.yaml")
    exercise = bank.exercises[0]
    space = for_practice(prove(exercise).space)
    issued = issue_exercise(1, bank, exercise, space.variant(0), invented_site(7), "plumb", "board")
    key = compose_exercise(1, issued, Sources(exercises={(bank.topic, exercise.name): (bank, exercise)}, safety=None))
    seen = {"1a": (SlipOfClass(number=1, says="", papers="seen on 5 of 12 papers"),)}
    lesson = Lesson(key=key, exercise=exercise.name, parts=(0,), seen=seen)
    pdf = board_pdf(compose_board("Whiteboard: Piers", "One question with its working.", [lesson]))
    same_text(GOLDEN / "piers-board.txt", read_aloud(pdf))
