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


def test_fields_are_filled_in_each_at_its_place_and_remarks_stay(client: Sitter, work: Path) -> None:
    file = work / "centre.yaml"
    file.write_text("# ours\nname: Old  # since 1990\ncriteria:\n  - {code: A, says: Works}\n", encoding="utf-8")
    page = client.get("/settings").text
    assert 'value="Old"' in page
    typed = {"was": was(client), "name": "Brookfield: College", "mortar": "cement", "retention.names": "36"}
    assert "Saved." in client.done("/settings/fields", typed)
    assert file.read_text(encoding="utf-8") == (
        '# ours\nname: "Brookfield: College"  # since 1990\ncriteria:\n  - {code: A, says: Works}\n'
        "mortar: cement\nretention: {names: 36}\n"
    )
    client.done("/settings/fields", {"was": was(client), "name": "Brookfield: College"})
    assert "retention" not in file.read_text(encoding="utf-8")


def test_a_field_that_cannot_be_is_told_with_all_that_was_typed_and_nothing_is_saved(
    client: Sitter, work: Path
) -> None:
    refused = client.fill("/settings/fields", {"was": was(client), "name": "A", "day_height": "soon"})
    assert refused.status_code == 422
    assert "`day_height` is wrong" in words(refused.text)
    assert 'value="soon"' in refused.text
    assert not (work / "centre.yaml").exists()
    assert "changed elsewhere meanwhile" in client.done("/settings/fields", {"was": "x", "name": "A"})


def test_a_file_with_faults_is_shown_as_a_text_alone(client: Sitter, work: Path) -> None:
    (work / "centre.yaml").write_text("mortar: mud\n", encoding="utf-8")
    page = client.get("/settings").text
    assert "/settings/fields" not in page
    assert "mortar: mud" in page
