"""Tagged PDF: ISO 14289-1 (PDF/UA-1), as the checker `page` of the package page-validation reads it."""

from io import BytesIO

import page
import pytest
from pikepdf import Pdf

from courseware.files.bank_files import shipped_banks

TOPICS = [path.stem for path in shipped_banks()]


@pytest.mark.each_value
@pytest.mark.parametrize("sheet", ["paper_pdf", "key_pdf", "grid_pdf"])
@pytest.mark.parametrize("topic", TOPICS)
def test_every_sheet_of_every_topic_conforms(printed, topic, sheet) -> None:
    report = page.validate_pdf_bytes(getattr(printed(topic), sheet), profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


def test_the_checker_can_fail(printed) -> None:
    with Pdf.open(BytesIO(printed(TOPICS[0]).paper_pdf)) as opened:
        del opened.Root.StructTreeRoot
        spoilt = BytesIO()
        opened.save(spoilt)
    assert not page.validate_pdf_bytes(spoilt.getvalue(), profile="ua1").is_compliant


def test_page_furniture_is_left_out_of_the_reading_order(printed) -> None:
    """The gauge scale, the 100 mm line and the page numbers are artifacts (ISO 14289-1, 7.1)."""
    with Pdf.open(BytesIO(printed(TOPICS[0]).paper_pdf)) as opened:
        for sheet in opened.pages:
            assert sheet.Contents.read_bytes().count(b"/Artifact\n<</Type /Pagination>>\nBDC") >= 3


@pytest.mark.parametrize("sheet", ["paper_pdf", "key_pdf"])
def test_language_and_title_are_told(printed, sheet) -> None:
    with Pdf.open(BytesIO(getattr(printed(TOPICS[0]), sheet))) as opened:
        assert str(opened.Root.Lang) == "en-GB"
        assert opened.Root.ViewerPreferences.DisplayDocTitle
        assert "Setting out" in str(opened.docinfo["/Title"])
