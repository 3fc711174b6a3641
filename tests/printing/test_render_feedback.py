"""The feedback sheet as a PDF: one sheet of two sides, tagged, its signs told in words, the fresh answer upside down."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import page
import pypdfium2
import pytest
from pikepdf import Pdf

from courseware.drawings.picture import Label
from courseware.feedback.compose import feedback_sheet
from courseware.feedback.feedback_text import FeedbackSheet
from courseware.marking.marks import How, Mark, MarkedPaper, NamedSlip
from courseware.papers.sheet_format import read_format
from courseware.papers.sheets import KeyAnswer
from courseware.papers.sitting import IssuedExercise, IssuedPart, Sitting
from courseware.printing.feedback_choices import re_flowed
from courseware.printing.feedback_sheets import feedback_pdf
from courseware.printing.leak_check import page_text
from courseware.printing.page_format import page_for
from courseware.printing.render import feedback_pictures
from courseware.settings.settings import Signed

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
        by = "Marked by J. Marsh, 12 January 2026."
        return feedback_sheet(sitting, 1, paper(sitting, hows, status), sources, spaces, marked_by=by)

    return make


def pages(pdf: bytes) -> list[str]:
    with Pdf.open(BytesIO(pdf)) as opened:
        return [" ".join(page_text(sheet).split()) for sheet in opened.pages]


@pytest.mark.each_value
@pytest.mark.parametrize("hows", [HOWS, HOWS[::-1], ("right",)], ids=["slips first", "others first", "all right"])
@pytest.mark.parametrize("topic", TOPICS)
def test_every_sheet_conforms(sheet_of, topic, hows) -> None:
    """ISO 14289-1 (PDF/UA-1), as the checker `page` of the package page-validation reads it."""
    report = page.validate_pdf_bytes(feedback_pdf(sheet_of(topic, hows)), profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


@pytest.mark.each_value
@pytest.mark.parametrize("hows", [
    ("slip",) * 60, ("right",), ("slip",), ("right", "slip"), HOWS, HOWS * 3, ("blank",) * 60, ("decided",) * 60,
], ids=["all slips", "none", "one", "another", "seventeen", "all kinds", "all blank", "all decided"])  # fmt: skip
@pytest.mark.parametrize("topic", TOPICS)
def test_it_is_one_sheet_of_two_sides_whatever_went_wrong(sheet_of, topic, hows) -> None:
    sheet = sheet_of(topic, hows)
    assert len(pages(feedback_pdf(sheet))) == 2
    signed = replace(
        sheet, signed=Signed(says="This is all my own work. " * 8, signed=("Learner", "Assessor", "Verifier"))
    )
    assert len(pages(feedback_pdf(signed))) == 2


def test_long_words_of_an_assessor_keep_to_two_sides(sheet_of) -> None:
    sheet = sheet_of("opening_sizes", HOWS)
    long = replace(
        sheet,
        comments=tuple((lost.label, "See how the joints were counted. " * 30) for lost in sheet.lost),
        wrong=tuple(replace(one, comment="Look again at the bed joints. " * 33) for one in sheet.wrong),
    )
    assert len(pages(feedback_pdf(long))) == 2


@pytest.mark.parametrize("topic", TOPICS)
def test_the_answer_stands_upside_down_at_the_end_and_nowhere_before(sheet_of, topic, read_aloud) -> None:
    sheet = sheet_of(topic)
    assert sheet.fresh
    answers = [answer for part in sheet.fresh.key.answers for answer in part]
    canaries = tuple(replace(a, answer="CANARY", working=(), notes=("CANARY",)) for a in answers)
    key = replace(sheet.fresh.key, answers=tuple(_regrouped(canaries, sheet.fresh.key.answers)))
    pdf = feedback_pdf(replace(sheet, fresh=replace(sheet.fresh, key=key)))
    before, _, after = read_aloud(pdf).partition("The fresh question, answered")
    assert "CANARY" not in before
    assert "My next step" in before
    assert after.count("CANARY") >= len(answers)
    with Pdf.open(BytesIO(pdf)) as opened:
        assert b"CANARY" not in b"".join(bytes(str(opened.docinfo.get(n, "")), "utf-8") for n in ("/Title", "/Subject"))
        assert turned_text(opened.pages[1]), "half a turn"
        assert not turned_text(opened.pages[0])


_TURN = re.compile(rb"(?:^|\n)-1(?:\.0)? -?[\d.e-]+ -?[\d.e-]+ -1(?:\.0)? [-\d.]+ [-\d.]+ cm")


def turned_text(sheet) -> bool:
    """Whether anything on a page stands on its head: a matrix that turns by half a turn."""
    return bool(_TURN.search(sheet.Contents.read_bytes()))


def _regrouped(flat: tuple[KeyAnswer, ...], groups: tuple[tuple[KeyAnswer, ...], ...]):
    rest = list(flat)
    for group in groups:
        yield tuple(rest[: len(group)])
        del rest[: len(group)]


def test_the_fresh_figures_are_not_drawn_beside_the_question(sheet_of) -> None:
    """The drawing beside the question leaves the sizes asked for blank."""
    sheet = sheet_of("opening_sizes", ("slip",))
    assert sheet.fresh
    assert sheet.fresh.asked.drawing
    answer = sheet.fresh.key.answers[-1][0].answer.split()[0]
    key = replace(sheet.fresh.key, answers=tuple(() for _ in sheet.fresh.key.answers))
    told = pages(feedback_pdf(replace(sheet, wrong=(), lost=(), fresh=replace(sheet.fresh, key=key))))
    assert not any(answer in text.split() for text in told)


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


@pytest.mark.parametrize("topic", TOPICS)
def test_every_part_has_its_mark_and_the_marker_and_the_day_are_named(sheet_of, topic) -> None:
    sheet = sheet_of(topic, HOWS)
    told = "".join(pages(feedback_pdf(sheet))).replace(" ", "")
    assert "MarkedbyJ.Marsh,12January2026." in told
    for one in sheet.marks:
        for part in one.parts:
            assert f"{part.sign}{part.label}{part.marks}".replace(" ", "") in told


def test_open_answers_are_said_to_be_open(sheet_of) -> None:
    sheet = sheet_of("opening_sizes", ("asked", "unknown"))
    told = " ".join(pages(feedback_pdf(sheet)))
    assert "so far" in told
    assert "Still to be settled with your assessor, since it could not be read for certain: " in told
    assert "Provisional until your assessor has looked at the working: " in told


def test_the_same_sheet_gives_the_same_bytes(sheet_of) -> None:
    sheet = sheet_of("sequence_of_work")
    assert feedback_pdf(sheet) == feedback_pdf(sheet)


def test_a_sheet_without_a_fresh_question_has_its_next_step_and_cautions(sheet_of) -> None:
    told = "".join(pages(feedback_pdf(replace(sheet_of("mitre_template"), fresh=None)))).replace(" ", "")
    assert "Mynextstep" in told
    assert "riskassessment" in told
    assert "upsidedown" not in told


@pytest.mark.parametrize("words", ["large-18", "spaced"])
def test_in_a_learners_larger_format_nothing_is_left_out_and_sides_are_as_many_as_it_takes(sheet_of, words) -> None:
    """As the paper was set; what two sides would leave out is there. PDF/UA-1 holds as for all.

    No question stands at a page's foot with its drawing overleaf, nor the turned answer on a page of its own.
    """
    sheet = sheet_of("opening_sizes")
    pdf = feedback_pdf(replace(sheet, set_as=read_format(words)))
    sides = [side.replace(" ", "") for side in pages(pdf)]
    told = "".join(sides)
    assert len(sides) > 2
    assert sheet.fresh.asked.parts[-1].ask.replace(" ", "") in sides[-1]
    for wrong in sheet.wrong[:3]:
        asked = f"{wrong.label}{wrong.topic}{wrong.marks}".replace(" ", "")
        [side] = [side for side in sides if asked in side]
        assert f"Written:{wrong.written.replace(' ', '')}" in side[side.index(asked) :]
    worked = {wrong.label for wrong in sheet.wrong[:3]}
    lines = [lost for lost in sheet.lost if not lost.blank and lost.label not in worked]
    assert lines
    for words_told in (words for lost in lines for words in (lost.says, lost.look)):
        assert words_told.replace(" ", "") in told
    report = page.validate_pdf_bytes(pdf, profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


def test_no_word_of_large_feedback_is_smaller_than_its_format(sheet_of) -> None:
    """But on the line to check the print by, and in drawings where a word has no room to grow, as on papers."""
    sheet = replace(sheet_of("opening_sizes"), set_as=read_format("large-18"))
    small = "".join(letter for size, letter in letters(feedback_pdf(sheet)) if size < 17.95)
    pictures = feedback_pictures(sheet, re_flowed(sheet, page_for(sheet.set_as).wide))
    drawn = {mark.text.replace(" ", "") for one in pictures.values() for mark in one.marks if isinstance(mark, Label)}
    for words in sorted(drawn, key=len, reverse=True):
        small = small.replace(words, "")
    assert small == ""


def letters(pdf: bytes) -> list[tuple[float, str]]:
    """Each letter that shows with its size in pt, as it stands on the page."""
    found = []
    for sheet in pypdfium2.PdfDocument(pdf):
        read = sheet.get_textpage()
        for place in range(read.count_chars()):
            if (letter := read.get_text_range(place, 1)).strip():
                matrix = pypdfium2.raw.FS_MATRIX()
                assert pypdfium2.raw.FPDFText_GetMatrix(read, place, matrix)
                size = pypdfium2.raw.FPDFText_GetFontSize(read, place)
                found.append((size * (matrix.a**2 + matrix.b**2) ** 0.5, letter))
    return found


def test_a_tinted_ground_alone_keeps_to_one_sheet(sheet_of) -> None:
    sheet = sheet_of("opening_sizes")
    tinted = feedback_pdf(replace(sheet, set_as=read_format("cream")))
    assert pages(tinted) == pages(feedback_pdf(sheet))
    with Pdf.open(BytesIO(tinted)) as opened:
        first = opened.pages[0].Contents.read_bytes()
    assert re.search(rb"0\.99\d* 0\.96\d* 0\.87\d* rg", first)  # #fdf5e0
