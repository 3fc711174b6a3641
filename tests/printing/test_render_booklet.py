"""The practice booklet as printed: answers at the back alone, tagged, with the furniture of a paper."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO

import page
import pypdfium2
import pytest
from pikepdf import Pdf

from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.key_secrets import secrets, shows
from courseware.papers.shares import for_practice
from courseware.papers.sheets import Heading, Key, Paper
from courseware.practice.booklet import compose_booklet
from courseware.printing.leak_check import page_text
from courseware.printing.render import booklet_pdf, margin_words


@pytest.fixture(scope="session")
def booklet(space_of):
    """A booklet of every shipped topic."""
    banks, notes = read_banks(shipped_banks())
    easiest = [(bank, exercise) for bank in banks for exercise in bank.exercises if exercise.level == 1]
    return compose_booklet(easiest, [for_practice(space_of(*pair)) for pair in easiest], notes, "a seed")


@pytest.fixture(scope="session")
def printed_booklet(booklet) -> bytes:
    return booklet_pdf(booklet)


@pytest.fixture(scope="session")
def front_and_back(printed_booklet) -> tuple[str, str]:
    """What the pages say before the answers, and from there on."""
    with Pdf.open(BytesIO(printed_booklet)) as opened:
        pages = [page_text(sheet) for sheet in opened.pages]
    back = next(number for number, text in enumerate(pages) if "Look here only when you have written your own" in text)
    return "\n".join(pages[:back]), "\n".join(pages[back:])


def test_nothing_of_an_answer_stands_before_the_back(booklet, front_and_back) -> None:
    """What a question's key says and neither its question nor an example does, as papers are read before release."""
    heading = Heading(title="", group="", date="", code="", learner="", reference="", number="", marks=0)
    paper = Paper(heading=heading, exercises=booklet.questions, cautions=())
    key = Key(heading=heading, exercises=booklet.answers, cautions=(), scale=booklet.scale)
    examples = [str(block.example) for block in booklet.blocks]
    hidden = secrets(paper, key, [*margin_words(paper), *examples])
    front, back = front_and_back
    assert len(hidden.figures) > 20
    assert shows(front, hidden) is None
    assert all(shows(back, replace(hidden, figures=frozenset({figure}))) == figure for figure in hidden.figures)


def test_the_back_has_working_and_says_what_a_slip_is(booklet, front_and_back) -> None:
    front, back = ("".join(text.split()) for text in front_and_back)
    answers = [answer for exercise in booklet.answers for part in exercise.answers for answer in part]
    for answer in answers:
        assert all("".join((line.say + "→" + line.figure).split()) in back for line in answer.working if line.figure)
        assert all(f"Ifyougot{''.join((s.figure + ':' + s.says).split())}" in back for s in answer.slips)
    assert "Ifyougot" in front  # named in how to use it
    assert front.count("Ifyougot") == 1


def test_an_example_shows_its_working(booklet, front_and_back) -> None:
    front = "".join(front_and_back[0].split())
    for block in booklet.blocks:
        for answer in (answer for part in block.example.answers for answer in part):
            assert all("".join((line.say + line.figure).split()) in front for line in answer.working)


def test_a_booklet_conforms_to_pdf_ua(printed_booklet) -> None:
    """ISO 14289-1, as the checker `page` of the package page-validation reads it."""
    report = page.validate_pdf_bytes(printed_booklet, profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


def test_it_is_read_in_order_and_tells_what_the_room_is_for(printed_booklet, booklet, read_aloud) -> None:
    said = read_aloud(printed_booklet)
    for topic in (row.topic for row in booklet.rows):
        assert f"Worked example: {topic}" in said
    places = [said.index(words) for words in ("How to use it", "What I am secure in", "Topic by topic", "Mixed questions, first round", "Mixed questions, second round", "\nAnswers\n")]  # fmt: skip
    assert places == sorted(places)
    rooms = sum(part.kind == "number" for question in booklet.questions for part in question.parts)
    assert said.count("[Room for ") == rooms


def test_every_page_has_the_gauge_scale_and_the_100_mm_line(printed_booklet, booklet) -> None:
    with Pdf.open(BytesIO(printed_booklet)) as opened:
        for number, sheet in enumerate(opened.pages, 1):
            text = page_text(sheet)
            assert "Course gauge at true size, 75 mm: UK metric, bed 10 mm" in text
            assert "This line is 100 mm long." in text
            assert f"page {number} of {len(opened.pages)}" in text


def test_its_length_is_two_to_five_pages_a_topic(printed_booklet, booklet) -> None:
    """Answers and how-to included; a topic is an example and three questions of up to five parts."""
    with Pdf.open(BytesIO(printed_booklet)) as opened:
        assert 2 * len(booklet.rows) <= len(opened.pages) <= 5 * len(booklet.rows)


def test_its_parts_are_found_from_the_outline(printed_booklet) -> None:
    with Pdf.open(BytesIO(printed_booklet)) as opened, opened.open_outline() as outline:
        assert [item.title for item in outline.root][-1] == "Answers"


def test_the_same_booklet_is_the_same_bytes(booklet, printed_booklet) -> None:
    assert booklet_pdf(booklet) == printed_booklet


def test_narrow_room_to_work_in_stands_in_twos_beside_a_drawing_or_beside_what_is_asked(printed_booklet) -> None:
    """A room across the page has its box for the answer far from the word `Working`; of narrow ones two may be on a line."""
    twos = 0
    for sheet in pypdfium2.PdfDocument(printed_booklet):
        read = sheet.get_textpage()
        works, answers = ([read.get_charbox(place) for place in found(read, word)] for word in ("Working", "Answer"))
        narrow = [
            (round(work[1]), work[0])
            for work in works
            if any(abs(work[1] - box[1]) < 1 and 0 < box[0] - work[0] < 150 for box in answers)  # points: some 50 mm
        ]
        lines = Counter(y for y, _ in narrow)
        assert set(lines.values()) <= {1, 2}
        twos += sum(count == 2 for count in lines.values())
    assert twos


def found(read: pypdfium2.PdfTextPage, word: str) -> Iterator[int]:
    search = read.search(word, match_case=True, match_whole_word=True)
    while place := search.get_next():
        yield place[0]
