"""A folder of work with one sitting issued and marked and one only issued, and somebody who sits at the desk over it."""

from __future__ import annotations

import re
import shutil
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from courseware.desk.address import LOOPBACK, Address
from courseware.desk.app import make_app
from courseware.desk.desk import Desk
from courseware.desk.serve import listen, server
from courseware.desk.sessions import Sessions
from courseware.files.sitting_folders import sitting_folder
from courseware.papers.group import Group, Learner
from courseware.settings.settings import DEFAULTS
from courseware.workflows.issue import IssueOptions, issue_sitting
from courseware.workflows.mark_sitting import MarkOptions, fill_with_invented_answers, mark_sitting
from tests.checkers import NPM, validated
from tests.piers_sitting import BANK
from tests.workflows.conftest import Heard

NAMES = ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe", "=1+1")  # invented
ADDRESS = Address(host=LOOPBACK, port=8123)  # nothing listens there: the test client needs no port


@pytest.fixture(scope="session")
def made_work(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of work that `work` is a copy of: look, do not touch."""
    folder: Path = tmp_path_factory.mktemp("desk") / "work"
    folder.mkdir()
    (folder / "piers.yaml").write_text(BANK, encoding="utf-8")
    learners = tuple(Learner(name=name, reference=f"A{place}") for place, name in enumerate(NAMES, 1))
    heard = Heard()
    for date, group in (("2026-01-05", "Group A"), ("2026-02-02", "Group B")):
        options = IssueOptions(out=folder / "output", settings=DEFAULTS, processes=1, seed=f"for tests, {group}")
        issued = issue_sitting([str(folder / "piers.yaml")], Group(name=group, learners=learners), date, options, heard)
        if group == "Group A":
            where = sitting_folder(str(issued.folder))
            fill_with_invented_answers(where)
            mark = MarkOptions(assessor="J. Marsh", processes=1)
            mark_sitting(where, None, (), mark, heard, when_marked=lambda *_: None)
    return folder


@pytest.fixture
def work(made_work: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of work of one's own: a sitting of 2026-01-05 issued and marked, one of 2026-02-02 issued."""
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    return Path(shutil.copytree(made_work, tmp_path / "work"))


def desk_over(folder: Path | None, **more: Any) -> Desk:
    """A desk as the command makes it, for one person who is let in by `offered`."""
    address = more.pop("address", ADDRESS)
    sessions = more.pop("sessions", None) or Sessions(who="J. Marsh", idle=1800)
    return Desk(address=address, sessions=sessions, folder=folder, processes=1, **more)


class Sitter(TestClient):
    """Somebody at the desk: gets pages, sends forms with their token; not redirected unless asked."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(make_app(desk), base_url=desk.address.origin, follow_redirects=False)
        self.desk = desk
        self.headers.update({"origin": desk.address.origin, "sec-fetch-site": "same-origin"})
        self.event_hooks = {"response": [_keep_html]}

    def come_in(self) -> Sitter:
        """Opens the address that the desk prints."""
        token, _ = self.desk.sessions.offer()
        assert self.get(f"/enter/{token}").status_code == 303
        return self

    @property
    def token(self) -> str:
        """The token that the desk's forms carry now, as a page has it."""
        return unescape(re.findall(r'data-token="([^"]*)"', self.get("/keys").text)[0])

    def fill(self, address: str, fields: dict[str, Any] | None = None, **more: Any) -> Any:
        """Sends a form (fields, and `files`) and gives the answer, without going on to where it leads."""
        return self.post(address, data={"token": self.token, **(fields or {})}, **more)

    def done(self, address: str, fields: dict[str, Any] | None = None, **more: Any) -> str:
        """Sends a form and gives the text of the page that it leads to."""
        answer = self.fill(address, fields, **more)
        assert answer.status_code == 303, f"{answer.status_code}: {words(answer.text)}"
        return words(self.get(answer.headers["location"]).text)


_SEEN: dict[tuple[str, ...], str] = {}  # pages by heading and by the tags and attributes on them: one of each kind


def _keep_html(response: Any) -> None:
    if response.headers.get("content-type", "").startswith("text/html"):
        response.read()
        heading = re.search(r"<h1[^>]*>(.*?)</h1>", response.text, re.DOTALL)
        tags = {re.sub(r'="[^"]*"', "", tag) for tag in re.findall(r"<\w[^>]*>", response.text)}
        _SEEN.setdefault((words(heading[1]) if heading else "", *sorted(tags)), response.text)


@pytest.fixture(scope="session", autouse=True)
def every_state_is_valid_html(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Whatever page any test of the desk was shown, with its faults and all, is valid HTML: looked at once, at the end."""
    yield
    if not _SEEN or not (NPM / "html-validate").exists():  # `test_every_page.py` says so where they are required
        return
    folder = tmp_path_factory.mktemp("seen")
    for number, ((heading, *_), html) in enumerate(_SEEN.items()):
        name = re.sub(r"[^a-z]+", "-", heading.lower())[:50]
        (folder / f"{number}-{name}.html").write_text(html, encoding="utf-8")
    assert validated(*sorted(folder.iterdir())) == ""


def words(html: str) -> str:
    """What a page says, without its markup, in one line."""
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", html)).split())


@pytest.fixture
def client(work: Path) -> Iterator[Sitter]:
    """Somebody let in at the desk over `work`."""
    desk = desk_over(work)
    yield Sitter(desk).come_in()
    desk.jobs.close()


def finished(client: Sitter, answer: Any, seconds: float = 60) -> str:
    """Waits for the long work that a form led to; the words of its page."""
    assert answer.status_code == 303, f"{answer.status_code}: {words(answer.text)}"
    address = answer.headers["location"]
    job = client.desk.jobs.find(address.removeprefix("/work/"))
    assert job is not None, address
    ends = time.monotonic() + seconds
    while not job.over and time.monotonic() < ends:
        time.sleep(0.02)
    return words(client.get(address).text)


@contextmanager
def running(folder: Path | None, **more: Any) -> Iterator[Desk]:
    """The desk on a real port, for a browser."""
    socket = listen(LOOPBACK, 0)
    desk = desk_over(folder, address=Address(host=LOOPBACK, port=socket.getsockname()[1]), **more)
    serving = server(desk)
    thread = threading.Thread(target=serving.run, kwargs={"sockets": [socket]}, daemon=True)
    thread.start()
    try:
        while not serving.started and thread.is_alive():
            time.sleep(0.01)
        yield desk
    finally:
        serving.should_exit = True
        thread.join(20)
        socket.close()


@pytest.fixture
def open_desk(browser: Any) -> Iterator[Callable[..., Any]]:
    """Opens the desk over a folder in the browser: `page, desk = open_desk(work, viewport=…)`."""
    from contextlib import ExitStack

    with ExitStack() as until_done:

        def opened(folder: Path | None, **context: Any) -> tuple[Any, Desk]:
            desk = until_done.enter_context(running(folder))
            around = browser.new_context(locale="en-GB", **context)
            until_done.callback(around.close)
            page = around.new_page()
            page.set_default_timeout(10_000)
            faults: list[str] = []
            page.on("pageerror", lambda error: faults.append(str(error)))
            until_done.callback(lambda: _none(faults))
            page.goto(f"{desk.address.origin}/enter/{desk.sessions.offer()[0]}")
            return page, desk

        yield opened


def _none(faults: list[str]) -> None:
    assert faults == []
