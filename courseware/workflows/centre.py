"""The centre's settings as a text that a tutor changes: read with its faults, saved whole or not at all."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from courseware.files.atomic import write_whole
from courseware.files.bank_files import read_file
from courseware.files.centre_file import CENTRE
from courseware.settings.read import read_settings
from courseware.settings.settings import MORTARS, Settings
from courseware.settings.shapes import CentreShape
from courseware.text_files.faults import Fault, FileFaulty
from courseware.text_files.yaml_edit import with_values
from courseware.text_files.yaml_tree import Text, node_at
from courseware.trade import ARRIS_RULES


@dataclass(frozen=True, slots=True, kw_only=True)
class CentreText:
    """The file's text ('' where there is none), its hash, and the faults in it."""

    text: str
    sha256: str
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A setting that can be filled in without knowing how the file is written: where it stands, how it is asked for.

    One with `choices` is chosen from them; a blank leaves the setting out, which is as `usual` says.
    """

    path: tuple[str, ...]
    label: str
    usual: str
    choices: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """What a form calls it."""
        return ".".join(self.path)


FIELDS = (
    Field(path=("name",), label="Name of the centre", usual="none is printed"),
    Field(path=("arris_rule",), label="Arris of a projecting course to level", usual="outline", choices=ARRIS_RULES),
    Field(path=("upright_joint",), label="Your word for the upright joint", usual="perpend"),
    Field(path=("mortar",), label="Mortar of jobs", usual="as each job says", choices=MORTARS),
    Field(path=("day_height",), label="mm that a wall goes up in a day at most", usual="as each job says"),
    Field(path=("approval",), label="Approval before papers are printed", usual="not required", choices=("required",)),
    Field(path=("first_marker",), label="Second marks compared with", usual="person", choices=("person", "program")),
    *(
        Field(path=("retention", kind), label=f"Months that {what} are kept", usual="always")
        for kind, what in (
            ("names", "names"), ("scripts", "answers as written"), ("marks", "marks"), ("papers", "papers as issued"),
        )
    ),
    Field(path=("course", "starts"), label="A day of the first week of your course, as 2026-09-07", usual="no course"),
    Field(path=("course", "weeks"), label="How many weeks are taught", usual="no course"),
)  # fmt: skip


def field_values(text: str) -> dict[str, str]:
    """What stands in a text for each field, by the field's name. Raises `FileFaulty`."""
    found = read_settings(text.encode(), str(CENTRE))
    return {field.name: _value(found, field.path) for field in FIELDS}


def with_fields(text: str, typed: Mapping[str, str]) -> str:
    """The text with each field as it was typed; a blank takes its key away, all else stays. Raises `FileFaulty`."""
    before = field_values(text)
    changes = {field.path: typed[field.name] or None for field in FIELDS if typed[field.name] != before[field.name]}
    return with_values(text, changes, str(CENTRE))


def _value(found: Settings, path: tuple[str, ...]) -> str:
    node = node_at(found.node, path) if found.node is not None else None
    return " ".join((node.value or "").split()) if isinstance(node, Text) else ""


def centre_text(file: Path) -> CentreText:
    """The settings' file as it stands. Raises `NotFound` where it is there but cannot be read."""
    data = read_file(file) if file.exists() else b""
    text = data.decode("utf-8-sig", "replace")
    return CentreText(text=text, sha256=hashlib.sha256(data).hexdigest(), faults=_faults(data))


def faults_of(text: str) -> tuple[Fault, ...]:
    """What is wrong with a text as the centre's settings."""
    return _faults(text.encode("utf-8", "surrogatepass"))


def save_centre(file: Path, text: str) -> CentreText:
    """Writes the text as the settings' file where it has no faults; else nothing is written and they are told."""
    data = (text.strip("\n") + "\n").encode("utf-8", "surrogatepass")
    faults = _faults(data)
    if not faults:
        write_whole(file, data)
    return CentreText(
        text=data.decode("utf-8", "surrogatepass"), sha256=hashlib.sha256(data).hexdigest(), faults=faults
    )


def keys_of_centre() -> tuple[tuple[str, str], ...]:
    """Each key of the file with what it settles."""
    return tuple((name, field.description or "") for name, field in CentreShape.model_fields.items())


def _faults(data: bytes) -> tuple[Fault, ...]:
    try:
        read_settings(data, str(CENTRE))
    except FileFaulty as faulty:
        return faulty.faults
    return ()
