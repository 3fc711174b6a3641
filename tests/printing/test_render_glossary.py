"""The glossary and the card as printed: tagged, words large enough, the card folded as it should be."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import page
import pypdfium2
import pytest
from pikepdf import Pdf

from courseware.files.bank_files import shipped_folder, shipped_notes
from courseware.glossary.second_language import SecondLanguage
from courseware.glossary.sheets import Card, Glossary, compose_card, compose_glossary
from courseware.glossary.words_file import read_words
from courseware.printing.leak_check import page_text
from courseware.printing.render import card_pdf, glossary_pdf

GOLDEN = Path(__file__).parent / "golden"
LEAST = 8  # pt


@pytest.fixture(scope="session")
def glossary() -> Glossary:
    words = read_words((shipped_folder() / "glossary" / "words.yaml").read_bytes(), "words.yaml")
    return compose_glossary(
        words, SecondLanguage(tag="ar", words={"bed": "مفصل", "quoin": "زاوية"}, right_to_left=True)
    )


@pytest.fixture(scope="session")
def card() -> Card:
    return compose_card(shipped_notes(), "outline")


@pytest.fixture(scope="session")
def pdfs(glossary, card) -> dict[str, bytes]:
    return {"glossary": glossary_pdf(glossary), "card": card_pdf(card)}


@pytest.mark.parametrize("sheet", ["glossary", "card"])
def test_it_conforms_to_pdf_ua(pdfs, sheet: str) -> None:
    """ISO 14289-1, as the checker `page` of the package page-validation reads it."""
    report = page.validate_pdf_bytes(pdfs[sheet], profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


@pytest.mark.parametrize("sheet", ["glossary", "card"])
def test_no_word_is_smaller_than_8_pt_or_near_the_edge(pdfs, sheet: str) -> None:
    """On the sheet, in its drawings too; printers leave 5 mm blank."""
    for printed in pypdfium2.PdfDocument(pdfs[sheet]):
        read = printed.get_textpage()
        wide, high = printed.get_size()
        for place in range(read.count_chars()):
            if read.get_text_range(place, 1).strip():
                assert size(read, place) >= LEAST - 0.01, read.get_text_range(max(0, place - 20), 40)
                left, bottom, right, top = read.get_charbox(place)
                assert min(left, bottom, wide - right, high - top) > 14.2


def size(read: pypdfium2.PdfTextPage, place: int) -> float:
    matrix = pypdfium2.raw.FS_MATRIX()
    assert pypdfium2.raw.FPDFText_GetMatrix(read, place, matrix)
    return pypdfium2.raw.FPDFText_GetFontSize(read, place) * (matrix.a**2 + matrix.b**2) ** 0.5


def test_the_glossary_has_every_word_in_order_with_its_picture(pdfs, glossary, read_aloud) -> None:
    said = read_aloud(pdfs["glossary"])
    places = [said.index(f"\n{entry.word.word}\n") for entry in glossary.entries]
    assert places == sorted(places)
    assert all(f"[{entry.picture.alt}]" in said and entry.word.says in said for entry in glossary.entries)
    with Pdf.open(BytesIO(pdfs["glossary"])) as opened, opened.open_outline() as outline:
        [title] = outline.root
        assert [item.title for item in title.children] == [entry.word.word for entry in glossary.entries]


def test_a_second_language_stands_beside_its_word_alone(pdfs, glossary) -> None:
    """From right to left at the right of its column; Arabic letters are joined, so they read as other forms of them."""
    with Pdf.open(BytesIO(pdfs["glossary"])) as opened:
        first = page_text(opened.pages[0])
    assert any("\u0600" <= letter <= "\u06ff" or "\ufe70" <= letter <= "\ufeff" for letter in first)
    plain = compose_glossary([entry.word for entry in glossary.entries])
    with Pdf.open(BytesIO(glossary_pdf(plain))) as opened:
        assert not any("\u0600" <= letter <= "\u06ff" for sheet in opened.pages for letter in page_text(sheet))


def test_the_glossary_ends_on_a_full_page() -> None:
    """The shipped words fill five sides, fifteen to each."""
    words = read_words((shipped_folder() / "glossary" / "words.yaml").read_bytes(), "words.yaml")
    with Pdf.open(BytesIO(glossary_pdf(compose_glossary(words)))) as opened:
        assert len(opened.pages) == 5
        assert "weep hole" in page_text(opened.pages[-1])
        assert "soldier" in page_text(opened.pages[-1])


def test_the_card_is_one_sheet_its_front_and_back_outside(pdfs, card) -> None:
    """A4 across; folded in the middle its title is in front, its cautions behind, its second page to the left inside."""
    document = pypdfium2.PdfDocument(pdfs["card"])
    assert len(document) == 2
    for printed in document:
        assert [round(side) for side in printed.get_size()] == [842, 595]
    fold = 842 / 2
    for side, words, right in ((0, "The rules on a card", True), (0, "Silica dust", False), (1, "Course gauge", False), (1, "Decorative courses", True)):  # fmt: skip
        read = document[side].get_textpage()
        place = read.search(words).get_next()
        assert place, words
        assert (read.get_charbox(place[0])[0] > fold) is right, words


def test_nothing_of_a_page_of_the_card_runs_over_the_fold_or_the_foot(pdfs) -> None:
    for printed in pypdfium2.PdfDocument(pdfs["card"]):
        read = printed.get_textpage()
        for place in range(read.count_chars()):
            if read.get_text_range(place, 1).strip():
                left, bottom, right, _ = read.get_charbox(place)
                assert right < 421 - 14 or left > 421 + 14
                assert bottom > 22


def test_the_same_sheets_are_the_same_bytes(pdfs, glossary, card) -> None:
    assert glossary_pdf(glossary) == pdfs["glossary"]
    assert card_pdf(card) == pdfs["card"]


def test_the_words_of_the_card(pdfs, read_aloud, same_text) -> None:
    """Golden text. Refresh with `pytest tests/printing/test_render_glossary.py --refresh`, then read the diff."""
    same_text(GOLDEN / "card.txt", read_aloud(pdfs["card"]))
