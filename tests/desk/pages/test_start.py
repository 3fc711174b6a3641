"""The first page and the choice of a folder."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

from tests.desk.conftest import Sitter, desk_over, finished, words


def handle(page: str, name: str) -> str:
    """The handle in a link of that name."""
    return re.findall(rf'href="/folder\?in=([0-9a-f]+)">{re.escape(name)}</a>', unescape(page))[0]


def test_the_first_page_lists_sittings_the_latest_first(client: Sitter) -> None:
    shown = words(client.get("/").text)
    assert "2 February 2026, 4 papers not marked yet Print the papers" in shown
    assert "5 January 2026, 4 papers marked Marked: " in shown
    assert shown.index("2 February") < shown.index("5 January")


def test_papers_of_a_stopped_run_are_gone_on_with_or_thrown_away(client: Sitter, work: Path) -> None:
    [done] = (work / "output").glob("2026-02-02*")
    left = done.with_name(f".{done.name}.unfinished")
    done.rename(left)
    (left / ".request").write_text("issue x")
    next(left.rglob("paper-*.pdf")).unlink()
    shown = client.get("/").text
    assert "Group B, 3 of 4 papers printed before it was stopped" in words(shown)
    [of] = re.findall(r'name="of" value="(\w+)"', shown)
    assert "4 papers and keys in" in finished(client, client.fill("/stopped", {"of": of, "do": "go on"}))
    assert "Not finished" not in words(client.get("/").text)
    assert "finished or thrown away meanwhile" in client.done("/stopped", {"of": of, "do": "throw away"})
    assert done.is_dir()


def test_an_empty_folder_says_what_to_do_first(tmp_path: Path) -> None:
    sitter = Sitter(desk_over(tmp_path)).come_in()
    assert "First make papers" in words(sitter.get("/").text)


def test_a_folder_is_found_by_going_down_and_up_and_is_chosen(work: Path, tmp_path: Path) -> None:
    sitter = Sitter(desk_over(None)).come_in()
    above = sitter.desk.handles.of(tmp_path)
    shown = sitter.get(f"/folder?in={above}").text
    assert "worked in before" in words(shown)
    down = handle(shown, "work")
    assert handle(sitter.get(f"/folder?in={down}").text, "The folder above") == above
    assert f"You work in {work}" in sitter.done("/folder/choose", {"in": down, "do": "choose"})
    assert sitter.desk.folder == work


def test_a_folder_is_made_and_worked_in(tmp_path: Path) -> None:
    sitter = Sitter(desk_over(None)).come_in()
    at = sitter.desk.handles.of(tmp_path)
    sitter.done("/folder/choose", {"in": at, "do": "make", "name": "  Bricklaying   year 1 "})
    assert sitter.desk.folder == tmp_path / "Bricklaying year 1"
    assert sitter.desk.folder.is_dir()


def test_a_name_that_leads_elsewhere_makes_nothing(tmp_path: Path) -> None:
    sitter = Sitter(desk_over(None)).come_in()
    at = sitter.desk.handles.of(tmp_path)
    for name in ("..", "../x", "a/b", "C:\\x", "\\\\server\\share", "", "x\0y", ".hidden"):
        refused = sitter.fill("/folder/choose", {"in": at, "do": "make", "name": name})
        assert refused.status_code == 422, name
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_no_page_showed_is_not_looked_into(client: Sitter) -> None:
    for asked in ("/etc", "..", "0" * 30):
        assert client.get("/folder", params={"in": asked}).status_code == 404
        assert client.fill("/folder/choose", {"in": asked, "do": "choose"}).status_code == 404
