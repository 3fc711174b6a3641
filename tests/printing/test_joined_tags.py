"""Files to print from keep their tags: each sheet is read as it is alone, and the whole conforms (ISO 14289-1)."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import page
import pytest
from pikepdf import Pdf

from courseware.printing import join_pdfs
from courseware.printing.join_pdfs import AT_ONCE, gather


@pytest.fixture(scope="module")
def sheets(printed, tmp_path_factory) -> list[Path]:
    folder = tmp_path_factory.mktemp("sheets")
    found = []
    for place, topic in enumerate(("opening_sizes", "safe_cutting", "course_gauge")):
        found.append(folder / f"{place}.pdf")
        found[-1].write_bytes(printed(topic).paper_pdf)
    return found


def test_a_joined_file_conforms_as_its_sheets_do(sheets) -> None:
    """As the checker `page` of the package page-validation reads it."""
    report = page.validate_pdf_bytes(gather(sheets), profile="ua1")
    assert report.is_compliant, [(failure.rule_id, failure.message) for failure in report.failures]


def test_each_sheet_is_read_aloud_as_it_is_alone(sheets, read_aloud) -> None:
    assert read_aloud(gather(sheets)) == "".join(read_aloud(sheet.read_bytes()) for sheet in sheets)


def test_no_two_pages_have_the_same_key_and_each_key_leads_to_its_own_page(sheets) -> None:
    with Pdf.open(BytesIO(gather(sheets))) as joined:
        numbers = list(joined.Root.StructTreeRoot.ParentTree.Nums)
        parents = {int(key): entry for key, entry in zip(numbers[::2], numbers[1::2], strict=True)}
        assert len(parents) == len(numbers) / 2
        keys = [int(sheet.StructParents) for sheet in joined.pages if "/StructParents" in sheet]
        assert len(keys) == len(set(keys))
        for sheet in (sheet for sheet in joined.pages if "/StructParents" in sheet):
            owners = [entry for entry in parents[int(sheet.StructParents)] if entry is not None]
            assert owners
            assert all(entry.Pg.objgen == sheet.objgen for entry in owners if "/Pg" in entry)


def test_the_title_is_what_all_sheets_share(sheets) -> None:
    with Pdf.open(BytesIO(gather(sheets))) as joined:
        assert str(joined.docinfo["/Title"]) == "Setting out"
        assert str(joined.Root.Lang) == "en-GB"
    with Pdf.open(BytesIO(gather(sheets[:1]))) as alone:
        assert str(alone.docinfo["/Title"]).startswith("Setting out, paper ")


def test_sheets_joined_a_few_at_a_time_stand_side_by_side_under_one_document(sheets) -> None:
    many = sheets[:1] * (AT_ONCE + 2)
    with Pdf.open(BytesIO(gather(many))) as joined:
        [document] = joined.Root.StructTreeRoot.K
        assert str(document.S) == "/Document"
        assert [str(part.S) for part in document.K] == ["/Part"] * len(many)


@pytest.mark.parametrize(("count", "tagged"), [(1, True), (2, True), (3, False)])
def test_a_very_large_file_is_for_printing_alone(sheets, monkeypatch, count: int, tagged: bool) -> None:
    monkeypatch.setattr(join_pdfs, "TAGGED", 2)
    with Pdf.open(BytesIO(gather(sheets[:1] * count))) as joined:
        assert ("/StructTreeRoot" in joined.Root) is tagged


def test_the_same_sheets_are_the_same_bytes(sheets) -> None:
    assert gather(sheets) == gather(sheets)
