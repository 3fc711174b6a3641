"""Papers made from a class list to a sitting's page: by keyboard on a phone, by mouse, without JavaScript."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from courseware.files.sitting_folders import find_folders
from courseware.workflows.class_lists import open_list
from tests.desk.by_keyboard import follow, press, to
from tests.desk.making import LIST, with_own_bank

PATIENCE = 60_000  # ms: the shipped topics are read and proved while the page is waited for
PHONE, LARGE = {"width": 360, "height": 740}, {"width": 1280, "height": 900}


@pytest.fixture
def class_list(tmp_path: Path) -> Path:
    """What a college exported: its second learner has a format that is none."""
    file = tmp_path / "group-a.csv"
    file.write_bytes(LIST)
    return file


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "work").mkdir()
    return with_own_bank(tmp_path / "work")


def learners(folder: Path) -> list[list[str]]:
    return [[paper.learner.name for paper in one.sitting.papers] for one in find_folders([folder / "output"])[0]]


def test_papers_are_made_by_keyboard_alone_on_a_narrow_screen(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], folder: Path, class_list: Path
) -> None:
    page, _ = open_desk(folder, viewport=PHONE)
    page.set_default_timeout(PATIENCE)
    faults: list[str] = []

    def looked_over() -> None:
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"], page.url
        faults.extend(axe_finds(page))

    follow(page, "Make papers")
    looked_over()
    follow(page, "Make new papers")
    looked_over()
    to(page, "Drop a class list here, or choose its file")
    with page.expect_file_chooser() as chooser:
        page.keyboard.press("Space")
    chooser.value.set_files(class_list)  # the system's own window to choose a file is no part of the page
    expect(page.get_by_text("1 row to be mended")).to_be_visible()
    looked_over()
    follow(page, "Mend line 3, Łukasz Wójcik")
    looked_over()
    to(page, "Paper")
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.press("Delete")
    with page.expect_navigation():
        page.keyboard.press("Enter")
    follow(page, "On to the exercises")
    looked_over()
    follow(page, "Piers", exactly=False)
    press(page, "Another variant", exactly=False)
    expect(page.get_by_role("link", name="Another variant")).to_be_focused()
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#totals")).to_contain_text("1 exercise, 3 marks, about 4 minutes and 1 side a paper")
    expect(page.get_by_role("button", name="Take it off")).to_be_focused()
    looked_over()
    follow(page, "Put them in order")
    looked_over()
    follow(page, "On to the settings")
    to(page, "Title")
    page.keyboard.type("Piers")
    looked_over()
    follow(page, "Save, and look at everything once more")
    looked_over()
    follow(page, "Make the papers")
    page.reload()  # the work goes on, and so does its page
    expect(page.get_by_text("2 papers made, each with its key.")).to_be_visible(timeout=PATIENCE)
    looked_over()
    follow(page, "On to Piers, Group a: its files and learners")
    expect(page.get_by_text("Print this for the class")).to_be_visible()
    looked_over()
    assert learners(folder) == [["Amara Okafor", "Łukasz Wójcik"]]
    assert faults == []


def test_papers_are_made_by_mouse_and_a_list_that_is_dropped(
    open_desk: Callable[..., Any], html_validate: Callable[..., str], folder: Path, class_list: Path, tmp_path: Path
) -> None:
    page, desk = open_desk(folder, viewport=LARGE)
    page.set_default_timeout(PATIENCE)
    seen: list[Path] = []

    def keep() -> None:
        file = tmp_path / f"page-{len(seen)}.html"
        file.write_text(page.request.get(page.url).text(), encoding="utf-8")
        seen.append(file)

    page.goto(f"{desk.address.origin}/papers")
    keep()
    page.get_by_role("button", name="Make new papers").click()
    keep()
    page.wait_for_load_state()  # its script listens by then
    dropped = page.evaluate_handle(
        "text => { const all = new DataTransfer(); all.items.add(new File([text], 'group-a.csv')); return all }",
        class_list.read_text(encoding="utf-8"),
    )
    page.locator("form.drop").dispatch_event("drop", {"dataTransfer": dropped})
    page.get_by_role("link", name="Mend line 3").click()
    keep()
    page.get_by_role("button", name="Leave out").click()
    keep()
    assert [row.name for row in open_list(folder, "group-a").rows] == ["Amara Okafor"]
    page.get_by_role("link", name="On to the exercises").click()
    keep()
    page.get_by_role("link", name=re.compile("Safe cutting")).click()
    keep()
    before = page.locator("#exercise-1 .pose").inner_text()
    page.get_by_role("link", name="Another variant").first.click()
    expect(page.locator("#exercise-1 .pose")).not_to_have_text(before)
    page.get_by_role("button", name="Put it on the paper").nth(0).click()
    expect(page.locator("#exercise-1.on")).to_be_visible()
    page.get_by_role("button", name="Put it on the paper").nth(0).click()
    expect(page.locator("#totals")).to_contain_text("2 exercises")
    page.get_by_role("link", name="Put them in order").click()
    names = page.locator(".in-order b")
    first = names.nth(0).inner_text().removeprefix("1. ")
    page.get_by_role("button", name=re.compile(f"^Down.*{first}$")).click()
    expect(names.nth(1)).to_have_text(f"2. {first}")
    keep()
    page.get_by_role("link", name="On to the settings").click()
    keep()
    page.get_by_text("Large, 18 point").click()
    page.get_by_role("button", name="Save").click()
    keep()
    page.get_by_role("button", name="Make the papers").click()
    page.get_by_role("link", name="On to Safe cutting").click(timeout=PATIENCE)
    expect(page.get_by_role("row", name="Amara Okafor")).to_contain_text("large-18")
    for fold in page.locator("details").all():
        fold.locator("summary").click()
    keep()
    assert html_validate(*seen) == ""


def test_papers_are_made_without_javascript(open_desk: Callable[..., Any], folder: Path, class_list: Path) -> None:
    page, desk = open_desk(folder, viewport=LARGE, java_script_enabled=False)
    page.set_default_timeout(PATIENCE)
    page.goto(f"{desk.address.origin}/papers")
    page.get_by_role("button", name="Make new papers").click()
    page.get_by_label("Drop a class list here").set_input_files(class_list)
    page.get_by_role("button", name="Read it").click()
    page.get_by_role("link", name="Mend line 3").click()
    page.get_by_role("button", name="Leave out").click()
    page.get_by_role("link", name="On to the exercises").click()
    page.get_by_role("link", name=re.compile("Piers")).click()
    pose = page.locator("#exercise-1 .pose").inner_text()
    page.get_by_role("link", name="Another variant").click()
    assert page.locator("#exercise-1 .pose").inner_text() != pose
    page.get_by_role("button", name="Put it on the paper").click()
    assert "1 exercise" in page.locator("#totals").inner_text()
    page.get_by_role("link", name="Make", exact=True).click()
    page.get_by_role("button", name="Make the papers").click()
    for _ in range(200):
        if page.get_by_role("link", name="On to").count():
            break
        page.wait_for_timeout(100)
        page.reload()
    page.get_by_role("link", name="On to").click()
    assert "Amara Okafor" in page.locator("table").inner_text()
    assert learners(folder) == [["Amara Okafor"]]
