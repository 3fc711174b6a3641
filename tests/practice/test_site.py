"""The practice page as a site: the same page in files, its questions fetched when met, kept for use without a network."""

from __future__ import annotations

import json
import re
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from typing import ClassVar

import pytest
from playwright.sync_api import expect

from courseware.practice.site import practice_site
from tests.practice.test_one_file import GLOSSARY, kinds


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    return dict(practice_site(kinds(), "Opening sizes", GLOSSARY))


class Quiet(SimpleHTTPRequestHandler):
    asked: ClassVar[list[str]] = []

    def log_message(self, *_: object) -> None:
        pass

    def do_GET(self) -> None:
        self.asked.append(self.path)
        super().do_GET()


@pytest.fixture
def address(files, tmp_path) -> Iterator[str]:
    """The site served on this machine, which browsers trust as they do https (W3C, Secure Contexts)."""
    for name, data in files.items():
        (tmp_path / name).write_bytes(data)
    Quiet.asked.clear()
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(tmp_path)))
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    thread.join()
    server.server_close()


def test_every_file_that_the_worker_keeps_is_there(files) -> None:
    named = json.loads(re.search(rb"FILES = (\[.*?\])", files["worker.js"])[1])
    assert set(named) == {".", *files} - {"worker.js"}
    assert "{{" not in files["worker.js"].decode()


def test_another_question_is_another_edition(files) -> None:
    other = practice_site(kinds(), "Another title", GLOSSARY)
    assert files["worker.js"] != other["worker.js"]
    assert dict(practice_site(kinds(), "Opening sizes", GLOSSARY)) == files


def test_the_manifest_names_the_page_and_its_picture(files) -> None:
    """W3C, Web Application Manifest: name, start_url, display, icons."""
    manifest = json.loads(files["manifest.webmanifest"])
    assert (manifest["name"], manifest["start_url"], manifest["display"]) == (
        "Practise: Opening sizes",
        ".",
        "standalone",
    )
    assert [icon["src"] for icon in manifest["icons"]] == ["icon.svg"]
    assert 'rel="manifest" href="manifest.webmanifest"' in files["index.html"].decode()


def test_the_policy_lets_it_fetch_from_its_own_place_alone(files) -> None:
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', files["index.html"].decode())[1]
    assert policy.startswith("default-src 'none';")
    assert set(re.findall(r"(\S+-src) 'self'", policy)) == {"connect-src", "manifest-src", "worker-src"}


def test_who_has_too_old_a_browser_is_led_to_the_booklet_where_there_is_one(files) -> None:
    """In the page as it is without any script; no phone keeps the booklet unasked."""
    beside = practice_site(kinds(), "Opening sizes", GLOSSARY, booklet=True)
    assert '<a href="booklet.pdf">' in beside["index.html"].decode()
    assert b"booklet.pdf" not in beside["worker.js"]
    alone = files["index.html"].decode()
    assert "booklet.pdf" not in alone
    assert "ask your tutor for the printed practice booklet" in alone


def test_a_question_is_fetched_when_it_is_met_and_all_of_it_works_without_a_network(browser, address) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto(address)
    expect(page.get_by_role("button", name="Start")).to_be_visible()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.wait_for_function(
        "caches.keys().then((names) => caches.open(names[0])).then((kept) => kept.keys()).then((all) => all.length > 5)"
    )
    context.set_offline(True)
    page.reload()
    page.get_by_role("button", name="Start").click()
    expect(page.locator("main")).to_have_attribute("data-stage", "worked")
    page.get_by_role("button", name="Words", exact=True).click()
    expect(page.get_by_role("dialog", name="Words")).to_contain_text("A level joint.")
    context.close()


def test_what_the_network_does_not_bring_is_told_and_may_be_tried_again(browser, address) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(address)
    assert not [path for path in Quiet.asked if "kind-" in path]
    context.set_offline(True)
    page.get_by_role("button", name="Start").click()
    expect(page.locator("h1")).to_have_text("This question is not here yet")
    context.set_offline(False)
    page.get_by_role("button", name="Try again").click()
    expect(page.locator("main")).to_have_attribute("data-stage", "worked")
    assert [path for path in Quiet.asked if "kind-" in path] == ["/kind-0.txt"]
    context.close()
