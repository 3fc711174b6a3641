"""The columns of a class list, known by their headings as colleges write them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from courseware.spreadsheets.rows import heading_key

# Headings by their letters and figures alone ("Full Name" is "fullname"), the surest first.
_NAME = (
    "fullname", "name", "learnername", "studentname", "apprenticename", "candidatename", "pupilname",
    "learner", "student", "apprentice", "candidate", "pupil", "names", "learners", "students",
)  # fmt: skip
_SURNAME_FIRST = (
    "surnameforename", "surnameforenames", "surnamefirstname", "surnamefirstnames", "lastnamefirstname",
    "lastnamefirstnames", "familynamegivenname", "namesurnameforename", "namesurnamefirstname", "namelastfirst",
)  # fmt: skip
_FIRST = ("firstname", "firstnames", "forename", "forenames", "givenname", "givennames")
_LAST = ("surname", "lastname", "familyname")
_REFERENCE = (
    "reference", "learnerreference", "studentreference", "apprenticereference", "learnerreferencenumber",
    "ref", "learnerref", "studentref", "id", "learnerid", "studentid", "apprenticeid", "idnumber", "uln",
    "learnernumber", "studentnumber", "candidatenumber", "candidateno", "studentno", "learnerno", "idno", "number",
    "no",
)  # fmt: skip

_PAPER = ("paper", "paperformat", "format", "sheetformat")

WANTED = "expected a heading `name` (or `learner`, `student`, `full name`), or `first name` and `surname`"


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Where to look, from 0: the column of names, or those of first name and surname; the reference, if any."""

    name: tuple[int, ...]
    reference: int | None
    unused: tuple[int, ...]
    surname_first: bool = False  # the heading says so
    level: int | None = None  # where learners' levels are asked for
    paper: int | None = None  # how each learner's sheets are set


def find_columns(headings: Sequence[str]) -> Columns | None:
    """The columns under these headings, or None where none holds names."""
    keys = [heading_key(heading) for heading in headings]
    name, turned = _first_of(_NAME, keys), _first_of(_SURNAME_FIRST, keys)
    surname_first = name is None and turned is not None
    name = turned if surname_first else name
    first, last = _first_of(_FIRST, keys), _first_of(_LAST, keys)
    found = (name,) if name is not None else (first, last)
    columns = tuple(column for column in found if column is not None)
    if len(columns) < len(found):
        return None
    reference, paper = _first_of(_REFERENCE, keys), _first_of(_PAPER, keys)
    used = {*columns, reference, paper}
    return Columns(
        name=columns,
        reference=reference,
        unused=tuple(i for i in range(len(keys)) if i not in used),
        surname_first=surname_first,
        paper=paper,
    )


def _first_of(wanted: Sequence[str], keys: Sequence[str]) -> int | None:
    return next((keys.index(key) for key in wanted if key in keys), None)
