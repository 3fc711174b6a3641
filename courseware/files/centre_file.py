"""Where the centre's settings are: the file named, else `centre.yaml` in the folder one works in."""

from __future__ import annotations

from pathlib import Path

from courseware.files.bank_files import read_file
from courseware.settings.read import read_settings
from courseware.settings.settings import DEFAULTS, Settings

CENTRE = Path("centre.yaml")


def find_settings(named: str | None) -> Settings:
    """The centre's settings; the defaults where no file is named and none is there.

    Raises `NotFound` for a file that cannot be read, and `FileFaulty`.
    """
    path = Path(named) if named is not None else CENTRE
    if named is None and not path.exists():
        return DEFAULTS
    return read_settings(read_file(path), str(path))
