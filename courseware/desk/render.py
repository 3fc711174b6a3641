"""Pages from templates, and what is said to the tutor on the next one."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from courseware import __version__
from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import TOKEN
from courseware.desk.templates import html, templates

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from courseware.desk.job_queue import Made
    from courseware.workflows.watch import Watch


def page(request: Request, template: str, *, status: int = 200, **values: Any) -> Response:
    """A page: `template` in the desk's layout. Notes that wait for this session are shown on it, once."""
    desk, session = desk_of(request), session_of(request)
    notes, session.notes[:] = tuple(session.notes), []
    text = (
        templates()
        .get_template(template)
        .render(
            nav=request.app.state.nav,
            here=request.url.path,
            folder=desk.folder.name if desk.chosen else "",
            who=session.who,
            token_name=TOKEN,
            token=session.form_token,
            idle_seconds=int(desk.sessions.idle),
            notes=notes,
            version=__version__,
            **values,
        )
    )
    return html(text, status)


def said(request: Request, text: str, *, to: str) -> Response:
    """Goes on to one of our own pages after something was done; `text` is said there, once ('' says nothing)."""
    from starlette.responses import RedirectResponse

    if not to.startswith("/") or to.startswith("//") or "\\" in to:
        raise ValueError(f"not an address of the desk: {to}")
    if text:
        session_of(request).notes.append(text)
    return RedirectResponse(to, 303)


def at_work(request: Request, title: str, work: Callable[[Watch], Made], **how: bool) -> Response:
    """Begins long work, under the title that it goes by, and goes on to the page that shows how far it is."""
    return said(request, "", to=f"/work/{desk_of(request).jobs.start(title, work, **how)}")
