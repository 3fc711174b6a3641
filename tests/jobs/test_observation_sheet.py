"""The observation sheet read back: as a spreadsheet leaves it, and as nobody would on purpose."""

from __future__ import annotations

from io import BytesIO

import openpyxl
import pytest

from courseware.jobs.observation_sheet import read_observation_sheet
from courseware.jobs.workbooks import stores_workbook
from courseware.spreadsheets.rows import TableFaulty
from tests.jobs.a_panel import job
from tests.jobs.filled_sheet import filled


def test_what_was_typed_comes_back_with_its_row() -> None:
    photos = (("arch.jpg", "the upper corners"), ("pictures/face.png", None))
    read = read_observation_sheet(filled(job(), {"Panel, width": 441.5, "Face": "not yet"}, photos), "sheet.xlsx")
    typed = read.typed
    assert (typed.learner, typed.by, typed.day, typed.bay) == ("Amara Okafor", "J. Marsh", "2026-02-03", "2")
    assert (typed.lines["Panel, width"], typed.lines["Face"]) == ("441.5", "not yet")
    assert typed.photos == (("arch.jpg", "the upper corners"), ("pictures/face.png", ""))
    assert (read.job, read.rows["Panel, width"], read.rows["Face"]) == ("A panel", 6, 4)
    assert typed.sizes["Width of the opening"] == ("910", "5")


def test_the_line_about_tolerances_below_the_table_is_no_line_of_it() -> None:
    read = read_observation_sheet(filled(job()), "sheet.xlsx")
    assert not any(what.startswith("Tolerances") for what in read.typed.lines)


def test_a_date_that_the_spreadsheet_made_a_date_is_read() -> None:
    from datetime import date

    assert read_observation_sheet(filled(job(), date=date(2026, 2, 3)), "s.xlsx").typed.day == "2026-02-03"


def test_measured_lines_may_come_as_csv() -> None:
    data = 'line,"target, mm","allowed, ± mm","measured, mm",pass or fail\nWidth of the opening,910,5,912,\n'
    assert read_observation_sheet(data.encode(), "sheet.csv").typed.lines == {"Width of the opening": "912"}


def changed(data: bytes, page: str, place: str, value: object) -> bytes:
    book = openpyxl.load_workbook(BytesIO(data))
    book[page][place] = value
    written = BytesIO()
    book.save(written)
    return written.getvalue()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"words", "the file is not a whole workbook"),
        (b"PK\x03\x04 and no more", "the file is not a whole workbook"),
        (b"\xd0\xcf\x11\xe0 old", "this is an old .xls workbook"),
        (stores_workbook(job(), "2026-02-02"), "sheet.xlsx:1:1: this is not an observation sheet; expected the headings line, target"),
        (changed(filled(job()), "Measured", "D2", "=1+1"), "sheet.xlsx:2:4: the figure of `Width of the opening` holds a formula without a stored result"),
        (changed(filled(job()), "Measured", "A3", "Width of the opening"), "the line `Width of the opening` stands on row 2 too"),
        (filled(job(), photos=tuple((f"{n}.jpg", "") for n in range(51))), "51 photographs; at most 50"),
    ],
)  # fmt: skip
def test_what_is_no_sheet_of_ours_is_refused_with_its_place(data: bytes, says: str) -> None:
    with pytest.raises(TableFaulty) as wrong:
        read_observation_sheet(data, "sheet.xlsx")
    assert says in str(wrong.value)
