"""The distance a class has travelled between sittings of the same exercises, from the record to what is printed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.class_report.distance import Distance, Pair, blueprint, distance, learners_of, pairs
from courseware.class_report.distance_report import distance_report, distance_workbook
from courseware.class_report.misconceptions import slip_words
from courseware.class_report.question_words import question_words
from courseware.database.kept_marks import marks_of
from courseware.database.sittings import sitting_of
from courseware.files.sitting_folders import find_folders
from courseware.marking.marks import MarkedSitting
from courseware.papers.compose import read_sources
from courseware.papers.sitting import Sitting
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


def pairs_in(out: Path) -> list[tuple[Sitting, Sitting]]:
    """Sittings in a folder of the same exercises on two days, which somebody wrote both of; the latest first."""
    found, _ = find_folders([out])
    alike: dict[tuple[tuple[str, str], ...], list[Sitting]] = {}
    for one in sorted(found, key=lambda one: one.sitting.date):
        alike.setdefault(blueprint(one.sitting), []).append(one.sitting)
    each = (pair for own in alike.values() for pair in pairwise(own))
    both = [(a, b) for a, b in each if a.date < b.date and learners_of(a) & learners_of(b)]
    return sorted(both, key=lambda pair: pair[1].date, reverse=True)


def _figures(pair: Pair) -> tuple[Distance, dict[str, str]]:
    before, after = (read_sources(one.sitting) for one in (pair.start, pair.end))
    words = slip_words(pair.start.sitting, before), slip_words(pair.end.sitting, after)
    return distance(pair, words), dict(question_words(pair.start.sitting, before))
