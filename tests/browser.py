"""Debian's chromium for the tests of what runs in a browser: skipped without it, unless COURSEWARE_BROWSER_TESTS=required."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser

CHROMIUM = Path(os.environ.get("COURSEWARE_CHROMIUM", "/usr/bin/chromium"))
REQUIRED = os.environ.get("COURSEWARE_BROWSER_TESTS") == "required"
QUIET = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip


def missing(what: str) -> None:
    """Skips the test, or fails it where the browser's tests are required."""
    (pytest.fail if REQUIRED else pytest.skip)(what)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One a process, for all tests that ask for it: a second would not start beside it."""
    if not CHROMIUM.exists():
        missing(f"{CHROMIUM} is not installed")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        yield opened
        opened.close()
