"""Pieces of a page: drawings as SVG of our own, and parts of a page that a script asks for by themselves."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from courseware.desk.desk import session_of
from courseware.desk.forms import TOKEN
from courseware.desk.templates import html, templates
from courseware.drawings import draw, to_svg
from courseware.drawings.picture import Picture
from courseware.papers.sheets import DrawingCall, KeyExercise

if TYPE_CHECKING:
    from markupsafe import Markup
    from starlette.requests import Request
    from starlette.responses import Response


def piece(request: Request, template: str, **values: Any) -> Response:
    """A part of a page, for a script that puts it in its place. Notes wait for a whole page."""
    session = session_of(request)
    own = {"token_name": TOKEN, "token": session.form_token}
    return html(templates().get_template(template).render(**own, **values))


def drawing_of(exercise: KeyExercise) -> Markup | None:
    """The drawing of an exercise with the sizes that are asked for shown in; none where it has none."""
    return drawn(exercise.drawing) if exercise.drawing else None


def drawn(call: DrawingCall) -> Markup:
    """A drawing as SVG, to stand in a page."""
    return shown(draw(call))


def shown(picture: Picture) -> Markup:
    """A picture as SVG, to stand in a page; all text in it was escaped as it was written."""
    from markupsafe import Markup

    return Markup(to_svg(picture))
