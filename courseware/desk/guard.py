"""What stands before every page: who may ask, from where, how much and for how long; and what a browser may do with it.

Loopback keeps other machines out, but not the pages that the tutor's own browser has open from elsewhere: those are
known by `Host`, `Origin` and `Sec-Fetch-Site`, and hold no cookie.
"""

from __future__ import annotations

import asyncio
from collections.abc import Iterable, Iterator, MutableMapping
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING, Any

from courseware.desk.address import Address
from courseware.desk.desk import Desk, desk_of
from courseware.desk.templates import bare

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST_BODY = 3_000_000  # bytes
BODY_SECONDS = 20.0
LOCKED = (
    "The desk is locked: nobody signed in here, or nothing was done for a while. What was saved is safe. Open the new "
    "address that the window shows from which the desk was started, or start it again."
)
_OPEN = ("/enter/", "/static/")  # beginnings of addresses that need no session
_UNTOUCHED = "/events"  # ends of addresses that a page asks for by itself: nobody need be sitting there

HEADERS = (
    (
        b"content-security-policy",
        b"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
        b"connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    ),
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)


class Refused(Exception):
    """A request that is not answered: a status, and why in a plain line."""

    def __init__(self, status: int, why: str) -> None:
        super().__init__(why)
        self.status, self.why = status, why


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What of a request the guard goes by; of each header every value that was sent."""

    method: str
    path: str
    headers: tuple[tuple[str, str], ...]

    def header(self, name: str) -> tuple[str, ...]:
        """All values of a header."""
        return tuple(value for key, value in self.headers if key == name)


def check(asked: Asked, address: Address) -> None:
    """Raises `Refused` for what none of the desk's own pages would ask."""
    if asked.header("host") != (address.authority,):
        raise Refused(421, f"This desk is at {address.origin} and answers to no other address.")
    if asked.method not in {"GET", "HEAD", "POST"}:
        raise Refused(405, "The desk's pages are asked for or filled in; nothing else is done with them.")
    writes = asked.method == "POST"
    sites = {"same-origin"} if writes else {"same-origin", "none"}
    if any(site not in sites for site in asked.header("sec-fetch-site")):
        raise Refused(403, "Another page asked for this. Open the desk's own address.")
    if writes and asked.header("origin") != (address.origin,):
        raise Refused(403, "This form did not come from the desk's own pages. Open the desk's own address.")
    lengths = asked.header("content-length")
    if lengths and not (len(lengths) == 1 and lengths[0].isascii() and lengths[0].isdigit()):
        raise Refused(400, "The length of what was sent makes no sense.")
    if lengths and int(lengths[0]) > LARGEST_BODY:
        raise _too_large()


def bounded(receive: Receive, *, most: int, seconds: float) -> Receive:
    """What a request brings; reading it raises `Refused` past so many bytes or seconds."""
    taken, whole, ends = 0, False, asyncio.get_running_loop().time() + seconds

    async def take() -> Message:
        nonlocal taken, whole
        if whole:
            return await receive()
        try:
            message = await asyncio.wait_for(receive(), max(0.001, ends - asyncio.get_running_loop().time()))
        except TimeoutError:
            raise Refused(408, "What was sent took too long to arrive. Nothing was changed.") from None
        taken += len(message.get("body", b""))
        whole = not message.get("more_body", False)
        if taken > most:
            raise _too_large()
        return message

    return take


class Guard:
    """Lets through what the desk's own pages ask, with its session; answers all else in a line."""

    def __init__(self, app: ASGIApp, desk: Desk) -> None:
        self._app, self._desk = app, desk

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            await send({"type": "websocket.close", "code": 1008})
            return
        asked = _asked(scope)
        try:
            check(asked, self._desk.address)
            state = self._state(asked)
        except Refused as refused:
            asks = refused.status == 401 and self._desk.passphrase is not None
            answer = bare(refused.status, refused.why, passphrase=asks)
            await answer(scope, receive, _with_headers(send))
            return
        inner = dict(scope) | {"state": dict(scope.get("state") or {}) | state}
        taken = bounded(receive, most=LARGEST_BODY, seconds=BODY_SECONDS) if asked.method == "POST" else receive
        await self._app(inner, taken, _with_headers(send))

    def _state(self, asked: Asked) -> dict[str, Any]:
        session = None
        for cookie in _cookies(asked.header("cookie"), self._desk.address):
            session = session or self._desk.sessions.find(cookie, touch=not asked.path.endswith(_UNTOUCHED))
        if session is None and not (asked.path.startswith(_OPEN) or asked.path == "/enter"):
            self._desk.offer()
            raise Refused(401, LOCKED)
        return {"session": session}


def _asked(scope: Scope) -> Asked:
    return Asked(
        method=scope["method"],
        path=scope["path"],
        headers=tuple((name.decode("latin-1").lower(), value.decode("latin-1")) for name, value in scope["headers"]),
    )


def cookies_of(request: Request) -> tuple[str, ...]:
    """The desk's cookies of a request that goes on for so long that its session may end meanwhile."""
    return tuple(_cookies(request.headers.getlist("cookie"), desk_of(request).address))


def _cookies(headers: Iterable[str], address: Address) -> Iterator[str]:
    for header in headers:
        try:
            found = SimpleCookie(header).get(address.cookie)
        except CookieError:
            continue
        if found is not None:
            yield found.value


def _too_large() -> Refused:
    return Refused(413, f"This is larger than {LARGEST_BODY // 1_000_000} MB, which nothing here needs to be.")


def _with_headers(send: Send) -> Send:
    async def say(message: MutableMapping[str, Any]) -> None:
        if message["type"] == "http.response.start":
            own = {name for name, _ in message["headers"]}
            message["headers"] = [*message["headers"], *(pair for pair in HEADERS if pair[0] not in own)]
        await send(message)

    return say
