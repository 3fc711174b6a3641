"""The desk by keyboard alone, or by mouse: the same steps by what stands on the page, with scripts or without.

What is typed into a field is typed on a keyboard either way; a file is chosen in the system's own window.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol
from urllib.parse import urljoin

import pytest

from tests.desk.by_keyboard import to

PATIENCE = 120  # s: papers, feedback and the class picture are printed meanwhile, and all shipped banks proved
_FIND = """([name, exactly]) => {
  const said = one => (one.labels?.[0]?.textContent ?? one.textContent ?? '').replace(/\\s+/g, ' ').trim();
  return [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')]
    .find(one => one.checkVisibility() && (exactly ? said(one) === name : said(one).startsWith(name))) }"""


class Hand(Protocol):
    """How one comes to a link, button or field by its name, and uses it."""

    page: Any

    def at(self, name: str, *, exactly: bool = True) -> None:
        """Has it in hand: a field with the focus, a link or button about to be used."""

    def press(self, name: str, *, exactly: bool = True) -> None:
        """Uses a link, a button, a box to tick or what unfolds."""

    def pick(self, name: str, option: str) -> None:
        """Chooses of a list what begins so."""


@dataclass(frozen=True)
class Keyboard:
    """Tab, Space, Enter and the arrows."""

    page: Any

    def at(self, name: str, *, exactly: bool = True) -> None:
        to(self.page, name, exactly=exactly)

    def press(self, name: str, *, exactly: bool = True) -> None:
        self.at(name, exactly=exactly)
        box = self.page.evaluate("document.activeElement.matches('[type=checkbox], [type=file]')")
        self.page.keyboard.press("Space" if box else "Enter")

    def pick(self, name: str, option: str) -> None:
        self.at(name)
        self.page.keyboard.press("Home")
        for _ in range(60):
            if self.page.evaluate("document.activeElement.selectedOptions[0].text.trim()").startswith(option):
                return
            self.page.keyboard.press("ArrowDown")
        pytest.fail(f"{name} has no {option}")


@dataclass(frozen=True)
class Mouse:
    """Clicks alone."""

    page: Any

    def _found(self, name: str, *, exactly: bool) -> Any:
        found = self.page.evaluate_handle(_FIND, [name, exactly]).as_element()
        assert found, f"{name} is not in sight on {self.page.url}"
        return found

    def at(self, name: str, *, exactly: bool = True) -> None:
        self._found(name, exactly=exactly).click()

    def press(self, name: str, *, exactly: bool = True) -> None:
        self._found(name, exactly=exactly).click()

    def pick(self, name: str, option: str) -> None:
        found = self._found(name, exactly=True)
        texts = found.evaluate("one => [...one.options].map(one => one.text.trim())")
        found.select_option(index=next(place for place, text in enumerate(texts) if text.startswith(option)))


@dataclass
class AtTheDesk:
    """Somebody who sits at the desk: with which hand, whether scripts run, the folder of work, what axe found so far."""

    hand: Hand
    scripts: bool
    axe_finds: Any
    folder: Path
    faults: list[str]

    @property
    def page(self) -> Any:
        return self.hand.page

    def look(self, told: str) -> str:
        """Waits for the page with that heading, looks it over, and gives what it says."""
        heading = self.page.locator("h1").first
        heading.filter(has_text=told).wait_for(timeout=PATIENCE * 1000)
        assert self.page.evaluate("document.documentElement.scrollWidth <= innerWidth"), self.page.url
        if self.scripts:
            self.faults += self.axe_finds(self.page)
        return self.says()

    def says(self) -> str:
        """What stands on the page, in one line."""
        return " ".join(self.page.locator("main").inner_text().split())

    def follow(self, *names: str, exactly: bool = True) -> None:
        """Goes through these links and buttons, each to the page it leads to."""
        for name in names:
            with self.page.expect_navigation(timeout=PATIENCE * 1000):
                self.hand.press(name, exactly=exactly)

    def write(self, name: str, text: str, *, exactly: bool = True) -> None:
        """Puts a text in the place of what stands in a field."""
        self.hand.at(name, exactly=exactly)
        self.page.keyboard.press("ControlOrMeta+a")
        self.page.keyboard.insert_text(text) if "\n" in text else self.page.keyboard.type(text)

    def give(self, name: str, *files: Path, sends: str = "") -> None:
        """Chooses files, and sends them by a button where they do not go by themselves."""
        with self.page.expect_file_chooser() as chooser:
            self.hand.press(name)
        if sends:
            chooser.value.set_files(list(files))
            self.follow(sends)
        else:
            with self.page.expect_navigation(timeout=PATIENCE * 1000):
                chooser.value.set_files(list(files))

    def done(self, says: str) -> str:
        """Waits until long work is over and has come to this."""
        ends = time.monotonic() + PATIENCE
        while self.page.locator("#progress").count() and time.monotonic() < ends:
            if self.scripts:
                self.page.wait_for_timeout(100)
            else:
                self.page.wait_for_timeout(300)
                self.page.reload()
        told = self.says()
        assert says in told, told
        return told

    def file(self, name: str) -> bytes:
        """The file behind a link of the page."""
        link = self.page.locator("a[href^='/file/']", has_text=name).first.get_attribute("href")
        answer = self.page.request.get(urljoin(self.page.url, link))
        assert answer.ok, name
        return bytes(answer.body())


def click_at(page: Any, cell: Any) -> None:
    """Clicks where a cell is: the field of the grid may stand over it."""
    cell.scroll_into_view_if_needed()
    box = cell.bounding_box()
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)


def keyed(page: Any, keys: Sequence[str]) -> None:
    """Types texts, each followed by Enter."""
    for text in keys:
        page.keyboard.type(text)
        page.keyboard.press("Enter")
