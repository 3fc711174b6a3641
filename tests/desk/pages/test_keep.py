"""Keep: the register of a sitting, scripts confirmed and released."""

from __future__ import annotations

import re

from courseware.papers.dates import in_full
from tests.desk.conftest import Sitter, desk_over, words


def register(client: Sitter, date: str) -> str:
    """The address of the register of the sitting of that day."""
    found = re.findall(
        r'href="(/keep/register/[\w-]+)">[^<]*</a> <span>[^<]*?(\d+ \w+ \d{4})', client.get("/keep").text
    )
    return next(address for address, day in found if day == in_full(date))


def codes(client: Sitter, address: str) -> list[str]:
    return re.findall(r'<th scope="row" class="whole-words">([\w-]+)</th>', client.get(address).text)


def test_where_nothing_is_kept_it_says_what_to_do_first(tmp_path) -> None:
    sitter = Sitter(desk_over(tmp_path)).come_in()
    assert "Nothing is kept yet" in words(sitter.get("/keep").text)


def test_each_paper_stands_in_its_register(client: Sitter) -> None:
    shown = words(client.get(register(client, "2026-01-05")).text)
    assert "Amara Okafor , A1" in shown
    assert "=1+1 , A4" in shown


def test_an_absence_is_entered_and_taken_back(client: Sitter) -> None:
    address = register(client, "2026-02-02")
    [first, *_] = codes(client, address)
    told = client.done(f"{address}/enter", {"paper": first, "entry": "absent", "reason": "unwell"})
    assert f"{first} stands as absent." in told
    assert "absent: unwell" in told
    told = client.done(f"{address}/enter", {"paper": first, "entry": "back", "reason": "was there after all"})
    assert f"{first} stands as issued." in told


def test_what_cannot_be_entered_is_said_in_a_line(client: Sitter) -> None:
    address = register(client, "2026-02-02")
    [first, *_] = codes(client, address)
    for fields, why in (
        ({"entry": "absent"}, "write it"),
        ({"entry": "late", "reason": "ill"}, "needs the day agreed"),
        ({"entry": "late", "reason": "ill", "until": "soon"}, "is not a date"),
        ({"entry": "issued"}, "choose what happened"),
        ({}, "choose what happened"),
    ):
        refused = client.fill(f"{address}/enter", {"paper": first, **fields})
        assert refused.status_code == 422
        assert "Nothing was entered" in words(refused.text)
        assert why in words(refused.text), fields
        typed = [fields[name] for name in ("reason", "until") if name in fields]
        assert all(f'value="{text}"' in refused.text for text in typed), "what was typed is still there"


def test_scripts_are_confirmed_released_and_taken_back_with_a_reason(client: Sitter) -> None:
    address = register(client, "2026-01-05")
    done = [code for code in codes(client, address) if f'value="{code}"' in client.get(address).text]
    confirmed = client.done(f"{address}/move", {"move": "confirm", "whose": ""})
    assert re.search(r"\d scripts? confirmed\.", confirmed)
    assert "confirmed by J. Marsh" in confirmed
    released = client.done(f"{address}/move", {"move": "release"})
    assert "released by J. Marsh" in released
    refused = client.fill(f"{address}/move", {"move": "take back"})
    assert refused.status_code == 422
    assert "Nothing was changed" in words(refused.text)
    assert "taken back" in client.done(f"{address}/move", {"move": "take back", "reason": "a mark is looked at again"})
    assert done
    assert client.fill(f"{address}/move", {"move": "burn"}).status_code == 422


def test_a_sitting_that_is_not_there_is_said(client: Sitter) -> None:
    told = client.get("/keep/register/NOSUCH")
    assert told.status_code == 422
    assert "the record has no sitting NOSUCH" in words(told.text)
