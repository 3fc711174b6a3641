"""Sampling and criteria: what will happen is said, then it is done by the queue."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

from tests.desk.conftest import Sitter, desk_over, finished, words

CRITERIA = """\
criteria:
  - {code: B1, says: Works out piers, evidence: [{topic: Piers, exercise: pier-length}]}
  - {code: B2, says: Sets out openings, evidence: [{topic: Opening sizes, exercise: opening-for-a-panel}]}
"""  # invented


def test_without_a_record_there_is_nothing_to_draw_from(tmp_path: Path) -> None:
    sitter = Sitter(desk_over(tmp_path)).come_in()
    assert "nothing to draw from" in words(sitter.get("/keep/sampling").text)


def test_it_is_said_how_many_papers_will_be_drawn_and_drawn_are_so_many(client: Sitter, work: Path) -> None:
    shown = client.get("/keep/sampling", params={"size": "2"}).text
    marked = int(re.findall(r"(\d+) papers of these sittings are marked; 2 of them", words(shown))[0])
    seed = re.findall(r'name="seed"[^>]*value="(\w+)"', shown)[0]
    sittings = re.findall(r'type="hidden" name="sitting" value="([\w-]+)"', shown)
    told = finished(client, client.fill("/keep/sampling/draw", {"sitting": sittings, "size": "2", "seed": seed}))
    assert f"2 of {marked} marked papers, drawn with the seed {seed}." in told
    assert {path.suffix for path in (work / "output").glob(f"sampling-plan-*-{seed.lower()}*")} == {".pdf", ".xlsx"}


def test_sizes_that_are_none_are_refused(client: Sitter) -> None:
    for size in ("", "0", "ten", "101 %", "-1", "1.5", "9" * 30):
        refused = client.get("/keep/sampling", params={"size": size})
        assert refused.status_code == 422, size
        assert "neither a number of papers nor a share" in words(refused.text)
        assert client.fill("/keep/sampling/draw", {"size": size}).status_code == 422


def test_a_centre_without_criteria_is_shown_lines_that_can_be_saved_as_they_are(client: Sitter) -> None:
    shown = client.get("/keep/criteria").text
    assert 'href="/settings#whole"' in shown
    [lines] = re.findall(r"<pre>(.*?)</pre>", shown, re.DOTALL)
    was = re.findall(r'name="was" value="(\w+)"', client.get("/settings").text)[0]
    assert "Saved." in client.done("/settings/save", {"text": unescape(lines), "was": was})
    assert "BRK-1.1 Works out openings" in words(client.get("/keep/criteria").text)


def test_criteria_are_mapped_over_the_sittings_ticked(client: Sitter, work: Path) -> None:
    (work / "centre.yaml").write_text(CRITERIA, encoding="utf-8")
    shown = client.get("/keep/criteria").text
    assert "B1 Works out piers" in words(shown)
    sittings = re.findall(r'name="sitting" value="([\w-]+)"', shown)
    assert len(sittings) == 2
    told = finished(client, client.fill("/keep/criteria/map", {"sitting": sittings}))
    assert "2 criteria, 4 learners." in told, told
    assert "Not secure yet, B2: " in told
