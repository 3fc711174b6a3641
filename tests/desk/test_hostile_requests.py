"""Requests that none of the desk's pages would send, against a running desk: each refused in a line, nothing changed.

The rows are those of the threats known for servers on loopback: other pages in the tutor's own browser (forgery, name
rebinding), addresses that lead out of a folder, too much, too slow, and text that would be markup or a header.
"""

from __future__ import annotations

import hashlib
import re
import socket
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote, urlencode

import pytest

from courseware.desk import guard
from courseware.desk.desk import Desk
from tests.desk.conftest import running

BODY = "application/x-www-form-urlencoded"


@dataclass
class Wire:
    """A desk at work, asked in bytes; `cookie` and `token` are those of somebody who was let in."""

    desk: Desk
    cookie: str = ""
    token: str = ""

    def ask(self, line: str, body: bytes = b"", *, all_sent: bool = True, **headers: str) -> tuple[int, bytes]:
        """Sends a request; headers of None are left out. Gives the status (0: closed without an answer) and the rest."""
        own = {
            "Host": self.desk.address.authority,
            "Cookie": self.cookie,
            "Sec-Fetch-Site": "same-origin",
            "Connection": "close",
        }
        if line.startswith("POST"):
            own |= {"Origin": self.desk.address.origin, "Content-Type": BODY, "Content-Length": str(len(body))}
        own |= {name.replace("_", "-"): value for name, value in headers.items()}
        head = "".join(f"{name}: {value}\r\n" for name, value in own.items() if value)
        with socket.create_connection((self.desk.address.host, self.desk.address.port), timeout=20) as wire:
            wire.sendall(f"{line} HTTP/1.1\r\n{head}\r\n".encode("utf-8", "surrogateescape"))
            answer = b""
            try:
                wire.sendall(body)
                while part := wire.recv(65536):
                    answer += part
            except (ConnectionError, TimeoutError):
                pass
        found = re.match(rb"HTTP/1\.1 (\d{3})", answer)
        return (int(found[1]) if found else 0), answer

    def post(self, to: str, fields: dict[str, str], **headers: str) -> tuple[int, bytes]:
        return self.ask(f"POST {to}", urlencode(fields).encode(), **headers)


@pytest.fixture(scope="module")
def wire(made_work: Path) -> Iterator[Wire]:
    with running(made_work) as desk:
        asked = Wire(desk)
        _, entered = asked.ask(f"GET /enter/{desk.sessions.offer()[0]}")
        found = re.search(rb"set-cookie: (desk-\d+=[\w-]+)", entered)
        assert found, entered
        asked.cookie = found[1].decode()
        status, page = asked.ask("GET /settings")
        assert status == 200
        asked.token = re.findall(rb'data-token="([^"]+)"', page)[0].decode()
        yield asked


def tree(folder: Path) -> str:
    """What stands in a folder, in short."""
    told = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        told.update(f"{path} {path.stat().st_size}".encode())
        if path.is_file() and path.suffix != ".sqlite":
            told.update(path.read_bytes())
    return told.hexdigest()


@pytest.fixture(autouse=True)
def unharmed(wire: Wire) -> Iterator[None]:
    """Whatever was sent: nothing in the folder is changed, and the desk answers as before."""
    before = tree(wire.desk.folder)
    yield
    assert tree(wire.desk.folder) == before
    assert wire.ask("GET /settings")[0] == 200
    assert wire.desk.sessions.find(wire.cookie.partition("=")[2]) is not None


WRITE = {"who": "A stranger", "text": "name: Taken over", "was": hashlib.sha256(b"").hexdigest()}

