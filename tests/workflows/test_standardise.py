"""Standardising: a pack goes out, each assessor's marks come back, the spread is told each time."""

from __future__ import annotations

import openpyxl
import page
import pytest
from pypdf import PdfReader

from courseware.database.given_marks import given_marks
from courseware.database.kept_marks import marks_of
from courseware.database.opening import open_record
from courseware.files.bank_files import NotFound
from courseware.settings.settings import DEFAULTS
from courseware.workflows.standardise import enter_standard, make_pack
from tests.workflows.filled_marks import fill


@pytest.fixture
def engine(place):
    engine = open_record("sqlite:///output/record.sqlite")
    yield engine
    engine.dispose()


def test_a_pack_goes_out_without_names_and_marks_come_back_with_their_spread(engine, place) -> None:
    """ISO 14289-1 (PDF/UA-1), as the checker `page` of the package page-validation reads it."""
    code = place.sitting.code
    with pytest.raises(NotFound, match="has no pack yet"):
        enter_standard(engine, place, place.path, DEFAULTS, assessor="X", day="2026-02-10")
    before = marks_of(engine, code, "first")
    sheet, workbook = make_pack(engine, place, DEFAULTS, assessors=["P. Dunn", "R. Holt"], day="2026-02-10")
    text = " ".join(one.extract_text() for one in PdfReader(sheet).pages)
    assert "Marks of P. Dunn" in text
    for paper in place.sitting.papers:
        assert paper.learner.name not in text
        assert paper.code not in text
    letters = {row[0] for row in openpyxl.load_workbook(workbook)["Marks"].iter_rows(min_row=2, values_only=True)}
    assert letters == {"A", "B"}  # two scripts are marked
    first = enter_standard(engine, place, fill(workbook, "one.xlsx"), DEFAULTS, assessor="P. Dunn", day="2026-02-11")
    assert first.assessors == 1
    other = fill(workbook, "two.xlsx", {("A", "1a"): 0})
    done = enter_standard(engine, place, other, DEFAULTS, assessor="R. Holt", day="2026-02-12")
    assert (done.assessors, done.added) == (2, first.added)
    rows = list(openpyxl.load_workbook(done.files[1])["Spread"].values)
    apart = [row[:2] for row in rows[1:] if row[5]]
    assert apart == [("A", "1a")]
    assert marks_of(engine, code, "first") == before  # no mark of the record is touched
    assert len(given_marks(engine, code, "standard")) == 2 * first.added
    for file in (sheet, done.files[0]):
        report = page.validate_pdf_bytes(file.read_bytes(), profile="ua1")
        assert report.is_compliant, [failure.message for failure in report.failures]
