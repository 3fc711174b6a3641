"""Where the desk leads from a fault: to the screen that mends the file, for each file that is mended at the desk."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.desk.ways_on import ways_on
from courseware.text_files.faults import Fault, FileFaulty
from courseware.workflows.marking_by_hand import FirstMarksHidden
from tests.desk.conftest import Sitter, words


@pytest.mark.parametrize(
    ("file", "address"),
    [
        ("centre.yaml", "/settings"), ("banks/my piers.yaml", "/banks/own/my%20piers"), ("jobs/porch.yaml", "/jobs/own/porch"),
        ("class-lists/group-a.xlsx", "/papers"), ("elsewhere.yaml", None), ("../centre.yaml", None), ("banks/../../x.yaml", None),
    ],
)  # fmt: skip
def test_each_file_that_the_desk_mends_has_its_screen(tmp_path: Path, file: str, address: str | None) -> None:
    fault = Fault(file, 1, 1, "wrong", "put it right")
    found = ways_on(FileFaulty((fault, fault)), folder=tmp_path, centre=tmp_path / "centre.yaml")
    assert [one.address for one in found] == ([address] if address else [])


def test_other_errors_have_no_screen_but_that_of_a_second_marker(tmp_path: Path) -> None:
    assert ways_on(ValueError(), folder=tmp_path, centre=tmp_path / "centre.yaml") == ()
    hidden = ways_on(FirstMarksHidden("AAAA-AAAA-A", "P. Dunn"), folder=tmp_path, centre=tmp_path / "centre.yaml")
    assert [one.address for one in hidden] == ["/sittings/AAAA-AAAA-A/second", "/settings#you"]


def test_a_faulty_centre_file_leads_to_the_settings_from_every_page_that_needs_it(client: Sitter, work: Path) -> None:
    (work / "centre.yaml").write_text("nmae: Brookfield", encoding="utf-8")
    met = 0
    for address in (
        "/",
        "/papers",
        "/jobs",
        "/banks",
        "/keep",
        "/practise",
        "/see",
        "/mark",
        "/course",
        "/settings",
        "/keep/sampling",
    ):
        answer = client.get(address)
        if answer.status_code == 422:
            met += 1
            assert 'class="button" href="/settings"' in answer.text, address
            assert "centre.yaml:1" in words(answer.text)
    assert met
    assert client.get("/settings").status_code == 200