GETS = {
    "another host": ("GET /", {"Host": "example.org"}, 421),
    "a name that was turned round to this machine": ("GET /", {"Host": "desk.example.org:{port}"}, 421),
    "the name of this machine, which could be turned round": ("GET /", {"Host": "localhost:{port}"}, 421),
    "the port of another desk": ("GET /", {"Host": "127.0.0.1:1"}, 421),
    "no port": ("GET /", {"Host": "127.0.0.1"}, 421),
    "the address written otherwise": ("GET /", {"Host": "127.1:{port}"}, 421),
    "a host with a user before it": ("GET /", {"Host": "x@127.0.0.1:{port}"}, 421),
    "an address whole": ("GET http://example.org/", {"Host": "example.org"}, 421),
    "a picture on another page": ("GET /", {"Sec-Fetch-Site": "cross-site"}, 403),
    "a page at another port of this machine": ("GET /", {"Sec-Fetch-Site": "same-site"}, 403),
    "no cookie": ("GET /", {"Cookie": ""}, 401),
    "somebody else's cookie": ("GET /", {"Cookie": "desk-{port}=" + "A" * 43}, 401),
    "a cookie of another port": ("GET /", {"Cookie": "desk-1=" + "A" * 43}, 401),
    "a cookie that is none": ("GET /", {"Cookie": "desk-{port}=\x80\xff;;;=;\"\\"}, 401),
    "a token that was used": ("GET /enter/used", {}, 403),
    "out of the static files": ("GET /static/../guard.py", {}, 404),
    "out of them in code": ("GET /static/%2e%2e%2fguard.py", {}, 404),
    "out of them by backslashes": ("GET /static/..%5Cguard.py", {}, 404),
    "a file by its path": ("GET /file//etc/passwd", {}, 404),
    "a file by its path in code": ("GET /file/%2Fetc%2Fpasswd", {}, 404),
    "a file on another machine": ("GET /file/%5C%5Cserver%5Cshare%5Cx.pdf", {}, 404),
    "a file by a file address": ("GET /file/file%3A%2F%2F%2Fetc%2Fpasswd", {}, 404),
    "a folder by its path": ("GET /folder?in=/etc", {}, 404),
    "a folder on another machine": ("GET /folder?in=%5C%5Cserver%5Cshare", {}, 404),
    "a sitting by a path": ("GET /sittings/..%2F..%2Fetc", {}, 404),
    "a nought in the address": ("GET /file/%00", {}, 404),
    "letters that are none": ("GET /%ff%fe", {}, 404),
    "a line end in the address": ("GET /work/x%0d%0aSet-Cookie:%20a=b", {}, 404),
    "another method": ("PUT /settings/save", {}, 405),
    "a method of its own": ("BRICK /", {}, 405),
    "a socket that stays open": ("GET /", {"Connection": "Upgrade", "Upgrade": "websocket", "Sec-WebSocket-Key": "dGhlIHNhbXBsZSBub25jZQ==", "Sec-WebSocket-Version": "13", "Sec-Fetch-Site": "cross-site"}, 403),
}  # fmt: skip


@pytest.mark.parametrize("name", GETS)
def test_what_is_asked_for_by_a_stranger(wire: Wire, name: str) -> None:
    line, headers, expected = GETS[name]
    port = str(wire.desk.address.port)
    status, answer = wire.ask(line, **{key: value.replace("{port}", port) for key, value in headers.items()})
    assert status == expected, answer[:300]
    assert b"Traceback" not in answer
    assert b"root:" not in answer
    assert b"\r\nset-cookie: a=b" not in answer.lower()


POSTS = {
    "a form on another page": ({"Origin": "https://example.org", "Sec-Fetch-Site": "cross-site"}, 403),
    "a form on another page, in a browser that tells no sites": ({"Origin": "https://example.org", "Sec-Fetch-Site": ""}, 403),
    "a form at another port": ({"Origin": "http://127.0.0.1:1", "Sec-Fetch-Site": "same-site"}, 403),
    "a form in a frame without an origin": ({"Origin": "null"}, 403),
    "a form that does not say where it is from": ({"Origin": "", "Sec-Fetch-Site": ""}, 403),
    "a form of a page whose name was turned round": ({"Host": "example.org:{port}", "Origin": "http://example.org:{port}"}, 421),
    "the origin in capitals": ({"Origin": "HTTP://127.0.0.1:{port}"}, 403),
    "a form with no cookie": ({"Cookie": ""}, 401),
    "a form sent as plain text": ({"Content-Type": "text/plain"}, 415),
    "a form sent as JSON": ({"Content-Type": "application/json"}, 415),
    "a form with no kind": ({"Content-Type": ""}, 415),
    "a form of many parts without a mark between": ({"Content-Type": "multipart/form-data"}, 400),
    "a length below nothing": ({"Content-Length": "-5"}, 400),
    "a length beyond all memory": ({"Content-Length": str(1 << 50)}, 413),
    "a length beyond all numbers": ({"Content-Length": "9" * 30}, 400),
}  # fmt: skip


@pytest.mark.parametrize("to", ["/settings/save", "/settings/name", "/sign-out", "/folder/choose"])
@pytest.mark.parametrize("name", POSTS)
def test_what_is_sent_by_a_stranger(wire: Wire, name: str, to: str) -> None:
    """Even one who has got hold of the token."""
    headers, expected = POSTS[name]
    port = str(wire.desk.address.port)
    sent = {key: value.replace("{port}", port) for key, value in headers.items()}
    status, answer = wire.post(to, WRITE | {"token": wire.token}, **sent)
    assert status == expected, answer[:300]
    assert b"A stranger" not in wire.ask("GET /settings")[1]


