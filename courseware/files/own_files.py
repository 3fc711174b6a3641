"""The tutor's own banks and jobs: YAML files in one folder, found by their short names, saved whole or not at all."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from courseware.files.atomic import one_at_a_time, slug, write_whole
from courseware.files.bank_files import NotFound, read_file
from courseware.text_files.decoding import MOST_BYTES, decoded
from courseware.text_files.faults import FileFaulty

_ENDING = ".yaml"
_MOST = 500  # files that are listed


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnText:
    """A file as it stands: its short name, its text and the mark of that text."""

    name: str
    text: str
    mark: str
    path: Path

    @classmethod
    def opened(cls, name: str, path: Path) -> Self:
        """A file that is looked into. Raises `NotFound`, and `BankFaulty` where it is not text."""
        data = read_file(path)
        return cls(name=name, text=decoded(data, path.name), mark=mark_of(data), path=path)

    @classmethod
    def listed(cls, name: str, path: Path) -> Self:
        """A file for a list: without text where it cannot be read."""
        try:
            return cls.opened(name, path)
        except (FileFaulty, NotFound):
            return cls(name=name, text="", mark="", path=path)


class ChangedMeanwhile(ValueError):
    """The file is not what it was when it was read: another window or another person has saved it."""


def own_files(folder: Path, beside: frozenset[str] = frozenset()) -> dict[str, Path]:
    """The files of a folder by their short names, in order; links are left out, and so is what stands `beside` them."""
    if not folder.is_dir():
        return {}
    found = sorted((path for path in folder.glob(f"*{_ENDING}") if path.name not in beside), key=lambda path: path.stem)
    return {path.stem: path for path in found[:_MOST] if path.is_file() and not path.is_symlink()}


def own_file(folder: Path, name: str) -> Path:
    """The file of that short name. Raises `NotFound`; no name leads out of the folder, since each is looked up."""
    found = own_files(folder).get(name)
    if found is None:
        raise NotFound(f"there is no {name} in {folder}")
    return found


def mark_of(data: bytes) -> str:
    """What tells one text of a file from another."""
    return hashlib.sha256(data).hexdigest()[:16]


def save_new(folder: Path, title: str, text: str) -> Path:
    """Saves a text as a new file under a free name made of its title. Returns its path."""
    folder.mkdir(parents=True, exist_ok=True)
    with one_at_a_time(folder, lambda: None):
        stem = slug(title) or folder.name
        number, path = 1, folder / f"{stem}{_ENDING}"
        while path.exists() or path.is_symlink():
            number += 1
            path = folder / f"{stem}-{number}{_ENDING}"
        write_whole(path, _bounded(text))
    return path


def save_again(path: Path, text: str, was: str) -> None:
    """Saves a text over an own file that still is what it was, by its mark, when it was read.

    Raises `ChangedMeanwhile` where it is not, and saves nothing.
    """
    data = _bounded(text)
    with one_at_a_time(path.parent, lambda: None):
        if not path.is_file() or path.is_symlink() or mark_of(read_file(path)) != was:
            raise ChangedMeanwhile(
                f"{path.name} was changed in another window, or taken away, since it was opened here"
            )
        write_whole(path, data)


def _bounded(text: str) -> bytes:
    data = text.replace("\r\n", "\n").replace("\r", "\n").encode("utf-8", "replace")
    if len(data) > MOST_BYTES:
        raise NotFound(f"the text has {len(data)} bytes; at most {MOST_BYTES} are saved")
    return data
