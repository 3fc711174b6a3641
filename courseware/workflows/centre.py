"""The centre's settings as a text that a tutor changes: read with its faults, saved whole or not at all."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

from courseware.files.atomic import write_whole
from courseware.files.bank_files import read_file
from courseware.files.centre_file import CENTRE
from courseware.settings.read import read_settings
from courseware.settings.shapes import CentreShape
from courseware.text_files.faults import Fault, FileFaulty


@dataclass(frozen=True, slots=True, kw_only=True)
class CentreText:
    """The file's text ('' where there is none), its hash, and the faults in it."""

    text: str
    sha256: str
    faults: tuple[Fault, ...]


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
