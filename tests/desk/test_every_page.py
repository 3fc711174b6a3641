"""Every page of the desk that links lead to, looked at in a browser: by axe, for width, for what the policy refuses.

A page of a new module joins by being linked to. What no link leads to is listed here with its reason.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from html import unescape
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
from starlette.routing import Match

from courseware.desk.app import screens
from courseware.desk.desk import Desk
from courseware.desk.job_queue import Made, MadeFile
from courseware.files.bank_files import NotFound
from courseware.files.sitting_folders import sitting_folder
from courseware.settings.settings import DEFAULTS
from courseware.workflows.mark_sitting import MarkOptions, mark_sitting
from courseware.workflows.own_jobs import open_example, save_job
from courseware.workflows.watch import Watch
from tests.desk.conftest import Sitter, running
from tests.desk.making import LENGTH, newly_begun
from tests.piers_sitting import fill
from tests.workflows.conftest import Heard

NO_PAGES = {
    "/enter/{token}": "the start address, which leads on",
    "/work/{id}/events": "a stream that its page listens to",
    "/jobs/{whose}/{name}/drawing": "a piece of its page, drawn again",
    "/jobs/{whose}/{name}/picture": "a picture in the list of jobs",
    "/banks/{whose}/{name}/paper/{id}": "shown once the queue has set it",
    "/sittings/{code}/board/{number:int}": "the starter of a slip that several made: on piers nobody has one",
    "/sittings/{code}/grid/events": "a stream that the grid listens to",
    "/sittings/{code}/grid/reading": "a piece of the grid",
    "/sittings/{code}/grid/beside": "a piece of the grid",
    "/sittings/{code}/second/events": "a stream that the second marker's grid listens to",
    "/sittings/{code}/second/reading": "a piece of the second marker's grid",
    "/sittings/{code}/second/beside": "a piece of the second marker's grid",
    "/sittings/{code}/second/{paper}/{attempt}": "a script for a second marker: whoever marked first, as here, has none",
}
MOST = 2  # pages of one route, of different kinds
NARROW = 320  # px: WCAG 2.2, 1.4.10

WIDEST = """() => [...document.body.querySelectorAll("*")].filter(one => one.getBoundingClientRect().right > innerWidth + 1)
  .slice(0, 3).map(one => one.outerHTML.slice(0, 90)).join(" … ")"""


@dataclass
class Looked:
    """What one walk through all pages found."""

    pages: dict[str, str] = field(default_factory=dict)  # HTML by address, one for each kind of address
    reached: set[str] = field(default_factory=set)  # routes
    broken: list[str] = field(default_factory=list)  # rules of WCAG
    wide: list[str] = field(default_factory=list)
    headless: list[str] = field(default_factory=list)  # without one heading of the first level
    refused: list[str] = field(default_factory=list)  # by the policy, or thrown by a script
    dead: list[str] = field(default_factory=list)  # links that lead to nothing


def route_of(path: str) -> str | None:
    """The route that gives the page at a path."""
    asked = {"type": "http", "method": "GET", "path": path, "headers": []}
    return next((one.path for one in screens()[0] if one.matches(asked)[0] == Match.FULL), None)


def filled(work: Path) -> Path:
    """The folder with something of everything in it that is not issued or marked yet."""
    newly_begun(work, learners=3, picks=(LENGTH,))
    example = open_example("butted-panel")
    save_job(work, "Ours", example.text, DEFAULTS)
    (work / "centre.yaml").write_text("name: Brookfield Trades College\n", encoding="utf-8")  # invented
    [marked] = (work / "output").glob("2026-01-05*")
    sheet = fill(marked, str(work / "sheet.csv"), {"1a": "7", "1b": "8"})  # neither right nor a slip: waits for a look
    mark = MarkOptions(assessor="J. Marsh")
    mark_sitting(sitting_folder(str(marked)), sheet, (), mark, Heard(), when_marked=lambda *_: None)
    return work


def at_work(desk: Desk) -> None:
    """Long work in each state."""

    def done(watch: Watch) -> Made:
        watch.note("some are shared.")
        file = MadeFile(path=desk.folder / "piers.yaml", use="the bank")
        return Made(says="4 papers.", more=("In a line more.",), files=(file,), onward=(("Go on", "/"),))

    def failed(_: Watch) -> Made:
        raise NotFound("there is no bank x")

    jobs = [desk.jobs.start("Work that is done", done), desk.jobs.start("Work that failed", failed)]
    while not all(job.over for job in map(desk.jobs.find, jobs) if job):
        pass


def walk(sitter: Sitter, found: Looked) -> None:
    """Follows every link, once for each kind of address: its route, and which fields its query has."""
    left, seen = ["/"], set[tuple[str | None, tuple[str, ...], str]]()
    while left:
        address = left.pop(0)
        split = urlsplit(address)
        route = route_of(split.path)
        alone = route == "/work/{id}" or re.fullmatch(r"/sittings/\{code\}(/\w+)?", route or "")  # one in each state
        kind = (route, tuple(sorted(parse_qs(split.query))), split.path if alone else "")
        if kind in seen or (not alone and sum(one[0] == route for one in seen) >= MOST):
            continue
        seen.add(kind)
        answer = sitter.get(address)
        if route is None or answer.status_code != 200:
            found.dead.append(f"{address}: {answer.status_code}")
            continue
        found.reached.add(route)
        if not answer.headers.get("content-type", "").startswith("text/html"):
            continue
        found.pages[address] = answer.text
        links = [unescape(link) for link in re.findall(r'<a\b[^>]*\bhref="(/[^"#]*)', answer.text)]
        left += [link for link in links if not link.startswith("/file/")]


@pytest.fixture(scope="module")
def looked(
    made_work: Path, tmp_path_factory: Any, browser: Any, axe_finds: Callable[[Any], list[str]]
) -> Iterator[Looked]:
    """Every page looked at once, on a phone's screen."""
    found = Looked()
    work = filled(Path(shutil.copytree(made_work, tmp_path_factory.mktemp("every-page") / "work")))
    with ExitStack() as until_done:
        desk = until_done.enter_context(running(work))
        at_work(desk)
        walk(Sitter(desk).come_in(), found)
        context = browser.new_context(locale="en-GB", viewport={"width": NARROW, "height": 700})
        until_done.callback(context.close)
        page = context.new_page()
        page.on("console", lambda said: found.refused.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: found.refused.append(str(error)))
        page.goto(f"{desk.address.origin}/enter/{desk.sessions.offer()[0]}")
        for address in found.pages:
            page.goto(desk.address.origin + address)
            found.broken += axe_finds(page)
            if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
                found.wide.append(f"{address}: {page.evaluate(WIDEST)}")
            if page.locator("h1").count() != 1:
                found.headless.append(address)
        yield found


