"""Portfolio indexes written for every learner, with pages read back from the papers as they are printed."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import openpyxl
import page
from pypdf import PdfReader

from courseware.database.opening import open_record
from courseware.database.written_files import files_written
from courseware.files.centre_file import find_settings
from courseware.papers.compose import compose_paper, read_sources
from courseware.printing.render import paper_pdf
from courseware.workflows.portfolio import question_pages, write_portfolios

CENTRE = """\
criteria:
  - code: BRK-1.1
    says: Works out openings and piers so that no brick is cut
    rule: 1 of 2
    evidence:
      - {topic: Opening sizes, exercise: FIRST}
      - {topic: Opening sizes, exercise: SECOND}
"""  # invented


def test_every_learner_has_an_index_that_readers_of_any_kind_can_use(place, heard) -> None:
    """ISO 14289-1 (PDF/UA-1), as the checker `page` of the package page-validation reads it."""
    first, second, _ = place.sitting.papers[0].exercises
    Path("centre.yaml").write_text(
        CENTRE.replace("FIRST", first.exercise).replace("SECOND", second.exercise), encoding="utf-8"
    )
    engine = open_record("sqlite:///output/record.sqlite")
    code = place.sitting.code
    more = {"names": True, "out": Path("output"), "day": "2026-02-10"}
    files = write_portfolios(engine, [code], find_settings(None), [], heard, **more)
    noted = {one.path: one.codes for one in files_written(engine)}
    engine.dispose()
    papers = [paper.code for paper in place.sitting.papers]
    assert [file.name for file in files[::2]] == [f"portfolio-{paper}-2026-02-10.pdf" for paper in papers]
    assert noted[files[0].resolve()] == (papers[0],)  # so that it goes with its learner
    report = page.validate_pdf_bytes(files[0].read_bytes(), profile="ua1")
    assert report.is_compliant, [failure.message for failure in report.failures]
    text = " ".join(sheet.extract_text() for sheet in PdfReader(files[0]).pages)
    assert f"Portfolio index of {place.sitting.papers[0].learner.name}" in text
    rows = list(openpyxl.load_workbook(files[1])["Evidence"].values)
    assert [row[4:6] for row in rows[1:]] == [("J. Marsh", "2026-01-06")] * 2
    assert rows[1][2] == "1"


def test_a_question_is_on_the_page_that_its_heading_stands_on(place) -> None:
    """Read back by another library: the heading is the question's number and topic."""
    sitting = place.sitting
    pdf = paper_pdf(compose_paper(sitting, 0, read_sources(sitting)))
    texts = [" ".join(one.extract_text().split()) for one in PdfReader(BytesIO(pdf)).pages]
    topics = [exercise.topic for exercise in sitting.papers[0].exercises]
    found = dict(question_pages(pdf, topics))
    assert set(found) == {1, 2, 3}
    for number, on in found.items():
        assert f"{number} {topics[number - 1]} level" in texts[on - 1].replace("\u2003", " ")
    assert dict(question_pages(pdf, ["No such topic"])) == {}
