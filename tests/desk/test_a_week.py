"""A week at the desk in a browser: a tutor by keyboard alone on a wide screen, an assessor by keyboard on a phone's width.

The tutor prints papers, types in what came back (a slip, an answer that does not read, somebody absent), decides what
waits, sees the class picture, confirms, releases and makes a retake. The assessor looks at the register and draws a
sample. Choosing exercises and mending a class list: `pages/test_papers_in_a_browser.py`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import expect

from courseware.files.sitting_folders import find_folders
from courseware.papers.sitting import Sitting
from courseware.workflows.class_lists import keep_list
from tests.desk.by_keyboard import follow, press, to
from tests.desk.making import LENGTH, newly_begun

PATIENCE = 60_000  # ms: papers, feedback and the class picture are printed meanwhile
LIST = "Name,ID\nAmara Okafor,0012\nŁukasz Wójcik,0013\nZoë O'Brien-Smythe,0014\n".encode()  # invented


def heading(page: Any, text: str) -> None:
    expect(page.get_by_role("heading", level=1)).to_contain_text(text, timeout=PATIENCE)


def type_in(page: Any, sitting: Sitting) -> None:
    """Amara gets all right but a slip, Łukasz writes what does not read, Zoë was absent."""
    first, second, _ = sitting.papers
    for text in (str(int(first.parts[0].answer) + 10), first.parts[1].answer, "see back", second.parts[1].answer):
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    page.keyboard.press("ArrowLeft")
    page.keyboard.type("a")
    page.keyboard.press("ArrowRight")
    expect(page.locator("#saved")).to_have_text("All saved")


@dataclass(slots=True)
class Sat:
    """A person at the desk: its page, what axe found so far, and the folder of work."""

    page: Any
    axe_finds: Callable[[Any], list[str]]
    folder: Path
    faults: list[str] = field(default_factory=list)

    def look(self, told: str) -> None:
        """Waits for the page with that heading and looks it over."""
        heading(self.page, told)
        width = self.page.viewport_size["width"]
        assert self.page.evaluate("document.documentElement.scrollWidth") <= width, self.page.url
        self.faults += self.axe_finds(self.page)

    def sittings(self) -> list[Sitting]:
        return [one.sitting for one in find_folders([self.folder / "output"])[0]]


def test_a_week_of_a_tutor_and_of_an_assessor(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], tmp_path: Path
) -> None:
    folder = tmp_path / "work"
    folder.mkdir()
    keep_list(folder, LIST, "group-a.csv")
    newly_begun(folder, class_list="group-a", picks=(LENGTH,), title="Piers")
    page, _ = open_desk(folder, viewport={"width": 1280, "height": 900})
    page.set_default_timeout(PATIENCE)
    at = Sat(page, axe_finds, folder)
    papers_are_made(at)
    answers_are_typed(at)
    what_waits_is_decided(at)
    marks_are_seen_and_released(at)
    somebody_takes_it_again(at)
    page.set_viewport_size({"width": 360, "height": 740})
    the_register_is_read(at)
    a_sample_is_drawn(at)
    assert at.faults == []


def papers_are_made(at: Sat) -> None:
    follow(at.page, "Make papers")
    follow(at.page, "Piers")
    follow(at.page, "Make")
    at.look("Piers")
    follow(at.page, "Make the papers")
    expect(at.page.get_by_role("link", name="On to Piers")).to_be_visible(timeout=PATIENCE)
    follow(at.page, "On to Piers", exactly=False)
    at.look("Piers")


def answers_are_typed(at: Sat) -> None:
    [sitting] = at.sittings()
    page = at.page
    follow(page, "Type in the answers")
    page.keyboard.type("9")  # at once, before the question of the cell has come
    expect(page.locator("#beside h2")).to_have_text(f"Amara Okafor, {sitting.papers[0].parts[0].label}")
    expect(page.locator("#reading")).to_contain_text("9 mm")
    page.keyboard.press("Escape")
    type_in(page, sitting)
    expect(page.locator("#grid tbody tr").nth(2)).to_contain_text("absent")
    at.look("Piers")


def what_waits_is_decided(at: Sat) -> None:
    page = at.page
    follow(page, "What waits for a look")
    expect(page.locator("tbody tr")).to_have_count(1)
    follow(page, "Look at one after another")
    at.look("Łukasz Wójcik")
    to(page, "Marks, of 2")
    page.keyboard.type("1")
    page.keyboard.press("Tab")
    page.keyboard.type("Seen in the working")
    with page.expect_navigation():
        page.keyboard.press("Enter")
    expect(page.locator("main")).to_contain_text("Decided: Łukasz Wójcik, 1a: 1 mark.")


def marks_are_seen_and_released(at: Sat) -> None:
    page = at.page
    follow(page, "Mark Piers")
    expect(page.get_by_role("link", name="See the class picture")).to_be_visible(timeout=PATIENCE)
    follow(page, "See the class picture")
    at.look("Class picture")
    expect(page.locator(".heat tbody tr")).to_have_count(2)
    expect(page.locator(".slips")).to_contain_text("The joint at the end was left on")
    follow(page, "Confirm 2 marked scripts")
    follow(page, "Release 2 confirmed scripts")
    expect(page.locator("main")).to_contain_text("2 scripts released")


def somebody_takes_it_again(at: Sat) -> None:
    page = at.page
    follow(page, "Files of the sitting")
    press(page, "Somebody takes it again")
    to(page, "Zoë O'Brien-Smythe")
    page.keyboard.press("Space")
    follow(page, "Make the retake")
    expect(page.get_by_role("link", name="On to Retake")).to_be_visible(timeout=PATIENCE)
    follow(page, "On to Retake: Piers", exactly=False)
    heading(page, "Retake: Piers")
    assert sorted(len(one.papers) for one in at.sittings()) == [1, 3]


def the_register_is_read(at: Sat) -> None:
    follow(at.page, "Keep")
    at.look("Keep")
    follow(at.page, "Piers")
    at.look("Register of Piers")
    expect(at.page.get_by_role("row", name="Zoë")).to_contain_text("absent")


def a_sample_is_drawn(at: Sat) -> None:
    page = at.page
    follow(page, "Keep")
    follow(page, "Sampling")
    at.look("Sampling")
    to(page, "How many")
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("1")
    with page.expect_navigation():
        page.keyboard.press("Enter")
    expect(page.locator("main")).to_contain_text("1 of them will be drawn")
    follow(page, "Draw 1 paper")
    expect(page.locator("ul.files").first).to_be_visible(timeout=PATIENCE)
    at.look("Papers for a quality assurer")
