"""The distance a class has travelled between sittings of the same exercises, from the record to what is printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.class_report.distance import Distance, Pair, distance, pairs
from courseware.class_report.distance_report import distance_report, distance_workbook
from courseware.class_report.misconceptions import slip_words
from courseware.class_report.question_words import question_words
from courseware.database.kept_marks import marks_of
from courseware.database.sittings import sitting_of
from courseware.marking.marks import MarkedSitting
from courseware.papers.compose import read_sources
from courseware.settings.settings import Settings
from courseware.workflows.quality import write_both

if TYPE_CHECKING:
    from sqlalchemy import Engine


@dataclass(frozen=True, slots=True, kw_only=True)
class Travelled:
    """What was found, by pair of sittings, and the files it was written to."""

    found: tuple[Distance, ...]
    files: tuple[Path, ...]


def travelled(engine: Engine, codes: Sequence[str], settings: Settings, *, out: Path, day: str) -> Travelled:
    """Sets sittings side by side, two and two by their exercises. Raises `CannotCompare`."""
    marked = [MarkedSitting(sitting=sitting_of(engine, code), marked=marks_of(engine, code, "first")) for code in codes]
    found = [_figures(pair) for pair in pairs(marked)]
    files = write_both(
        engine, out, f"distance-travelled-{day}", distance_report(found, settings), distance_workbook(found, day)
    )
    return Travelled(found=tuple(one for one, _ in found), files=files)


def _figures(pair: Pair) -> tuple[Distance, dict[str, str]]:
    before, after = (read_sources(one.sitting) for one in (pair.start, pair.end))
    words = slip_words(pair.start.sitting, before), slip_words(pair.end.sitting, after)
    return distance(pair, words), dict(question_words(pair.start.sitting, before))
