"""The centre's settings, as they are read and as a text to change; and under which name one works."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from courseware.desk.desk import desk_of, session_of
from courseware.desk.forms import read_form
from courseware.desk.nav import Nav
from courseware.desk.render import page, said
from courseware.papers.names import LONGEST_NAME
from courseware.papers.sitting_checks import is_plain
from courseware.workflows.centre import (
    FIELDS,
    CentreText,
    centre_text,
    faults_of,
    field_values,
    keys_of_centre,
    save_centre,
    with_fields,
)

NAV = (Nav(title="Settings", address="/settings", place=9),)


async def settings(request: Request) -> Response:
    """The settings as they stand."""
    text = await run_in_threadpool(centre_text, desk_of(request).centre_file)
    return _shown(request, text)


async def save(request: Request) -> Response:
    """Saves the text whole where it has no faults; else shows it with them, and nothing is saved."""
    desk, form = desk_of(request), await read_form(request)
    typed = "\n".join(form.texts("text")[-1:])
    there = await run_in_threadpool(centre_text, desk.centre_file)
    if form.text("was") != there.sha256:
        told = (
            "The file was changed elsewhere since this page was loaded, so nothing was saved. How it stands now is "
            "below your text."
        )
        return _shown(
            request,
            CentreText(text=typed, sha256=there.sha256, faults=faults_of(typed)),
            status=409,
            clash=told,
            stands=there.text,
        )
    saved = await run_in_threadpool(save_centre, desk.centre_file, typed)
    if saved.faults:
        return _shown(request, CentreText(text=typed, sha256=there.sha256, faults=saved.faults), status=422)
    return said(request, "Saved. New papers go by it; papers that were issued stay as they are.", to="/settings")


async def fields(request: Request) -> Response:
    """Saves what was filled in, each at its place in the text, all else left as it is; or says what cannot be."""
    desk, form = desk_of(request), await read_form(request)
    there = await run_in_threadpool(centre_text, desk.centre_file)
    if form.text("was") != there.sha256:
        return said(
            request, "The settings were changed elsewhere meanwhile: nothing was saved. Try again.", to="/settings"
        )
    typed = {field.name: " ".join(form.text(field.name).split()) for field in FIELDS}
    text = await run_in_threadpool(with_fields, there.text, typed)
    saved = await run_in_threadpool(save_centre, desk.centre_file, text)
    if saved.faults:
        wrong = CentreText(text=there.text, sha256=there.sha256, faults=saved.faults)
        return _shown(request, wrong, status=422, typed=typed)
    return said(request, "Saved. New papers go by it; papers that were issued stay as they are.", to="/settings")


async def name(request: Request) -> Response:
    """Under which name the record keeps what is done from this browser."""
    who = (await read_form(request)).text("who")
    if not who or not is_plain(who, LONGEST_NAME):
        return said(
            request, f"Write a name of at most {LONGEST_NAME} plain characters. Nothing was changed.", to="/settings"
        )
    session_of(request).who = who
    return said(request, f"What you do is kept under the name {who}.", to="/settings")


def _shown(
    request: Request, text: CentreText, *, status: int = 200, clash: str = "", stands: str = "",
    typed: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    """The page; with what was `typed` into its fields, else with what stands, where the text has no faults."""
    values = typed if typed is not None else {} if text.faults else field_values(text.text)
    return page(
        request, "settings.html", status=status, text=text, refused=status != 200, clash=clash, stands=stands,
        keys=keys_of_centre(), fields=FIELDS if values else (), values=values,
        file=desk_of(request).centre_file, longest_name=LONGEST_NAME,
    )  # fmt: skip


ROUTES = (
    Route("/settings", settings),
    Route("/settings/save", save, methods=["POST"]),
    Route("/settings/fields", fields, methods=["POST"]),
    Route("/settings/name", name, methods=["POST"]),
)
