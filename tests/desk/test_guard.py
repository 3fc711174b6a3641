"""Who may ask for pages: the desk's own, with the session's cookie; a first table of those who may not."""

from __future__ import annotations

import pytest

from courseware.desk.address import Address
from courseware.desk.guard import LARGEST_BODY, Asked, Refused, check
from courseware.desk.sessions import Sessions
from tests.desk.conftest import Sitter, desk_over, words

HERE = Address(host="127.0.0.1", port=8123)
V6 = Address(host="::1", port=8123)
OWN = {"host": "127.0.0.1:8123", "origin": "http://127.0.0.1:8123", "sec-fetch-site": "same-origin"}


def status(method: str, address: Address = HERE, **headers: str) -> int:
    """The status by which a request is refused; 200 where it is let through."""
    sent = tuple((name.replace("_", "-"), value) for name, value in headers.items())
    try:
        check(Asked(method=method, path="/", headers=sent), address)
    except Refused as refused:
        return refused.status
    return 200


@pytest.mark.parametrize(
    ("method", "headers", "expected"),
    [
        ("GET", {}, 200),
        ("GET", {"sec-fetch-site": "none"}, 200),
        ("GET", {"sec-fetch-site": "cross-site"}, 403),
        ("GET", {"sec-fetch-site": "same-site"}, 403),
        ("GET", {"host": "127.0.0.1:8124"}, 421),
        ("GET", {"host": "127.0.0.1"}, 421),
        ("GET", {"host": "localhost:8123"}, 421),
        ("GET", {"host": "127.0.0.1.example.org:8123"}, 421),
        ("GET", {"host": ""}, 421),
        ("POST", {}, 200),
        ("POST", {"origin": "null"}, 403),
        ("POST", {"origin": "http://127.0.0.1:8124"}, 403),
        ("POST", {"origin": "https://127.0.0.1:8123"}, 403),
        ("POST", {"origin": "http://127.0.0.1:8123.example.org"}, 403),
        ("POST", {"sec-fetch-site": "none"}, 403),
        ("POST", {"sec-fetch-site": "same-site"}, 403),
        ("POST", {"content-length": str(LARGEST_BODY)}, 200),
        ("POST", {"content-length": str(LARGEST_BODY + 1)}, 413),
        ("POST", {"content-length": "-1"}, 400),
        ("POST", {"content-length": "١"}, 400),
        ("PUT", {}, 405),
        ("DELETE", {}, 405),
        ("TRACE", {}, 405),
    ],
)  # fmt: skip
def test_each_request_is_let_through_or_refused(method: str, headers: dict[str, str], expected: int) -> None:
    assert status(method, **OWN | headers) == expected


def test_a_write_says_where_it_comes_from() -> None:
    assert status("POST", host="127.0.0.1:8123") == 403


def test_a_browser_that_does_not_tell_sites_is_known_by_the_origin_alone() -> None:
    assert status("POST", host="127.0.0.1:8123", origin="http://127.0.0.1:8123") == 200


def test_the_same_holds_at_an_address_of_ipv6() -> None:
    assert status("GET", V6, host="[::1]:8123") == 200
    assert status("GET", V6, host="::1:8123") == 421
    assert status("POST", V6, host="[::1]:8123", origin="http://[::1]:8123") == 200


def test_every_answer_says_what_a_browser_may_do_with_it(client: Sitter) -> None:
    for address in ("/", "/static/x/desk.css", "/nothing", "/keys"):
        headers = client.get(address).headers
        policy = headers["content-security-policy"]
        assert policy.startswith("default-src 'none'")
        assert "unsafe" not in policy
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["cache-control"] == "no-store"
        assert "server" not in headers


def test_nothing_is_shown_without_a_session(client: Sitter) -> None:
    client.cookies.clear()
    for address in ("/", "/settings", "/work", "/file/x", "/no/such/page"):
        locked = client.get(address)
        assert locked.status_code == 401
        assert "piers" not in locked.text.casefold()


def test_a_desk_left_alone_is_locked_and_takes_nothing_more(work) -> None:
    clock = [1_000_000.0]
    sitter = Sitter(desk_over(work, sessions=Sessions(who="J. Marsh", idle=1800, now=lambda: clock[0]))).come_in()
    token = sitter.token
    clock[0] += 1799
    assert sitter.get("/").status_code == 200
    clock[0] += 1800
    late = sitter.post("/settings/name", data={"token": token, "who": "Somebody"})
    assert late.status_code == 401
    assert "The desk is locked" in words(late.text)
    assert sitter.get("/").status_code == 401
    assert "You are J. Marsh" in words(sitter.come_in().get("/").text)
