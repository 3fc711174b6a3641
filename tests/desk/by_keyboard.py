"""The desk by keyboard alone."""

from __future__ import annotations

from typing import Any

import pytest

_NAMED = (
    "([name, exactly]) => { const one = document.activeElement; "
    "const said = (one.labels?.[0]?.textContent ?? one.textContent ?? '').replace(/\\s+/g, ' ').trim(); "
    "return exactly ? said === name : said.startsWith(name) }"
)


def to(page: Any, name: str, *, exactly: bool = True) -> None:
    """Goes on by Tab until the field, link or button of that name has the focus."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate(_NAMED, [name, exactly]):
            return
    pytest.fail(f"Tab does not reach {name}")


def press(page: Any, name: str, *, exactly: bool = True) -> None:
    """Goes to it and presses Enter on it."""
    to(page, name, exactly=exactly)
    page.keyboard.press("Enter")


def follow(page: Any, name: str, *, exactly: bool = True) -> None:
    """Presses Enter on it and waits for the page that it leads to."""
    to(page, name, exactly=exactly)
    with page.expect_navigation():
        page.keyboard.press("Enter")
