"""A bank written by keyboard alone: faults beside the line as one types, saved, proved meanwhile, seen on paper."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from courseware.workflows.own_banks import NEW_BANK, begin_bank, open_bank
from tests.desk.pages.test_jobs_in_a_browser import to


def test_a_bank_is_written_by_keyboard(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], tmp_path: Path
) -> None:
    page, desk = open_desk(tmp_path, viewport={"width": 1280, "height": 800})
    to(page, "Banks")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Banks")
    to(page, "Its file's name")
    page.keyboard.type("piers")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("A topic of my own")
    faults = axe_finds(page)

    to(page, "The bank’s text")
    page.keyboard.press("ControlOrMeta+Home")
    for _ in range(5):
        page.keyboard.press("ArrowDown")
    page.keyboard.press("End")
    page.keyboard.press("Backspace")
    page.keyboard.type("9")  # the sixth line, which says the level
    beside = page.locator(".said-beside p")
    expect(beside).to_have_text("level 9; expected 1, 2 or 3")
    expect(page.locator(".numbers .bad")).to_have_text("6")
    line, note = page.locator(".numbers .bad").bounding_box(), beside.bounding_box()
    assert abs(line["y"] - note["y"]) < 3  # beside its own line
    expect(page.locator("#said")).to_have_text("1 fault.")
    assert open_bank(desk.folder, "piers").text == NEW_BANK  # nothing is saved by looking
    faults += axe_finds(page)

    page.keyboard.press("Escape")  # out of the text: Tab goes on
    to(page, "Line 6")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "text"
    page.keyboard.press("End")
    page.keyboard.press("Backspace")
    page.keyboard.type("2")
    expect(page.locator("#faults")).to_contain_text("No faults.")
    page.keyboard.press("ControlOrMeta+s")
    expect(page.locator("#said")).to_have_text("Saved.")
    assert open_bank(desk.folder, "piers").text == NEW_BANK.replace("level: 1", "level: 2")

    expect(page.locator("#proof")).to_contain_text("All 1 exercise proved, with 36 variants to issue.", timeout=30_000)
    faults += axe_finds(page)
    page.keyboard.press("Escape")
    to(page, "See its paper and key")
    with page.expect_popup() as opened:  # a window of its own: what is typed stays in this one
        page.keyboard.press("Enter")
    paper = opened.value
    expect(paper.get_by_role("heading", level=1)).to_contain_text("as it would print", timeout=60_000)
    for picture in paper.locator("img.sheet").all():
        picture.scroll_into_view_if_needed()
        assert picture.evaluate("image => image.decode().then(() => image.naturalWidth)") > 500
    faults += axe_finds(paper)
    paper.close()
    assert faults == []


def test_the_proof_begins_by_itself_and_stands_beside_the_text(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], tmp_path: Path
) -> None:
    begin_bank(tmp_path, "piers")
    page, desk = open_desk(tmp_path, viewport={"width": 1280, "height": 800})
    page.goto(desk.address.origin + "/banks/own/piers")
    beside = page.locator(".said-beside p")
    page.locator("#text").fill(NEW_BANK.replace("answer: pier(bricks)", "answer: pier(bricks) + 1"))
    expect(beside).to_contain_text("length-of-a-pier failed.", timeout=30_000)
    faults = axe_finds(page)
    page.locator("#text").fill(NEW_BANK)
    expect(beside).to_have_count(0)
    expect(page.locator("#proof")).to_contain_text("All 1 exercise proved", timeout=30_000)
    assert [job.title for job in desk.jobs.all()] == ["Proof of piers"]  # the newest alone
    assert faults == []


def test_banks_and_practice_fit_a_narrow_screen(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], tmp_path: Path
) -> None:
    begin_bank(tmp_path, "piers")
    page, desk = open_desk(tmp_path, viewport={"width": 320, "height": 640})
    faults: list[str] = []
    for address in ("/banks", "/banks/own/piers", "/banks/shipped/opening_sizes", "/practise"):
        page.goto(desk.address.origin + address)
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, address
        faults += axe_finds(page)
    assert faults == []


def test_a_bank_is_looked_at_and_saved_without_javascript(open_desk: Callable[..., Any], tmp_path: Path) -> None:
    begin_bank(tmp_path, "piers")
    page, desk = open_desk(tmp_path, java_script_enabled=False)
    page.goto(page.url.rstrip("/") + "/banks/own/piers")
    page.get_by_label("The bank’s text").fill(NEW_BANK.replace("level: 1", "level: 9"))
    page.get_by_role("button", name="Look at it").click()
    assert "Line 6 level: 9 level 9; expected 1, 2 or 3" in page.locator(".faults").inner_text()
    page.get_by_label("The bank’s text").fill(NEW_BANK.replace("level: 1", "level: 3"))
    page.get_by_role("button", name="Save").click()
    assert "Saved." in page.locator(".notes").inner_text()
    assert open_bank(desk.folder, "piers").text == NEW_BANK.replace("level: 1", "level: 3")


def test_the_pages_are_valid_html(client: Any, html_validate: Callable[..., str], tmp_path: Path) -> None:
    own = f"/banks/own/{begin_bank(client.desk.folder, 'piers')}"
    pages = [client.get(address).text for address in ("/banks", own, "/banks/shipped/mitre_template", "/practise")]
    pages.append(client.fill(f"{own}/look", {"text": NEW_BANK.replace("level: 1", "level: 9")}).text)
    files = [tmp_path / f"{place}.html" for place in range(len(pages))]
    for file, text in zip(files, pages, strict=True):
        file.write_text(text, encoding="utf-8")
    assert html_validate(*files) == ""
