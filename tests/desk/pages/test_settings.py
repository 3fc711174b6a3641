"""The centre's settings, changed as a text."""

from __future__ import annotations

import re
from pathlib import Path

from tests.desk.conftest import Sitter, words


def was(client: Sitter) -> str:
    return re.findall(r'name="was" value="(\w+)"', client.get("/settings").text)[0]


def test_settings_are_saved_and_shown(client: Sitter, work: Path) -> None:
    text = "# ours\nname: Brookfield Trades College\nretention: {names: 36}\n"
    assert "Saved." in client.done("/settings/save", {"text": text.replace("\n", "\r\n"), "was": was(client)})
    assert (work / "centre.yaml").read_text(encoding="utf-8") == text
    assert "Brookfield Trades College" in client.get("/settings").text


def test_faults_are_told_by_line_and_nothing_is_saved(client: Sitter, work: Path) -> None:
    refused = client.fill("/settings/save", {"text": "name: A\nmortar: mud\nnmae: B", "was": was(client)})
    assert refused.status_code == 422
    assert "2 faults, so nothing was saved: Line 2: `mortar` is `mud`" in words(refused.text)
    assert "nmae: B" in refused.text
    assert not (work / "centre.yaml").exists()


def test_a_file_changed_elsewhere_meanwhile_is_not_written_over(client: Sitter, work: Path) -> None:
    before = was(client)
    (work / "centre.yaml").write_text("name: Elsewhere\n", encoding="utf-8")
    clash = client.fill("/settings/save", {"text": "name: Here", "was": before})
    assert clash.status_code == 409
    assert "name: Here" in clash.text
    assert "name: Elsewhere" in clash.text
    assert (work / "centre.yaml").read_text() == "name: Elsewhere\n"


def test_a_name_that_cannot_stand_in_the_record_is_refused(client: Sitter) -> None:
    for name in ("", "x" * 200, "a\u202eb"):
        assert "Nothing was changed" in client.done("/settings/name", {"who": name})
    assert "You are J. Marsh" in words(client.get("/settings").text)
