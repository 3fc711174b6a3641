"""What a page's form brings: texts and files, bounded in number and size, with the form's own token."""

from __future__ import annotations

import hmac
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from courseware.desk.desk import session_of
from courseware.desk.guard import LARGEST_BODY, Refused

if TYPE_CHECKING:
    from starlette.requests import Request

TOKEN = "token"
MOST_FIELDS, MOST_FILES = 12_000, 100  # a grid of 200 learners and 40 parts in one form is 8,000 fields


@dataclass(frozen=True, slots=True, kw_only=True)
class Upload:
    """A file as it was sent; its name is for showing only, never a place to write to."""

    name: str
    data: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """The fields and files of a form, by name; of fields of one name all, in order."""

    fields: Mapping[str, tuple[str, ...]]
    files: Mapping[str, tuple[Upload, ...]]

    def text(self, name: str) -> str:
        """A field's text without the white about it; '' where it was not sent."""
        return self.texts(name)[-1].strip() if self.texts(name) else ""

    def texts(self, name: str) -> tuple[str, ...]:
        """All fields of a name, as ticked boxes are sent."""
        return self.fields.get(name, ())

    def ticked(self, name: str) -> bool:
        """Whether a box was ticked."""
        return bool(self.texts(name))

    def upload(self, name: str) -> Upload | None:
        """A file; none where none was chosen."""
        return next(iter(self.uploads(name)), None)

    def uploads(self, name: str) -> tuple[Upload, ...]:
        """All files of a name."""
        return self.files.get(name, ())


async def read_form(request: Request) -> Form:
    """The form that a request brings; the desk reads it before any handler runs, so that none is without a token.

    Raises `Refused` for a form without this session's token, or with more fields or files than any page has.
    """
    there = getattr(request.state, "form", None)
    if there is None:
        there = request.state.form = await _read(request)
    return cast("Form", there)


async def _read(request: Request) -> Form:
    from starlette.datastructures import UploadFile
    from starlette.exceptions import HTTPException

    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind not in {"application/x-www-form-urlencoded", "multipart/form-data"}:
        raise Refused(415, "Only a form's own fields and files are taken.")
    if kind == "application/x-www-form-urlencoded" and (await request.body()).count(b"&") >= MOST_FIELDS:
        raise Refused(413, "This form has more fields than any page here.")
    fields: dict[str, tuple[str, ...]] = {}
    files: dict[str, tuple[Upload, ...]] = {}
    try:
        async with request.form(max_files=MOST_FILES, max_fields=MOST_FIELDS, max_part_size=LARGEST_BODY) as sent:
            for name, value in sent.multi_items():
                if isinstance(value, UploadFile):
                    if value.filename:
                        upload = Upload(name=value.filename, data=await value.read())
                        files[name] = (*files.get(name, ()), upload)
                else:
                    fields[name] = (*fields.get(name, ()), value.replace("\r\n", "\n"))
    except (HTTPException, UnicodeDecodeError):
        raise Refused(400, "This form cannot be read, or has more fields or files than any page here.") from None
    session = getattr(request.state, "session", None)
    token = "".join(fields.pop(TOKEN, ())[-1:])
    if session is not None and not hmac.compare_digest(
        token.encode("utf-8", "replace"), session_of(request).form_token.encode()
    ):
        raise Refused(
            403,
            "This page is from an earlier time at the desk, so nothing of it was saved. Go back, copy what you typed "
            "if it is long, load the page again and send it once more.",
        )
    return Form(fields=fields, files=files)
