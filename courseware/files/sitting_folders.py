"""The sittings' folders in an output folder, those of stopped runs among them, and whose papers are in each."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from courseware.database.learner_lookup import Held
from courseware.files.bank_files import NotFound
from courseware.files.sitting_files import SITTING
from courseware.papers.codes import read_code
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import SittingFaulty, read_sitting
from courseware.text_files.faults import harmless

_LARGEST = 200_000_000  # bytes: a thousand learners with every exercise there is


@dataclass(frozen=True, slots=True, kw_only=True)
class SittingFolder:
    """The folder of a sitting, its sitting.json's text and the sitting."""

    path: Path
    text: str
    sitting: Sitting

    @property
    def held(self) -> tuple[Held, ...]:
        """Its papers and their learners."""
        return tuple(
            Held(
                sitting=self.sitting.code, paper=paper.code, name=paper.learner.name, reference=paper.learner.reference
            )
            for paper in self.sitting.papers
        )


def sitting_text(file: Path) -> str:
    """The text of a sitting.json. Raises `SittingFaulty` where it cannot be read."""
    try:
        with file.open("rb") as opened:
            data = opened.read(_LARGEST + 1)
        if len(data) > _LARGEST:
            raise SittingFaulty(f"{file} is larger than any sitting")
        return data.decode("utf-8")
    except (OSError, UnicodeDecodeError):
        raise SittingFaulty(f"{file} cannot be read") from None


def read_folder(path: Path) -> SittingFolder:
    """The sitting in a folder. Raises `SittingFaulty` where there is none."""
    return _read(path, path / SITTING)


def sitting_folder(named: str) -> SittingFolder:
    """The sitting in a folder, or by its sitting.json. Raises `NotFound` or `SittingFaulty`."""
    path = Path(named)
    if not path.exists():
        raise NotFound(f"there is no sitting {named}; name its folder, such as output/2026-11-25-opening-sizes")
    return read_folder(path) if path.is_dir() else _read(path.parent, path)


def _read(folder: Path, file: Path) -> SittingFolder:
    text = sitting_text(file)
    return SittingFolder(path=folder, text=text, sitting=read_sitting(text))


def find_folders(parents: Iterable[Path]) -> tuple[tuple[SittingFolder, ...], tuple[Path, ...]]:
    """All sittings' folders in these folders; and those whose sitting.json cannot be read."""
    found: list[SittingFolder] = []
    faulty: list[Path] = []
    files = {file.resolve() for parent in parents if parent.is_dir() for file in parent.glob(f"*/{SITTING}")}
    for file in sorted(files):
        try:
            found.append(read_folder(file.parent))
        except SittingFaulty:
            faulty.append(file.parent)
    return tuple(found), tuple(faulty)


def folder_of(parent: Path, code: str) -> SittingFolder:
    """The folder in `parent` of the sitting with this code; of several, as `again` makes them, the fullest one.

    Raises `NotFound`.
    """
    known = read_code(code)
    found = []
    for file in sorted(parent.glob(f"*/{SITTING}")) if known else ():
        try:
            if f'"{known}"' in sitting_text(file) and (folder := read_folder(file.parent)).sitting.code == known:
                found.append(folder)
        except SittingFaulty:
            continue
    if not found:
        raise NotFound(f"no sitting has the code {harmless(code)} in {parent}")
    return max(found, key=lambda folder: (sum(1 for _ in folder.path.rglob("*.*")), -len(folder.path.name)))
