"""A job made from the first page to its saved file by keyboard alone; and every state of its pages looked over."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from courseware.settings.settings import DEFAULTS
from courseware.workflows.own_jobs import open_own, task_of
from tests.desk.by_keyboard import to


def test_a_job_is_made_by_keyboard_and_drawn_again_at_each_change(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], tmp_path: Path
) -> None:
    """13 courses do not close and 12 do: courses of a weave go in threes, the surround takes three of them."""
    page, desk = open_desk(tmp_path, viewport={"width": 1280, "height": 800})
    to(page, "Job")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Job")
    to(page, "A framed panel beside a porch")
    page.keyboard.press("Enter")
    drawing = page.locator("#drawing")
    expect(drawing.get_by_role("img", name="Elevation of the wall")).to_be_visible()
    before = drawing.locator(".drawing").first.inner_html()

    to(page, "Opening, high, courses")
    page.keyboard.press("ArrowUp")
    expect(drawing.locator("#cannot")).to_contain_text("courses go in threes")
    assert "opening.courses=13" in page.url
    expect(page.locator("#said")).to_contain_text("courses go in threes")
    faults = axe_finds(page)
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    expect(drawing.locator("#cannot")).to_contain_text("the wall is not high enough")
    to(page, "Wall, high: 22 courses")
    page.keyboard.press("Enter")
    expect(page.get_by_label("Wall, high, courses")).to_have_value("22")
    expect(drawing).to_contain_text("1135 mm")  # 15 courses of 75 mm and a joint: Sheet 9
    to(page, "Waste on bricks and mortar, %")
    page.keyboard.press("ArrowUp")
    expect(page.locator("#said")).to_have_text("Drawn again.")
    assert drawing.locator(".drawing").first.inner_html() != before

    page.reload()  # the address has what was chosen
    expect(page.get_by_label("Opening, high, courses")).to_have_value("15")
    to(page, "What is built")
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("A panel by the gate")
    to(page, "Save as a new job")
    page.keyboard.press("Enter")
    expect(page.locator(".notes")).to_contain_text("Saved as a job of your own")
    shape = task_of(open_own(desk.folder, "a-panel-by-the-gate"), DEFAULTS).shape
    assert (shape.job, shape.opening.courses) == ("A panel by the gate", 15)
    faults += axe_finds(page)
    page.set_viewport_size({"width": 320, "height": 640})
    for address in ("/jobs", "/jobs/own/a-panel-by-the-gate", "/jobs/own/a-panel-by-the-gate/results"):
        page.goto(desk.address.origin + address)
        assert page.evaluate("document.documentElement.scrollWidth") <= 320, address
        faults += axe_finds(page)
    assert faults == []


def test_a_job_is_chosen_without_javascript(open_desk: Callable[..., Any], tmp_path: Path) -> None:
    page, _ = open_desk(tmp_path, java_script_enabled=False)
    page.goto(page.url.rstrip("/") + "/jobs/examples/porch-panel")
    page.get_by_label("Opening, high, courses").fill("15")
    page.get_by_label("Wall, high, courses").fill("24")
    page.get_by_role("button", name="Draw it again").click()
    assert "opening.courses=15" in page.url
    assert "1135 mm" in page.locator("#drawing").inner_text()


def test_the_pages_are_valid_html(client: Any, html_validate: Callable[..., str], tmp_path: Path) -> None:
    own = client.fill("/jobs/examples/porch-panel/new", {"job": "Own"}).headers["location"]
    addresses = ("/jobs", own, f"{own}?opening.courses=13&waste=80&format=AUSTRALIAN", f"{own}/results")
    pages = [client.get(address).text for address in addresses]
    pages.append(client.fill(f"{own}/results/enter", {"measured-0": "x"}).text)
    files = [tmp_path / f"{place}.html" for place in range(len(pages))]
    for file, text in zip(files, pages, strict=True):
        file.write_text(text, encoding="utf-8")
    assert html_validate(*files) == ""
