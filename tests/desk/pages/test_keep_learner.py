"""All that is kept of one learner: given out, or deleted once what would go was shown."""

from __future__ import annotations

import re
from pathlib import Path

from tests.desk.conftest import Sitter, finished, words

WHO = "Zoë O'Brien-Smythe"


def found(client: Sitter, who: str = WHO) -> str:
    answer = client.fill("/keep/learners/find", {"who": who})
    assert answer.status_code == 303, words(answer.text)
    return str(answer.headers["location"])


def test_a_learner_is_found_by_name_reference_or_code_and_the_address_has_no_name(client: Sitter) -> None:
    address = found(client)
    assert re.fullmatch(r"/keep/learners/[A-Z-]+", address)
    assert found(client, "A3") == address
    assert found(client, address.rpartition("/")[2]) == address
    shown = words(client.get(address).text)
    assert WHO in shown
    assert "2 papers in the record" in shown


def test_nobody_is_guessed(client: Sitter) -> None:
    for who in ("", "Zoë", "Nobody"):
        assert client.fill("/keep/learners/find", {"who": who}).status_code == 422
    assert client.get("/keep/learners/NOBODYXX").status_code == 422


def test_all_that_is_kept_is_written_out(client: Sitter, work: Path) -> None:
    told = finished(client, client.fill(f"{found(client)}/export"))
    assert "2 papers, in" in told
    [folder] = (work / "output").glob("learner-*")
    assert sorted(path.name for path in folder.iterdir()) == ["learner.json", "learner.xlsx"]


def test_what_would_go_is_shown_and_then_goes(client: Sitter, work: Path) -> None:
    address = f"{found(client)}/delete"
    shown = client.get(address).text
    assert "To be deleted: 2 papers" in words(shown)
    seen = re.findall(r'name="seen" value="(\w+)"', shown)[0]
    refused = client.fill(f"{address}/now", {"seen": seen})
    assert "tick that you are sure" in words(refused.text)
    refused = client.fill(f"{address}/now", {"seen": "x", "sure": "yes"})
    assert "has changed since you looked" in words(refused.text)
    told = finished(client, client.fill(f"{address}/now", {"seen": seen, "sure": "yes"}))
    assert "The learner is deleted for good." in told
    assert client.fill("/keep/learners/find", {"who": WHO}).status_code == 422
    for path in (work / "output").rglob("sitting.json"):
        assert WHO not in path.read_text(encoding="utf-8")
