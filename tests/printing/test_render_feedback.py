"""The feedback sheet as a PDF: tagged, its signs told in words, the fresh question's answer on the last page alone."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from pathlib import Path

import page
import pytest
from pikepdf import Pdf

from courseware.feedback.compose import feedback_sheet
from courseware.feedback.feedback_text import FeedbackSheet
from courseware.marking.marks import How, Mark, MarkedPaper, NamedSlip
from courseware.papers.sheets import KeyAnswer
from courseware.papers.sitting import IssuedExercise, IssuedPart, Sitting
from courseware.printing.leak_check import page_text
from courseware.printing.render import feedback_pdf

GOLDEN = Path(__file__).parent / "golden"
TOPICS = (
    "opening_sizes",
    "sequence_of_work",
    "mitre_template",
    "squaring_and_datums",
)  # every kind of part, and cutting
HOWS: tuple[How, ...] = (
    "slip", "unit", "unknown", "family", "tens", "blank", "rounding", "swapped", "withheld", "elsewhere", "decided",
    "unreached", "asked", "partly", "wrong", "carried", "route",
)  # fmt: skip


def mark(exercise: IssuedExercise, part: IssuedPart, how: How) -> Mark:
    """A mark by hand, reached as `how` says; a slip where the part has one to name."""
    named: tuple[NamedSlip, ...] = ()
    if how in ("slip", "family"):
        taken = part.slips[: 1 if how == "slip" else 2]
        named = tuple(
            NamedSlip(key=f"{exercise.exercise}/{part.name}/{n}", says=s) for n, (_, s) in enumerate(taken, 1)
        )
        how = how if named else "wrong"
    marks = {"right": part.marks, "carried": part.marks, "tens": part.marks - 1, "unit": part.marks - 1}.get(how, 0)
    written = {"blank": "", "right": part.answer}.get(how, part.slips[0][0] if part.slips else "B, A")
    comment = "Show the working <of each> step & its unit" if how == "decided" else ""
    return Mark(label=part.label, marks=marks, of=part.marks, how=how, why="", written=written, slips=named,
                comment=comment)  # fmt: skip


def paper(sitting: Sitting, hows: tuple[How, ...], status: str = "") -> MarkedPaper:
    """Learner 1's paper, its parts reached by `hows` in turn, the others right."""
    marks, turn = [], iter(hows)
    for exercise in sitting.papers[1].exercises:
        marks += [mark(exercise, part, next(turn, "right")) for part in exercise.parts]
    return MarkedPaper(code=sitting.papers[1].code, status=status, marks=tuple(marks))  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def sheet_of(composed, space_of):
    def make(topic: str, hows: tuple[How, ...] = HOWS, status: str = "", exercises: int | None = None) -> FeedbackSheet:
        sitting, sources = composed(topic, exercises)
        spaces = {name: space_of(*pair) for name, pair in sources.exercises.items()}
        return feedback_sheet(sitting, 1, paper(sitting, hows, status), sources, spaces)

    return make


def pages(pdf: bytes) -> list[str]:
    with Pdf.open(BytesIO(pdf)) as opened:
        return [" ".join(page_text(sheet).split()) for sheet in opened.pages]


