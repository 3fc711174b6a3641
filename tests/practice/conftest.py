"""A practice page in Debian's chromium, and a learner at it who knows the right answers from the file.

The browser is /usr/bin/chromium. Without it these tests are skipped, unless COURSEWARE_BROWSER_TESTS=required (as in
`.ci/run`): then its absence is a failure.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from courseware.files.bank_files import find_banks, read_banks, shipped_folder
from courseware.glossary.second_language import SecondLanguage
from courseware.glossary.sheets import Glossary, compose_glossary
from courseware.glossary.words_file import read_words
from courseware.papers.shares import for_practice
from tests.practice.learner import Learner

PHONE: dict[str, Any] = {
    "viewport": {"width": 320, "height": 640}, "locale": "en-GB", "timezone_id": "Europe/London",
}  # fmt: skip
PATIENCE = 5000  # ms: a busy machine is no fault of the page
TOPICS = ("course_gauge", "opening_sizes", "panels_and_surrounds")  # between them every kind of part
expect.set_options(timeout=PATIENCE)


def glossary() -> Glossary:
    """The shipped words, some of them with Arabic beside them."""
    words = read_words((shipped_folder() / "glossary" / "words.yaml").read_bytes(), "words.yaml")
    return compose_glossary(words, SecondLanguage(tag="ar", words={"arris": "حافة", "bed": "مفصل"}, right_to_left=True))


@pytest.fixture(scope="session")
def practice_file(tmp_path_factory: pytest.TempPathFactory, space_of) -> Path:
    """A page with the easiest exercises of three topics."""
    banks, notes = read_banks(find_banks(TOPICS))
    chosen = [(bank, exercise) for bank in banks for exercise in bank.exercises if exercise.level == 1]
    return page_of(chosen, notes, tmp_path_factory.mktemp("practice"), space_of)


@pytest.fixture(scope="session")
def true_size_file(tmp_path_factory: pytest.TempPathFactory, space_of) -> Path:
    """A page with the exercise that is drawn in at true size."""
    banks, notes = read_banks(find_banks(["mitre_template"]))
    chosen = [(bank, exercise) for bank in banks for exercise in bank.exercises if exercise.name == "draw-the-template"]
    return page_of(chosen, notes, tmp_path_factory.mktemp("true-size"), space_of)


def page_of(chosen: list[Any], notes: Any, folder: Path, space_of: Any) -> Path:
    from courseware.practice.kinds import practice_kinds
    from courseware.practice.one_file import practice_page

    kinds = practice_kinds(chosen, [for_practice(space_of(*pair)) for pair in chosen], notes)
    file = folder / "practice.html"
    file.write_text(practice_page(kinds, "three topics", glossary()), encoding="utf-8")
    return file


@pytest.fixture
def phone(browser: Browser, practice_file: Path) -> Iterator[Callable[..., Learner]]:
    """Gives a learner a phone, 320 px wide and without a network; what the page throws fails the test."""
    with phones(browser, practice_file) as give:
        yield give


@pytest.fixture(scope="module")
def one_phone(browser: Browser, practice_file: Path) -> Iterator[Callable[..., Learner]]:
    """The same for all tests of a file."""
    with phones(browser, practice_file) as give:
        yield give


@contextmanager
def phones(browser: Browser, practice_file: Path) -> Iterator[Callable[..., Learner]]:
    """Phones that are put away at the end."""
    contexts: list[BrowserContext] = []
    thrown: list[str] = []

    def give(*, keyboard: bool = False, before: str = "", day: str = "", **options: Any) -> Learner:
        context = browser.new_context(**(PHONE | options))
        contexts.append(context)
        context.set_offline(True)
        if before:
            context.add_init_script(before)
        page = context.new_page()
        page.set_default_timeout(PATIENCE)
        page.on("pageerror", lambda error: thrown.append(str(error)))
        page.on("console", lambda said: thrown.append(said.text) if said.type in {"error", "warning"} else None)
        learner = Learner(page, practice_file, keyboard=keyboard)
        if day:
            learner.set_day(day)
        learner.open()
        return learner

    yield give
    for context in contexts:
        context.close()
    assert thrown == []


@pytest.fixture
def own_code(browser: Browser, practice_file: Path, tmp_path: Path) -> Iterator[Page]:
    """The page as built, with its own functions to be called from outside as `code`: nothing of it is changed."""
    names = "readFigure, settled, exact, chooseNext, finishQuestion, freshMemory, takeSlip, putRight, takeRight, isSecure, readIndex, dayOf"
    text = practice_file.read_text(encoding="utf-8")
    end = text.index("\n}</script>", text.index('<script id="page"'))
    opened = tmp_path / "practice.html"
    opened.write_text(f"{text[:end]}\nglobalThis.code = {{{names}}};\n{text[end:]}", encoding="utf-8")
    context = browser.new_context(bypass_csp=True)  # the page runs its own script alone, which this is no more
    page = context.new_page()
    page.set_default_timeout(PATIENCE)
    page.goto(opened.as_uri())
    page.wait_for_function("globalThis.code !== undefined")
    yield page
    context.close()
