"""Coming in, staying, going: the start address, the passphrase, signing out; and the list of keys."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from courseware.desk.desk import desk_of, session_of
from courseware.desk.guard import Refused
from courseware.desk.render import bare, page
from courseware.desk.sessions import Session


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
    Route("/enter/{token}", enter),
    Route("/sign-out", sign_out, methods=["POST"]),
    Route("/awake", awake, methods=["POST"]),
    Route("/keys", keys),
)
