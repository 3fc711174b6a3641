"""A file to double-click that starts a command: each system's own kind, written where the user's desktop is."""

from __future__ import annotations

import os
import re
import shlex
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from courseware.files.atomic import write_whole

_STEM = "Courseware desk"
_RUNS = 0o755


@dataclass(frozen=True, slots=True, kw_only=True)
class Launcher:
    """The file's name and its bytes."""

    name: str
    data: bytes


def launcher(words: Sequence[str], system: str = sys.platform) -> Launcher:
    """A launcher of a command given as its words; it opens a window, and closing that ends the command.

    Linux: Desktop Entry Specification 1.5, of which nothing later than 1.0 is used. Windows: a batch file, in UTF-8.
    macOS: a shell script that Terminal opens.
    """
    if system == "win32":
        line = " ".join(map(_of_a_batch_file, words))
        text = f"@echo off\r\nchcp 65001 >nul\r\ntitle {_STEM}\r\n{line}\r\nif errorlevel 1 pause\r\n"
        return Launcher(name=f"{_STEM}.cmd", data=text.encode())
    if system == "darwin":
        return Launcher(name=f"{_STEM}.command", data=f"#!/bin/sh\nexec {shlex.join(words)}\n".encode())
    line = " ".join(map(_of_an_entry, words))
    text = (
        f"[Desktop Entry]\nType=Application\nVersion=1.0\nName={_STEM}\n"
        "Comment=Papers, marks and the record of bricklaying classes, on this machine\n"
        f"Exec={line}\nTerminal=true\nCategories=Education;\n"
    )
    return Launcher(name=f"{_STEM}.desktop", data=text.encode())


def write_launcher(words: Sequence[str], place: Path, system: str = sys.platform) -> Path:
    """Writes a launcher of a command into a folder. Returns its path."""
    made = launcher(words, system)
    write_whole(place / made.name, made.data, _RUNS)
    return place / made.name


def desktop_folder(environment: Mapping[str, str] = os.environ, home: Path | None = None) -> Path:
    """The folder that the user sees as the desktop, else the home folder."""
    home = home or Path.home()
    said = Path(environment.get("XDG_CONFIG_HOME") or home / ".config") / "user-dirs.dirs"
    named = [home / "Desktop"]
    if said.is_file():  # as xdg-user-dirs writes it: XDG_DESKTOP_DIR="$HOME/Schreibtisch"
        found = re.search(r'^XDG_DESKTOP_DIR="([^"\n]*)"', said.read_text(encoding="utf-8", errors="replace"), re.M)
        named.insert(0, Path(found[1].replace("$HOME", str(home))) if found else home)
    return next((folder for folder in named if folder.is_absolute() and folder.is_dir()), home)


def this_program(*words: str) -> tuple[str, ...]:
    """The words that start this program again, with a command of it."""
    return (sys.executable, "-m", "courseware.cli", *words)


def _of_a_batch_file(word: str) -> str:
    """A word in quotes, as a program gets it: one backslash before the last quote would keep it open."""
    doubled = re.sub(r"(\\+)$", r"\1\1", word)
    return f'"{doubled.replace("%", "%%")}"'


def _of_an_entry(word: str) -> str:
    """A word of the key Exec: quoted, then escaped as every string of an entry, and no field code."""
    quoted = re.sub(r'(["`$\\])', r"\\\1", word)
    return f'"{quoted}"'.replace("\\", "\\\\").replace("%", "%%").replace("\n", "\\n")