def test_links_lead_to_every_page_and_none_to_nothing(looked: Looked) -> None:
    asked_for = {route.path for route in screens()[0] if "GET" in (route.methods or ())}
    assert sorted(asked_for - looked.reached - set(NO_PAGES)) == []
    assert sorted(set(NO_PAGES) - asked_for) == [], "take it off the list"
    assert looked.dead == [], "\n".join(looked.dead)
    assert len(looked.pages) > 20


def test_axe_finds_nothing_on_any_page_in_light_or_dark(looked: Looked) -> None:
    assert looked.broken == [], "\n".join(looked.broken)


def test_no_page_is_wider_than_a_narrow_phone(looked: Looked) -> None:
    assert looked.wide == [], "\n".join(looked.wide)


def test_every_page_has_one_heading_and_its_own_title(looked: Looked) -> None:
    assert looked.headless == [], "\n".join(looked.headless)
    titles = [re.findall(r"<title>\s*([^<]*?)\s*– Desk</title>", html)[0].strip() for html in looked.pages.values()]
    assert all(titles), titles


def test_nothing_that_a_page_asks_for_is_refused(looked: Looked) -> None:
    """By its own policy, or since it is not there; and no script throws."""
    assert looked.refused == [], "\n".join(looked.refused)


def test_every_page_is_valid_html(looked: Looked, html_validate: Callable[..., str], tmp_path: Path) -> None:
    files = []
    for number, (address, html) in enumerate(looked.pages.items()):
        files.append(tmp_path / f"{number}-{re.sub(r'[^a-z]+', '-', address.lower())[:60]}.html")
        files[-1].write_text(html, encoding="utf-8")
    told = html_validate(*files)
    assert told == "", told
