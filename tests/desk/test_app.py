"""The desk put together: every screen has its routes, files go by handle, faults are told in plain words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from starlette.routing import Route

from courseware.desk.app import screens
from tests.desk.conftest import Sitter, desk_over, words


def test_every_screen_of_the_navigation_has_its_page(client: Sitter) -> None:
    _, nav = screens()
    assert [one.place for one in nav] == sorted({one.place for one in nav}), "each its own place"
    for one in nav:
        assert client.get(one.address).status_code == 200, one.address


def test_routes_are_asked_for_or_filled_in_never_both() -> None:
    routes, _ = screens()
    assert routes
    for route in routes:
        assert isinstance(route, Route)
        assert route.methods in ({"GET", "HEAD"}, {"POST"}), route.path


def test_a_file_is_given_by_its_handle_and_by_nothing_else(client: Sitter, work: Path) -> None:
    handle = client.desk.handles.of(work / "piers.yaml")
    given = client.get(f"/file/{handle}")
    assert given.content == (work / "piers.yaml").read_bytes()
    assert given.headers["content-disposition"] == 'attachment; filename="piers.yaml"'
    assert client.get("/file/piers.yaml").status_code == 404
    assert client.get(f"/file/{'0' * 30}").status_code == 404


def test_a_pdf_is_shown_and_what_could_run_is_saved(client: Sitter, tmp_path: Path) -> None:
    for name, how in (("a.pdf", "inline"), ("a.html", "attachment"), ("a.svg", "attachment")):
        (tmp_path / name).write_text("x")
        assert (
            client.get(f"/file/{client.desk.handles.of(tmp_path / name)}")
            .headers["content-disposition"]
            .startswith(how)
        )


def test_an_address_with_nothing_there_says_so(client: Sitter) -> None:
    missing = client.get("/no/such/page")
    assert missing.status_code == 404
    assert "There is nothing at this address" in words(missing.text)


def test_a_page_that_needs_a_folder_leads_to_the_choice_of_one(tmp_path: Path) -> None:
    sitter = Sitter(desk_over(None)).come_in()
    assert sitter.get("/settings").headers["location"] == "/folder"


@pytest.mark.parametrize("text", ["name: [", "nmae: Brookfield"])
def test_what_is_wrong_with_a_file_is_told_in_plain_words(client: Sitter, work: Path, text: str) -> None:
    (work / "centre.yaml").write_text(text, encoding="utf-8")
    told = words(client.get("/settings").text)
    assert re.search(r"1 fault, so no paper can be made by it: Line \d:", told)
    assert "Traceback" not in told
