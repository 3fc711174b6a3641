"""Our own markup as DOCX, read back by python-docx."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pytest
from docx import Document
from docx.oxml.ns import qn

from courseware.drawings.picture import Picture, Stroke
from courseware.printing.docx_writer import docx

LINE = Picture(width=60, height=20, alt="", marks=(Stroke(outlines=(((0, 10), (60, 10)),)),))


def read(body: str, **pictures: Picture) -> Any:
    markup = f"<html><head><title>Piers</title></head><body>{body}</body></html>"
    made = docx(markup, pictures)
    assert made == docx(markup, pictures)
    return Document(BytesIO(made))


def test_headings_paragraphs_and_bold_words() -> None:
    found = read("<h1>Piers</h1><div><h2>1 Gauge</h2><p>How <b>long</b> is\n it?</p></div>")
    assert [(p.style.name, p.text) for p in found.paragraphs] == [
        ("Heading 1", "Piers"), ("Heading 2", "1 Gauge"), ("Normal", "How long is it?"),
    ]  # fmt: skip
    assert [run.text for run in found.paragraphs[2].runs if run.bold] == ["long"]
    assert [p.paragraph_format.keep_with_next for p in found.paragraphs] == [True, True, False]


def test_boxes_to_tick_boxes_of_an_order_notes_and_marks() -> None:
    found = read(
        '<p class="ask"><b class="label">1a</b>Which? <i>Tick one.</i><span class="marks">[2]</span></p>'
        '<p class="option"><span class="tick"></span><b>A</b>65 mm</p>'
        '<p class="order">Order <span class="tick wide"></span><span class="tick wide"></span></p>'
    )
    assert [p.text.strip() for p in found.paragraphs] == [
        "1a Which? (Tick one.) [2]", "☐ A 65 mm", "Order ______ ______",
    ]  # fmt: skip


def test_a_note_in_brackets_keeps_its_own_and_who_signs_has_a_line() -> None:
    found = read(
        '<p class="ask"><b class="label">1a</b>Which?<i> (Tick one.)</i></p>'
        '<p class="sign">Learner <span>Date</span></p>'
    )
    asks, signs = (paragraph.text.strip() for paragraph in found.paragraphs)
    assert asks == "1a Which? (Tick one.)"
    assert [*signs.replace("_", " ").split()] == ["Learner", "Date"]
    assert signs.count("_") == 54


def test_a_room_for_an_answer_is_a_table_to_type_into_as_high_as_the_room() -> None:
    found = read('<p><img src="courseware:work" data-answer="mm" alt="Room"/></p>', work=LINE)
    (table,) = found.tables
    assert [cell.text for cell in table.rows[0].cells] == ["Working", "Answer (mm)"]
    assert table.rows[0].height.mm == pytest.approx(20, abs=0.05)


def test_a_drawing_is_a_picture_at_its_own_width_with_its_words() -> None:
    found = read('<p><img src="courseware:drawing" alt="A wall"/></p>', drawing=LINE)
    (shape,) = found.inline_shapes
    assert shape.width.mm == pytest.approx(60, abs=0.05)
    assert shape._inline.docPr.get("descr") == "A wall"


def test_a_table_has_its_cells_and_a_first_row_that_repeats() -> None:
    found = read(
        "<table><thead><tr><th>Item</th><th>Answer</th></tr></thead><tbody><tr><td>Bricks</td><td>60</td></tr></tbody></table>"
        "<table><tbody><tr><td>Sand</td></tr></tbody></table>"
    )
    first, second = found.tables
    assert [[cell.text for cell in row.cells] for row in first.rows] == [["Item", "Answer"], ["Bricks", "60"]]
    assert [len(table._tbl.findall(".//" + qn("w:tblHeader"))) for table in (first, second)] == [1, 0]
    assert second._tbl.getprevious().tag == qn("w:p")  # without a line between them the two would be one


def test_a_column_is_as_wide_as_its_longest_words_and_one_to_write_in_has_room() -> None:
    key = (
        "<table><thead><tr><th>Look for</th><th>Figure</th><th>Earns</th></tr></thead>"
        "<tbody><tr><td>9 × 75</td><td>{}</td><td>A1</td></tr></tbody></table>"
    )
    widths = [round(cell.width.mm) for cell in read(key.format("112.5 minutes")).tables[0].rows[0].cells]
    longer = [round(cell.width.mm) for cell in read(key.format("x" * 40)).tables[0].rows[0].cells]
    to_fill = [
        round(cell.width.mm)
        for cell in read(key.format("").replace("<table", '<table class="list"')).tables[0].rows[0].cells
    ]
    assert (widths, longer, to_fill) == ([122, 34, 18], [112, 44, 18], [82, 52, 40])
    assert sum(widths) == sum(longer) == sum(to_fill) == 174  # of A4 between its margins


def test_a_sum_that_no_line_breaks_is_not_broken_in_a_copy_either() -> None:
    assert read("<p>19\u00a0×\u00a075\n  is</p>").paragraphs[0].text == "19\u00a0×\u00a075 is"


def test_a_copy_names_its_title_and_language_and_no_maker() -> None:
    told = read("<p>x</p>").core_properties
    assert (told.title, told.author, told.comments, told.language) == ("Piers", "", "", "en-GB")


def test_its_type_is_as_large_as_asked_and_its_headings_larger() -> None:
    styles = Document(BytesIO(docx("<html><head><title>x</title></head><body><p>x</p></body></html>", {}, 18))).styles
    assert [styles[name].font.size.pt for name in ("Normal", "Heading 2", "Heading 1")] == [18, 20, 27]
