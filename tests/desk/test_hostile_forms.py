"""Every form, address and place for a file of the desk, filled by somebody who means harm: a line or a page, never a fault.

What is typed has markup, control and bidi characters, numbers that are none, paths, line ends; files are those of no kind.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest
from starlette.routing import Route

from courseware.desk.app import screens
from courseware.desk.templates import HERE
from courseware.workflows.own_banks import begin_bank
from tests.desk.conftest import Sitter, words
from tests.desk.test_every_page import filled

MARKUP = "<script>alert(1)</script>{{ 7*7 }}"
TYPED = (
    "", "\x00", MARKUP, "a" * 3000, "²", "1e999", "9" * 400, "\u202e", "\ud800", "../../etc/passwd", "=1+1",
    "1\r\nX-Y: z",
)  # fmt: skip
PLACES = ("..%2F..%2Fetc", "%00", "%FF", "a" * 300, "%22'%3Cscript%3E", "-1", "9" * 40, "%E2%80%AE")
FILES = {
    "empty": b"", "a workbook that is none": b"PK\x03\x04" + b"\x00" * 400, "noughts": b"\x00" * 2000,
    "an open quotation mark": b'Name,ID\n"Amara,1\n', "formulas": b"Name,ID\n=1+1,@SUM(A1)\n",
    "deep JSON": b"[" * 100_000, "UTF-16 without a mark": "Name,ID\nAmara,1\n".encode("utf-16-le"),
    "an old workbook": b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\x00" * 600,
}  # fmt: skip
FIELDS = sorted(
    {name for page in HERE.glob("templates/*.html") for name in re.findall(r'name="([^"{}]+)"', page.read_text())}
    - {"token", "viewport", "color-scheme"}
)
UPLOADS = sorted(
    {
        name
        for page in HERE.glob("templates/*.html")
        for field in re.findall(r'<input[^>]*type="file"[^>]*>', page.read_text())
        for name in re.findall(r'name="(\w+)"', field)
    }
)
BEFORE_COMING_IN = {"/enter", "/enter/{token}", "/sign-out"}


@pytest.fixture
def known(client: Sitter, work: Path) -> dict[str, str]:
    """What stands for each place of an address; long work is not begun."""
    filled(work)
    [marked] = client.desk.out.glob("2026-01-05*")
    code = re.findall(r'"/sittings/([\w-]+)"', client.get("/").text)
    paper = next(marked.glob("for-learners/paper-*.pdf"), None) or next(marked.rglob("paper-*.pdf"))
    client.desk.jobs.start = lambda *_, **__: "x"  # type: ignore[method-assign]
    begun = next((work / "begun").glob("*.json")).stem
    return {
        "code": code[-1], "paper": paper.stem.removeprefix("paper-"), "part": "1a", "attempt": "1", "key": begun,
        "name": begin_bank(work, "ours"), "whose": "own", "id": "x", "number": "0", "token": "x",
    }  # fmt: skip


def routes(method: str) -> list[Route]:
    return [one for one in screens()[0] if method in (one.methods or ()) and one.path not in BEFORE_COMING_IN]


def at(route: Route, known: dict[str, str]) -> str:
    return re.sub(r"\{(\w+)(?::int)?\}", lambda place: known.get(place[1], "x"), route.path)


def unharmed(what: str, answer: Any) -> None:
    assert answer.status_code < 500, f"{what}: {answer.status_code} {words(answer.text)[:400]}"
    assert "text/html" not in answer.headers.get("content-type", "") or "<script>alert" not in answer.text, what
    assert "x-y" not in answer.headers, what


def test_every_form_is_refused_or_taken_in_plain_words(client: Sitter, known: dict[str, str]) -> None:
    token, kind = client.token, {"content-type": "application/x-www-form-urlencoded"}
    for route in routes("POST"):
        unharmed(route.path, client.fill(at(route, known)))
        for text in TYPED:
            fields = {name: text.encode("utf-8", "surrogatepass") for name in FIELDS}
            body = urlencode({**fields, "token": token})
            unharmed(f"{route.path} {text[:20]!r}", client.post(at(route, known), content=body, headers=kind))
        unharmed(f"{route.path}, twice", client.fill(at(route, known), {name: ["a", "b"] for name in FIELDS}))


def test_every_address_is_a_page_or_nothing(client: Sitter, known: dict[str, str]) -> None:
    asked = ["cell", "since", "mend", "of", "turn", "page", "topic", "level", "in", "other", "rename", "show", *FIELDS]
    for method in ("GET", "POST"):
        for route in routes(method):
            for place in re.findall(r"\{(\w+)(?::int)?\}", route.path):
                for text in PLACES:
                    address = at(route, {**known, place: text})
                    unharmed(address, client.get(address) if method == "GET" else client.fill(address))
    for route in routes("GET"):
        for text in TYPED:
            if "\ud800" not in text and len(text) < 100:
                unharmed(f"{route.path}?{text!r}", client.get(at(route, known), params=dict.fromkeys(asked, text)))


def test_every_place_for_a_file_tells_what_it_cannot_use(client: Sitter, known: dict[str, str]) -> None:
    for route in routes("POST"):
        for place, (what, data) in enumerate(FILES.items()):
            name = f'"<b>.{("xlsx", "csv", "json")[place % 3]}'
            sent = [(field, (name, data)) for field in UPLOADS]
            unharmed(f"{route.path}, {what}", client.fill(at(route, known), {"by": "P. Dunn"}, files=sent))