@pytest.mark.parametrize("token", ["", "stale", "A" * 32, "é", "\r\nx: y"])
def test_a_form_with_a_stale_token_or_none(wire: Wire, token: str) -> None:
    assert wire.post("/settings/name", WRITE | {"token": token})[0] == 403


def test_a_form_larger_than_any_is_cut_off_whether_it_says_so_or_not(wire: Wire) -> None:
    large = b"token=x&text=" + b"a" * guard.LARGEST_BODY
    assert wire.ask("POST /settings/save", large)[0] in {413, 0}  # 0: closed while it was still being sent
    said = wire.ask("POST /settings/save", b"", Content_Length=str(guard.LARGEST_BODY + 1))
    assert said[0] == 413
    pieces = b"".join(b"10000\r\n" + b"a" * 0x10000 + b"\r\n" for _ in range(60)) + b"0\r\n\r\n"
    assert wire.ask("POST /settings/save", pieces, Content_Length="", Transfer_Encoding="chunked")[0] in {413, 0}


def test_a_form_of_very_many_fields_or_parts(wire: Wire) -> None:
    assert wire.ask("POST /settings/save", b"a=&" * 20_000)[0] == 413
    parts = b"".join(b'--x\r\nContent-Disposition: form-data; name="f"; filename="f"\r\n\r\n\r\n' for _ in range(200))
    kind = "multipart/form-data; boundary=x"
    assert wire.ask("POST /settings/save", parts + b"--x--\r\n", Content_Type=kind)[0] == 400


def test_a_form_that_never_comes_whole_is_given_up(wire: Wire, monkeypatch) -> None:
    monkeypatch.setattr(guard, "BODY_SECONDS", 0.2)
    status, answer = wire.ask("POST /settings/save", b"token=", Content_Length="5000")
    assert status == 408
    assert b"took too long" in answer


def test_two_lengths_and_two_hosts(wire: Wire) -> None:
    host = wire.desk.address.authority
    for twice in (f"Host: {host}\r\nHost: example.org", f"Host: {host}\r\nContent-Length: 3\r\nContent-Length: 4"):
        with socket.create_connection((wire.desk.address.host, wire.desk.address.port), timeout=20) as sent:
            sent.sendall(f"GET / HTTP/1.1\r\n{twice}\r\nCookie: {wire.cookie}\r\nConnection: close\r\n\r\n".encode())
            assert re.match(rb"HTTP/1\.1 4\d\d ", sent.recv(4096))


MARKUP = "\"'><script>alert(1)</script><img src=x>{{ 7 * 7 }}\r\nSet-Cookie: a=b"


def test_text_in_a_name_is_text_on_every_page_and_no_header(wire: Wire) -> None:
    status, answer = wire.post("/settings/name", {"token": wire.token, "who": MARKUP.replace("\r\n", " ")})
    assert status == 303
    try:
        assert b"\r\nset-cookie" not in answer.lower()
        for address in ("/", "/settings", "/work", "/keys", "/folder", "/nothing"):
            shown = wire.ask(f"GET {address}")[1]
            assert b"<script>alert" not in shown, address
            assert b"<img src=x" not in shown, address
            assert b"{{ 7 * 7 }}" in shown, address
    finally:
        wire.post("/settings/name", {"token": wire.token, "who": "J. Marsh"})


def test_text_in_settings_and_in_a_folders_name_is_text(wire: Wire) -> None:
    was = re.findall(rb'name="was" value="(\w+)"', wire.ask("GET /settings")[1])[0].decode()
    typed = {"token": wire.token, "text": f"name: {MARKUP}", "was": was}
    status, shown = wire.post("/settings/save", typed)
    assert status == 422
    assert b"<script>alert" not in shown
    at = wire.desk.handles.of(wire.desk.folder)
    status, shown = wire.post("/folder/choose", {"token": wire.token, "in": at, "do": "make", "name": MARKUP})
    assert status == 422
    assert b"<script>alert" not in shown


def test_text_in_an_address_is_text(wire: Wire) -> None:
    status, shown = wire.ask(f"GET /work/{quote('<script>alert(1)</script>')}")
    assert status == 404
    assert b"<script>alert" not in shown
