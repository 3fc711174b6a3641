"""An audit copy: its pieces in order, their pages told at the front, names only where they are asked for."""

from __future__ import annotations

from pathlib import Path

from pypdf import PdfReader

from courseware.database.given_marks import keep_given
from courseware.database.kept_marks import marks_of
from courseware.database.opening import open_record
from courseware.database.sittings import take
from courseware.papers.sitting_file import write_sitting
from courseware.quality.marks_by_hand import HandMark
from tests.commands.conftest import run
from tests.marked_sitting import WHEN, enter, figure, script

NAMES = ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe")  # as the shared fixture deals them; invented


def text_of(file: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(file).pages)


def test_the_front_sheet_tells_the_pages_where_each_piece_is(place) -> None:
    paper = place.sitting.papers[0]
    run("audit", paper.code)
    pdf = PdfReader(Path("output", f"audit-{paper.code}.pdf"))
    front = " ".join(pdf.pages[0].extract_text().split())
    starts = [pdf.get_destination_page_number(item) + 1 for item in pdf.outline] + [len(pdf.pages) + 1]
    pieces = zip(pdf.outline[1:], starts[1:], starts[2:], strict=False)
    for item, first, after in pieces:
        pages = str(first) if after == first + 1 else f"{first} to {after - 1}"
        assert f"{item.title} {pages}" in front


def test_an_audit_copy_goes_by_codes_unless_names_are_asked_for(place) -> None:
    paper = place.sitting.papers[1]
    file = Path("output", f"audit-{paper.code}.pdf")
    run("audit", paper.code)
    assert NAMES[1] not in " ".join(text_of(file).split())
    assert f"{paper.code} showed the working aloud" in " ".join(text_of(file).split())
    run("audit", paper.code, "--names")
    assert " ".join(text_of(file).split()).count(NAMES[1]) >= 3  # paper, key, front sheet, and the reason


def test_the_second_markers_marks_stand_in_it(place) -> None:
    """Those given by hand; and what a second marker typed once more, in a record from before they were."""
    first = place.sitting.papers[0]
    label = figure(first)
    enter(place, (script(first, 2, **{f"_{label}": "7"}),), (), "R. Holt", "second")
    engine = open_record("sqlite:///output/record.sqlite")
    written = {mark.label: mark.written for mark in marks_of(engine, place.sitting.code, "first")[0].marks}
    mark = HandMark(code=first.code, attempt=1, label=label, marks=0, note="no unit", written=written[label])
    keep_given(engine, place.sitting.code, [mark], "second", by="P. Dunn", source="x.xlsx", at=WHEN)
    engine.dispose()
    run("audit", first.code)
    flat = " ".join(text_of(Path("output", f"audit-{first.code}.pdf")).split())
    assert "Second marker: R. Holt" in flat
    assert "Second marker: P. Dunn" in flat
    assert "no unit" in flat
    assert "Both markers" in flat


def test_a_paper_without_a_script_has_its_audit_copy_too(tmp_path, monkeypatch, dealt) -> None:
    monkeypatch.chdir(tmp_path)
    sitting = dealt("opening_sizes", exercises=3)
    engine = open_record("sqlite:///output/record.sqlite")
    take(engine, sitting, write_sitting(sitting), at=WHEN)
    engine.dispose()
    assert run("audit", sitting.papers[0].code).exit_code == 0
    assert "No script of this paper" in text_of(Path("output", f"audit-{sitting.papers[0].code}.pdf"))