@pytest.mark.parametrize("hows", [HOWS, HOWS[::-1], ("right",)], ids=["slips first", "others first", "all right"])
@pytest.mark.parametrize("topic", TOPICS)
def test_every_sheet_conforms(sheet_of, topic, hows) -> None:
    """ISO 14289-1 (PDF/UA-1), as the checker `page` of the package page-validation reads it."""
    report = page.validate_pdf_bytes(feedback_pdf(sheet_of(topic, hows)), profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


@pytest.mark.parametrize("topic", TOPICS)
def test_the_answer_stands_on_the_last_page_alone_and_on_the_back_of_a_leaf(sheet_of, topic) -> None:
    sheet = sheet_of(topic)
    assert sheet.fresh
    answers = [answer for part in sheet.fresh.key.answers for answer in part]
    canaries = tuple(replace(a, answer="CANARY", working=(), notes=("CANARY",)) for a in answers)
    key = replace(sheet.fresh.key, answers=tuple(_regrouped(canaries, sheet.fresh.key.answers)))
    pdf = feedback_pdf(replace(sheet, fresh=replace(sheet.fresh, key=key)))
    *front, last = pages(pdf)
    assert last.count("CANARY") >= len(answers)
    assert not any("CANARY" in text for text in front)
    assert len(front) % 2 == 1  # the last is a left-hand page
    with Pdf.open(BytesIO(pdf)) as opened:
        assert b"CANARY" not in b"".join(bytes(str(opened.docinfo.get(n, "")), "utf-8") for n in ("/Title", "/Subject"))


def _regrouped(flat: tuple[KeyAnswer, ...], groups: tuple[tuple[KeyAnswer, ...], ...]):
    rest = list(flat)
    for group in groups:
        yield tuple(rest[: len(group)])
        del rest[: len(group)]


def test_the_fresh_figures_are_not_drawn_before_they_are_asked_for(sheet_of) -> None:
    """The drawing overleaf has the sizes filled in; the one beside the question leaves them blank."""
    sheet = sheet_of("opening_sizes", ("slip",))
    assert sheet.fresh
    assert sheet.fresh.asked.drawing
    answer = sheet.fresh.key.answers[-1][0].answer.split()[0]
    *front, last = pages(feedback_pdf(replace(sheet, wrong=(), secure=())))
    assert answer in last
    assert not any(answer in text.split() for text in front)


def test_marked_lines_are_told_by_sign_and_word_never_by_colour(sheet_of, read_aloud) -> None:
    pdf = feedback_pdf(sheet_of("opening_sizes", ("slip", "tens")))
    told = read_aloud(pdf)
    here = [line for line in told.splitlines() if line.startswith("►")]
    assert here
    assert all("◄" in line for line in here)
    with Pdf.open(BytesIO(pdf)) as opened:
        for sheet in opened.pages:
            colours = {
                line.rsplit(b" ", 1)[0]
                for line in sheet.Contents.read_bytes().splitlines()
                if line.endswith((b" rg", b" RG"))
            }
            assert all(len(set(colour.split())) == 1 for colour in colours)  # black, white and greys


def test_says_it_all_in_one_order(sheet_of, read_aloud, same_text) -> None:
    sheet = sheet_of("opening_sizes", ("carried", "slip", "tens", "decided", "right", "blank"), exercises=3)
    same_text(GOLDEN / "opening-sizes-feedback.txt", read_aloud(feedback_pdf(sheet)))


def test_name_code_and_date_stand_in_the_head(sheet_of) -> None:
    sheet = sheet_of("opening_sizes", ("slip",), exercises=3)
    first = pages(feedback_pdf(sheet))[0]
    for said in ("Łukasz Wójcik", sheet.heading.code, "5 January 2026", sheet.total):
        assert said.replace(" ", "") in first.replace(" ", "")


def test_what_people_typed_stands_as_text(sheet_of) -> None:
    sheet = sheet_of("opening_sizes", ("decided",), exercises=3)
    told = "".join(pages(feedback_pdf(replace(
        sheet, wrong=(replace(sheet.wrong[0], written="<b>&amp;{{ 7 * 7 }}", comment="x" * 900),)
    )))).replace(" ", "")  # fmt: skip
    assert "<b>&amp;{{7*7}}" in told
    assert told.count("x") >= 900


def test_a_page_left_over_becomes_room_for_working(sheet_of) -> None:
    sheet = sheet_of("opening_sizes", ("slip",))
    one = replace(sheet, wrong=sheet.wrong[:1], secure=())
    counts = [len(pages(feedback_pdf(each))) for each in (sheet, one)]
    assert all(count % 2 == 0 for count in counts), "whole leaves"
    rooms = [sum("Room for working" in text for text in pages(feedback_pdf(each))) for each in (sheet, one)]
    assert sum(rooms) >= 1


def test_the_same_sheet_gives_the_same_bytes(sheet_of) -> None:
    sheet = sheet_of("sequence_of_work")
    assert feedback_pdf(sheet) == feedback_pdf(sheet)


def test_a_sheet_without_a_fresh_question_has_its_next_step_and_cautions(sheet_of) -> None:
    told = "".join(pages(feedback_pdf(replace(sheet_of("mitre_template"), fresh=None)))).replace(" ", "")
    assert "Mynextstep" in told
    assert "riskassessment" in told
    assert "overleaf" not in told
