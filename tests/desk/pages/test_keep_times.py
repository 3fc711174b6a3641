"""How long each kind of data is kept: what would be past is shown before it is set."""

from __future__ import annotations

from tests.desk.conftest import Sitter, words


def test_what_would_be_past_is_shown_and_nothing_is_changed_by_looking(client: Sitter) -> None:
    assert "names always after" not in words(client.get("/keep/times").text)
    looked = words(client.get("/keep/times", params={"kind": "scripts", "months": "1"}).text)
    assert "scripts will be kept 1 month after the sitting" in looked
    assert "scripts always" in words(client.get("/keep/times").text)


def test_a_time_is_set(client: Sitter) -> None:
    told = client.done("/keep/times/keep", {"kind": "scripts", "months": "36"})
    assert "scripts: kept for 36 months after the sitting." in told
    assert "scripts 36 months after the sitting" in told
    assert "as before" in client.done("/keep/times/keep", {"kind": "scripts", "months": "36"})
    assert "scripts: kept always." in client.done("/keep/times/keep", {"kind": "scripts", "months": "always"})


def test_what_is_no_time_is_refused(client: Sitter) -> None:
    for months in ("", "0", "1201", "-3", "x", "1.5"):
        assert client.get("/keep/times", params={"kind": "names", "months": months}).status_code == 422, months
        assert client.fill("/keep/times/keep", {"kind": "names", "months": months}).status_code == 422, months
    assert client.fill("/keep/times/keep", {"kind": "socks", "months": "3"}).status_code == 422
