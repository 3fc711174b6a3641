"""A learner's export: all that the record has of them, once as data and once to read, for nobody else's eyes."""

from __future__ import annotations

import json
import stat
from pathlib import Path

import openpyxl
import pytest

from courseware.database.learners import export_learner
from courseware.database.opening import open_record
from courseware.workflows.export import export_pages, write_export


@pytest.fixture
def data(place) -> dict:
    """The second learner of the marked sitting, whose first figure was decided by the assessor."""
    engine = open_record("sqlite:///output/record.sqlite")
    found = export_learner(engine, place.sitting.papers[1].code)
    engine.dispose()
    return found


def test_the_folder_goes_by_the_papers_code_and_holds_both(data: dict, tmp_path: Path) -> None:
    folder = write_export(data, tmp_path / "out", "2026-01-06", lambda: None)
    assert folder.name == f"learner-{data['papers'][0]['code']}"
    assert sorted(file.name for file in folder.iterdir()) == ["learner.json", "learner.xlsx"]
    assert json.loads((folder / "learner.json").read_text(encoding="utf-8")) == json.loads(json.dumps(data))
    assert {stat.S_IMODE(file.stat().st_mode) for file in folder.iterdir()} == {0o600}


def test_what_is_read_is_what_the_data_has(data: dict) -> None:
    [paper] = data["papers"]
    pages = {page.title: page.rows for page in export_pages(data)}
    assert list(pages) == ["Papers", "Questions", "As written", "Marks", "Decisions", "Observed", "History"]
    assert [row[0] for row in pages["Papers"]] == [paper["code"]]
    assert len(pages["Questions"]) == sum(len(exercise["parts"]) for exercise in paper["issued"])
    assert [row[4] for row in pages["As written"]] == list(paper["scripts"][0]["cells"].values())
    [decided] = pages["Decisions"]
    assert (decided[3], decided[4]) == (1, "Łukasz Wójcik showed the working aloud")
    assert sum(row[6] == "decided" for row in pages["Marks"]) == 1
    assert len(pages["History"]) == len(paper["history"])


def test_every_row_fits_its_columns(data: dict) -> None:
    for page in export_pages(data):
        assert {len(row) for row in page.rows} <= {len(page.columns)}, page.title


def test_a_learner_whose_name_was_taken_out_still_has_a_row(data: dict) -> None:
    [paper] = data["papers"]
    [row] = export_pages({"papers": [{**paper, "names": []}]})[0].rows
    assert row[:3] == (paper["code"], "", "")


def test_the_same_export_on_the_same_day_is_the_same_bytes(data: dict, tmp_path: Path) -> None:
    one, other = (write_export(data, tmp_path / name, "2026-01-06", lambda: None) for name in ("one", "other"))
    assert (one / "learner.xlsx").read_bytes() == (other / "learner.xlsx").read_bytes()
    assert openpyxl.load_workbook(one / "learner.xlsx").properties.created.date().isoformat() == "2026-01-06"
