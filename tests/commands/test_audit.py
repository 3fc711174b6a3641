"""`courseware audit`: all that the record has of one paper, bound into one PDF."""

from __future__ import annotations

import stat
from pathlib import Path

from pypdf import PdfReader

from tests.commands.conftest import run

NAMES = ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe")  # as the shared fixture deals them; invented


def text_of(file: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(file).pages)


def test_an_audit_copy_holds_paper_key_script_marks_and_history(place, sitting) -> None:
    paper = sitting.papers[1]
    done = run("audit", paper.code.lower().replace("-", ""))
    assert done.exit_code == 0, done.output
    file = Path("output", f"audit-{paper.code}.pdf")
    pdf = PdfReader(file)
    assert [item.title for item in pdf.outline] == [
        "Front sheet", "The paper as issued", "Its key", "The script and its marks", "History of the marks",
    ]  # fmt: skip
    assert pdf.metadata.title == f"Audit copy of paper {paper.code}"
    text = text_of(file)
    flat = " ".join(text.split())
    for bank in sitting.banks:
        assert bank.sha256 in "".join(flat.split())
    assert "decided by the assessor" in flat
    assert "First marker: J. Marsh" in flat
    assert "2026-01-06 09:30 J. Marsh" in flat
    assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_a_paper_that_is_not_there_is_told(place) -> None:
    done = run("audit", "AAAA-AAAA-A")
    assert (done.exit_code, "has no paper AAAA-AAAA-A" in done.output) == (2, True)
