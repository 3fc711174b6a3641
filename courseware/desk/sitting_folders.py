"""The sittings' folders in an output folder, those of stopped runs among them, and whose papers are in each."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from courseware.desk.issuing import record_text
from courseware.desk.sitting_files import RECORD
from courseware.evidence.whose import Held
from courseware.papers.record import RecordFaulty, read_record
from courseware.papers.sitting import Sitting


@dataclass(frozen=True, slots=True, kw_only=True)
class SittingFolder:
    """A folder with the record of a sitting in it."""

    path: Path
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


def read_folder(path: Path) -> SittingFolder:
    """The sitting in a folder. Raises `RecordFaulty` where there is none."""
    return SittingFolder(path=path, sitting=read_record(record_text(path / RECORD)))


def find_folders(parents: Iterable[Path]) -> tuple[tuple[SittingFolder, ...], tuple[Path, ...]]:
    """All sittings' folders in these folders; and those whose record cannot be read."""
    found: list[SittingFolder] = []
    faulty: list[Path] = []
    records = {file.resolve() for parent in parents if parent.is_dir() for file in parent.glob(f"*/{RECORD}")}
    for file in sorted(records):
        try:
            found.append(read_folder(file.parent))
        except RecordFaulty:
            faulty.append(file.parent)
    return tuple(found), tuple(faulty)
