"""A second marker and a pack to standardise with, out and in at the desk."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.sitting_folders import SittingFolder, read_folder
from tests.desk.conftest import Sitter, finished, words
from tests.workflows.filled_marks import fill


@pytest.fixture
def where(client: Sitter) -> SittingFolder:
    [marked] = client.desk.out.glob("2026-01-05*")
    return read_folder(marked)


def test_a_sitting_without_marks_says_what_to_do_first(client: Sitter) -> None:
    [issued] = client.desk.out.glob("2026-02-02*")
    at = f"/sittings/{read_folder(issued).sitting.code}/markers"
    assert "No script is marked yet." in words(client.get(at).text)
    assert "no script of the sitting" in finished(client, client.fill(f"{at}/second/sheet")).lower()


def test_a_second_markers_sheet_goes_out_and_its_marks_come_in(
    client: Sitter, where: SittingFolder, tmp_path: Path
) -> None:
    at = f"/sittings/{where.sitting.code}/markers"
    assert "The scripts as written" in finished(client, client.fill(f"{at}/second/sheet"))
    [blank] = (where.path / "for-tutor").glob("second*.xlsx")
    sheet = {"sheet": ("second.xlsx", fill(blank, str(tmp_path / "second.xlsx")).read_bytes())}
    assert client.fill(f"{at}/second/enter", {"by": " "}, files=sheet).status_code == 422
    assert "marked" in finished(client, client.fill(f"{at}/second/enter", {"by": "J. Marsh"}, files=sheet))  # refused
    assert "Entered so far" not in words(client.get(at).text)
    told = finished(client, client.fill(f"{at}/second/enter", {"by": "P. Dunn"}, files=sheet))
    assert "marks by P. Dunn entered." in told, told
    assert "Entered so far: P. Dunn," in words(client.get(at).text)


def test_a_pack_goes_out_and_an_assessors_marks_come_in(client: Sitter, where: SittingFolder, tmp_path: Path) -> None:
    at = f"/sittings/{where.sitting.code}/markers"
    told = finished(client, client.fill(f"{at}/pack", {"assessors": "P. Dunn\r\n\r\nR. Holt"}))
    assert "A pack to standardise with." in told, told
    [blank] = client.desk.out.glob("standardising-*.xlsx")
    sheet = {"sheet": ("pack.xlsx", fill(blank, str(tmp_path / "pack.xlsx")).read_bytes())}
    told = finished(client, client.fill(f"{at}/pack/enter", {"by": "P. Dunn"}, files=sheet))
    assert "1 assessor so far." in told, told
    assert len(list(client.desk.out.glob("spread-*"))) == 2
    assert "Entered so far: P. Dunn," in words(client.get(at).text)
