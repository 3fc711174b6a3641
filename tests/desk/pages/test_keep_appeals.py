"""Appeals at the desk: opened with a reason, looked at before the outcome is entered, the same rows as the command's."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from courseware.database.appeals import all_appeals
from courseware.files.record_location import opened
from courseware.files.sitting_folders import SittingFolder, read_folder
from courseware.workflows.appeal import standing
from tests.desk.conftest import Sitter, desk_over, finished, words
from tests.workflows.filled_marks import fill

CHANGED = {"outcome": "changed", "date": "2026-02-09", "reason": "the working was sound"}


@pytest.fixture
def where(client: Sitter) -> SittingFolder:
    [marked] = client.desk.out.glob("2026-01-05*")
    return read_folder(marked)


def outcomes(client: Sitter) -> list[str]:
    with opened(client.desk.record(), make=False) as engine:
        return [one.outcome for one in all_appeals(engine)]


def test_without_papers_it_is_said_what_to_do_first(tmp_path: Path) -> None:
    sitter = Sitter(desk_over(tmp_path)).come_in()
    assert "make papers and mark them first" in words(sitter.get("/keep/appeals").text)


def test_an_appeal_is_opened_marked_again_by_another_and_its_outcome_entered(
    client: Sitter, where: SittingFolder, tmp_path: Path
) -> None:
    shown = client.get("/keep/appeals", params={"sitting": where.sitting.code}).text
    codes = re.findall(r'href="/keep/appeals/([\w-]+)"', shown)
    assert set(codes) <= {paper.code for paper in where.sitting.papers}
    code, at = codes[0], f"/keep/appeals/{codes[0]}"
    assert client.fill(f"{at}/open", {"reason": " "}).status_code == 422
    told = finished(client, client.fill(f"{at}/open", {"reason": "1a was right"}))
    assert f"An appeal on {code} is open" in told, told
    assert "Open since" in words(client.get(at).text)
    [blank] = client.desk.out.glob(f"appeal-{code}-*/re-mark-{code}.xlsx")
    sheet = fill(blank, str(tmp_path / "again.xlsx"), outcome=CHANGED)
    sent = {"sheet": ("again.xlsx", sheet.read_bytes())}
    first = client.fill(f"{at}/look", {"by": "J. Marsh"}, files=sent)  # who marked it first
    assert (first.status_code, "marked" in words(first.text)) == (422, True)
    looked = client.fill(f"{at}/look", {"by": "R. Holt"}, files=sent).text
    assert "The marks are changed to those of the re-mark. Reason: the working was sound." in words(looked)
    assert outcomes(client) == ["open"]
    [handle] = re.findall(r'name="sheet" value="(\w+)"', looked)
    told = finished(client, client.fill(f"{at}/end", {"sheet": handle, "by": "R. Holt"}))
    assert f"The appeal on {code} is closed" in told, told
    assert outcomes(client) == ["changed"]
    with opened(client.desk.record(), make=False) as engine:
        now = standing(engine, where, code)
    assert now.total == now.of  # the sheet gives each part all that it is worth


def test_a_paper_that_is_not_marked_has_nothing_to_appeal_against(client: Sitter) -> None:
    [issued] = client.desk.out.glob("2026-02-02*")
    code = read_folder(issued).sitting.papers[0].code
    assert "nothing to appeal against" in words(client.get(f"/keep/appeals/{code}").text)
    assert client.get("/keep/appeals/KKKKKKKK").status_code == 404
