"""The folder of work that was chosen last, kept where the system keeps such things for this user."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Mapping
from pathlib import Path

from courseware.files.atomic import PRIVATE, write_whole

_LONGEST = 4096  # bytes of a path


def remembered_in(environment: Mapping[str, str] = os.environ, system: str = sys.platform) -> Path:
    """The file that holds the last folder's path."""
    home = Path.home()
    if system == "win32":
        place = Path(environment.get("LOCALAPPDATA") or home / "AppData" / "Local")
    elif system == "darwin":
        place = home / "Library" / "Application Support"
    else:
        place = Path(environment.get("XDG_STATE_HOME") or home / ".local" / "state")
    return place / "courseware" / "last-folder"


def last_folder(file: Path) -> Path | None:
    """The folder chosen last; none where there was none or it is gone."""
    try:
        with file.open("rb") as opened:
            text = opened.read(_LONGEST + 1).decode("utf-8").strip()
    except (OSError, UnicodeDecodeError):
        return None
    folder = Path(text)
    return folder if text and "\0" not in text and folder.is_absolute() and folder.is_dir() else None


def remember(file: Path, folder: Path) -> None:
    """Keeps the folder for the next start; where that cannot be, the next start asks."""
    with contextlib.suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True)
        write_whole(file, str(folder.absolute()).encode(), PRIVATE)
