"""A practice that a learner saved to a file: read as a stranger's, with whatever makes it doubtful.

Its seal is a check figure over the rest of the file (`page/saved_file.js`). It tells a file that was changed since the
page saved it, not one made up by somebody who knows how: a saved practice is no evidence, and the sheet says so.
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any

from pydantic import BaseModel, Field, ValidationError
from pydantic_core import from_json

from courseware.papers.names import LONGEST_NAME, printable_text
from courseware.text_files.faults import Fault, FileFaulty

FORM, VERSION = "courseware-practice", 2
MOST_BYTES = 1_000_000
_LONGEST = 400  # characters of a slip or a title
_MOST = 1_000_000  # questions
_AGAIN = "expected a file that the practice page saved; let the learner open the page and save anew"

Text = Annotated[str, Field(max_length=_LONGEST)]
Count = Annotated[int, Field(ge=0, le=_MOST)]


class PracticeFaulty(FileFaulty):
    """A file that is no saved practice."""


class Day(BaseModel):
    """A day of practice: how many questions, and how many right without help."""

    day: date
    questions: Count
    right: Count


class Practised(BaseModel):
    """An exercise that was begun, and the slips in it that are still to come back."""

    topic: Text
    exercise: Text
    level: Count
    questions: Count
    secure: bool
    slips: Annotated[list[Text], Field(max_length=100)]


class _Start(BaseModel):
    start: Count = 0


class _Saved(BaseModel):
    name: Text
    saved: date
    days: Annotated[list[Day], Field(max_length=1000)]
    practised: Annotated[list[Practised], Field(max_length=2000)]
    memory: _Start
    seal: Text = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SavedPractice:
    """What a file says: who ('' where no name was typed), when it was saved, the days, what was practised.

    `phone` tells one phone's files from another's. `doubts` say why the file is not to be relied on; none where it is
    as the page saved it.
    """

    file: str
    name: str
    saved: date
    days: tuple[Day, ...]
    practised: tuple[Practised, ...]
    phone: int
    doubts: tuple[str, ...]


def read_practice(data: bytes, file: str, today: date) -> SavedPractice:
    """The practice saved in a file. Raises `PracticeFaulty` with one fault for what is none."""
    found = _parsed(data, file)
    try:
        saved = _Saved.model_validate(found)
    except ValidationError as invalid:
        where = ".".join(map(str, invalid.errors()[0]["loc"]))
        raise _refusal(file, f"`{where}` is not as the page writes it") from None
    return SavedPractice(
        file=file,
        name=printable_text(saved.name)[:LONGEST_NAME],
        saved=saved.saved,
        days=tuple(sorted(saved.days, key=lambda day: day.day)),
        practised=tuple(saved.practised),
        phone=saved.memory.start,
        doubts=tuple(_doubts(found, saved, today)),
    )


def seal_of(saved: dict[str, Any]) -> str:
    """The check figure of all but the seal: CRC-32 over its JSON without blanks, all of it ASCII."""
    rest = {key: value for key, value in saved.items() if key != "seal"}
    return f"{zlib.crc32(json.dumps(rest, separators=(',', ':')).encode()):08x}"


def _parsed(data: bytes, file: str) -> dict[str, Any]:
    if len(data) > MOST_BYTES:
        raise _refusal(file, f"the file has {len(data)} bytes")
    try:
        found = from_json(data, allow_inf_nan=False)
    except ValueError:  # whatever is no JSON, or nested without end
        raise _refusal(file, "this is no saved practice") from None
    if not isinstance(found, dict) or found.get("form") != FORM:
        raise _refusal(file, "this is no saved practice")
    if found.get("version") != VERSION:
        raise _refusal(file, "this was saved by another edition of the page")
    return found


def _doubts(found: dict[str, Any], saved: _Saved, today: date) -> Iterator[str]:
    if seal_of(found) != saved.seal:
        yield "was changed since the page saved it"
    if saved.saved > today:
        yield "was saved on a day that is still to come"
    if any(day.day > saved.saved for day in saved.days):
        yield "has days after the one it was saved on"
    if any(day.right > day.questions for day in saved.days):
        yield "has more right than asked"


def _refusal(file: str, wrong: str) -> PracticeFaulty:
    return PracticeFaulty((Fault(file, 1, 1, wrong, _AGAIN),))
