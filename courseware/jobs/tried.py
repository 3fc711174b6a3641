"""A job's text as it is being written: the task where it can be built; else why not, and which one change would do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

from courseware.banks.figures import write_out
from courseware.jobs.support import KINDS
from courseware.jobs.task import ProfileShape, Task, read_task
from courseware.settings.settings import Settings
from courseware.text_files.faults import BankFaulty, Fault
from courseware.text_files.yaml_edit import Path, with_values
from courseware.text_files.yaml_text import read_yaml
from courseware.text_files.yaml_tree import Keyed, Node, Text, key_place, place
from courseware.trade import FORMATS, PROJECTION_LIMITS, UK_METRIC, TradeError, number
from courseware.trade.surround import CORNERS

_REACH = 6  # steps to either side in which the nearest that works is looked for
_HALF = Fraction(1, 2)
_STEPS: Mapping[Path, Fraction] = {
    ("opening", "bricks"): Fraction(1),
    ("opening", "courses"): Fraction(1),
    ("wall", "bricks"): _HALF,
    ("wall", "courses"): Fraction(1),
    ("wall", "below"): Fraction(1),
    ("eye_height",): Fraction(5),  # mm
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """Why a job cannot be: the key that it is about, () for the file as a whole, and one line."""

    key: Path
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Instead:
    """A value for one key with which a fault is gone and no other has come."""

    key: Path
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What became of a job's text: its task, or what is wrong with it and what would work."""

    task: Task | None
    told: tuple[Told, ...] = ()
    instead: tuple[Instead, ...] = ()


_Faults: TypeAlias = tuple[Told, ...]


@lru_cache(maxsize=32)  # a page is drawn, then saved or asked for again with the same values
def try_job(text: str, file: str, profiles: tuple[ProfileShape, ...], settings: Settings) -> Tried:
    """Reads a job's text. Where it cannot be built, the nearest values to either side that can are looked for."""

    def look(changed: str) -> Task | _Faults:
        try:
            return read_task(changed.encode(), file, profiles, settings)
        except BankFaulty as faulty:
            return _told(changed, file, faulty.faults)

    found = look(text)
    if isinstance(found, Task):
        return Tried(task=found)
    return Tried(task=None, told=found, instead=tuple(_that_work(text, file, found, look)))


def job_values(text: str, file: str) -> dict[Path, str]:
    """Every value of a job's text as it is typed, by its keys. Raises `BankFaulty` where the text does not read."""
    return {
        path: node.value
        for path, node in _nodes(read_yaml(text.encode(), file))
        if isinstance(node, Text) and node.value
    }


def _that_work(text: str, file: str, told: _Faults, look: Callable[[str], Task | _Faults]) -> Iterator[Instead]:
    """The nearest value to either side of each key's own that leaves fewer faults, and none of another key."""
    if any(not one.key for one in told):  # what does not even read is mended by hand
        return
    before = Counter(one.key for one in told)
    values = job_values(text, file)

    def works(key: Path, value: str) -> bool:
        found = look(with_values(text, {key: value}, file))
        left = Counter() if isinstance(found, Task) else Counter(one.key for one in found)
        return left < before

    for key, tries in _candidates(values):
        for side in tries:
            nearest = next((value for value in side if works(key, value)), None)
            if nearest is not None:
                yield Instead(key=key, value=nearest)


def _candidates(values: Mapping[Path, str]) -> Iterator[tuple[Path, tuple[Iterable[str], ...]]]:
    """Values to try for each key: from its own outwards below and above, or each choice by itself."""
    for key, step in _STEPS.items():
        own = _figure(values.get(key, ""))
        if own is not None:
            steps = range(1, _REACH + 1)
            yield (
                key,
                tuple(
                    [write_out(own + side * n * step) for n in steps if own + side * n * step > 0] for side in (-1, 1)
                ),
            )
    brick = FORMATS.get(values.get(("format",), ""), UK_METRIC)
    yield ("projects",), ([write_out(PROJECTION_LIMITS["uk_corbel"].per_course(brick))],)
    for key, choices in ((("format",), FORMATS), (("corner",), CORNERS), (("support",), KINDS)):
        yield key, tuple([choice] for choice in choices if choice != values.get(key))


def _figure(text: str) -> Fraction | None:
    try:
        found = number(text)
    except TradeError:
        return None
    return found if abs(found) < 10_000 and found.denominator in (1, 2) else None


def _told(text: str, file: str, faults: Iterable[Fault]) -> _Faults:
    """Each fault by the key that stands where it was found."""
    try:
        node = read_yaml(text.encode(), file)
    except BankFaulty:
        return tuple(Told(key=(), says=f"line {one.line}: {one.wrong}; {one.expected}") for one in faults)
    paths = [path for path, _ in _nodes(node)]
    by_place = {where(node, path): path for where in (key_place, place) for path in paths}
    return tuple(
        Told(key=by_place.get((one.line, one.column), ()), says=f"{one.wrong}; {one.expected}") for one in faults
    )


def _nodes(node: Keyed) -> Iterator[tuple[Path, Node]]:
    """Every key of the file and of its maps, those within a map after it."""
    for key, value in node.entries:
        yield (key.value or "",), value
        if isinstance(value, Keyed):
            yield from (((key.value or "", *path), inner) for path, inner in _nodes(value))
