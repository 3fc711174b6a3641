"""Coming in, staying, going: the start address, the passphrase, signing out; and the list of keys."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.guard import LOCKED, Refused
from courseware.desk.render import page
from courseware.desk.sessions import Session
from courseware.desk.templates import bare


async def enter(request: Request) -> Response:
    """Exchanges the token of the start address for a session, and goes on to an address without it."""
    session = desk_of(request).sessions.enter(request.path_params["token"])
    if session is None:
        desk_of(request).offer()
        raise Refused(
            403,
            "This address has been used, and works once. The window from which the desk was started shows a new one.",
        )
    return _let_in(request, session)


async def passphrase(request: Request) -> Response:
    """Lets in whoever knows the passphrase of a desk that has one."""
    desk = desk_of(request)
    if desk.passphrase is None:
        raise Refused(401, LOCKED)
    right = desk.passphrase.matches((await read_form(request)).text("passphrase"))
    if right is None:
        raise Refused(429, "The passphrase was got wrong too often. Wait ten minutes, or start the desk again.")
    if not right:
        return bare(401, "That is not the passphrase.", passphrase=True)
    return _let_in(request, desk.sessions.begin())


async def sign_out(request: Request) -> Response:
    """Ends the session."""
    desk = desk_of(request)
    desk.sessions.end(session_of(request))
    gone = bare(200, "You have signed out. To come back, open the new address that the desk's own window shows.")
    gone.delete_cookie(desk.address.cookie, httponly=True, samesite="strict")
    desk.offer()
    return gone


async def awake(request: Request) -> Response:
    """Somebody types on a page that has nothing to send yet: the desk stays open."""
    return Response(status_code=204)


async def keys(request: Request) -> Response:
    """All keys, for those who have no JavaScript."""
    return page(request, "keys.html")


def _let_in(request: Request, session: Session) -> Response:
    desk = desk_of(request)
    response = RedirectResponse("/", 303)
    response.set_cookie(desk.address.cookie, session.cookie, httponly=True, samesite="strict", path="/")
    return response


ROUTES = (
    Route("/enter", passphrase, methods=["POST"]),
    Route("/enter/{token}", enter),
    Route("/sign-out", sign_out, methods=["POST"]),
    Route("/awake", awake, methods=["POST"]),
    Route("/keys", keys),
)
