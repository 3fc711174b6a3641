"""Where banks are: files named by the tutor, or the shipped ones by their short names."""

from __future__ import annotations

import atexit
from collections.abc import Sequence
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from shutil import rmtree
from tempfile import mkdtemp

from courseware.banks import (
    Bank,
    BankFaulty,
    Fault,
    SafetyNotes,
    files_named,
    holds_safety_notes,
    read_bank,
    read_safety_notes,
    with_drawings,
)
from courseware.settings.settings import DEFAULTS, Settings
from courseware.text_files.did_you_mean import near

OWN_BANKS = "banks"  # the folder of a tutor's own banks, in a folder of work
SAFETY = "safety_notes.yaml"


class NotFound(ValueError):
    """A file that is not there; the message says what is."""


@cache
def shipped_folder() -> Path:
    """The folder of the banks that come with the program: in the package as installed, or beside it in a checkout.

    Raises `NotFound` where neither is there.
    """
    inside = files("courseware") / "question_banks"
    if inside.is_dir():
        return inside if isinstance(inside, Path) else _unpacked(inside)
    beside = Path(__file__).parents[2] / "question_banks"
    if not (beside / SAFETY).is_file():
        raise NotFound("the banks that come with the program are not where it is installed; install it again")
    return beside


def _unpacked(inside: Traversable) -> Path:
    """The shipped banks out of a zip that the program runs from, in a folder that goes when the run ends."""
    folder = Path(mkdtemp(prefix="courseware-banks-"))
    atexit.register(rmtree, folder, ignore_errors=True)
    left = [(inside, folder)]
    while left:
        packed, place = left.pop()
        place.mkdir(exist_ok=True)
        for one in packed.iterdir():
            if one.is_dir():
                left.append((one, place / one.name))
            else:
                (place / one.name).write_bytes(one.read_bytes())
    return folder


def shipped_banks() -> tuple[Path, ...]:
    """The shipped topics' files, in the order of their names. Raises `NotFound` where there are none."""
    found = tuple(path for path in sorted(shipped_folder().glob("*.yaml")) if path.name != SAFETY)
    if not found:
        raise NotFound(f"no banks are in {shipped_folder()}; install the program again")
    return found


def own_banks(work: Path) -> tuple[Path, ...]:
    """The tutor's own topics' files in a folder of work, in the order of their names."""
    found = sorted(path for path in (work / OWN_BANKS).glob("*.yaml") if not path.name.startswith("."))
    return tuple(path for path in found if path.name != SAFETY and not holds_safety_notes(read_file(path)))


def shipped_notes() -> SafetyNotes:
    """The safety notes that come with the program."""
    path = shipped_folder() / SAFETY
    return read_safety_notes(read_file(path), path.name)


def find_banks(named: Sequence[str]) -> tuple[Path, ...]:
    """The files meant by `named`: paths, or short names of shipped topics. Raises `NotFound`."""
    return tuple(dict.fromkeys(_find(name) for name in named))


def read_banks(paths: Sequence[Path], settings: Settings = DEFAULTS) -> tuple[tuple[Bank, ...], SafetyNotes | None]:
    """The banks in these files, compiled for the centre's settings, with the safety notes that go with them.

    Raises `BankFaulty` with all faults of all.
    """
    banks: list[Bank] = []
    faults: list[Fault] = []
    notes: SafetyNotes | None = None
    beside = [path for path in paths if path.name == SAFETY or holds_safety_notes(read_file(path))]
    beside += [path.parent / SAFETY for path in paths] + [shipped_folder() / SAFETY]
    for path in beside:
        if path.is_file():
            try:
                notes = read_safety_notes(read_file(path), path.name)
            except BankFaulty as faulty:
                faults += faulty.faults
            break
    for path in paths:
        if path in beside:
            continue
        try:
            bank = read_bank(_whole(read_file(path), path), path.name, settings.of_a_sitting())
            faults += _strange_notes(bank, notes)
            banks.append(bank)
        except BankFaulty as faulty:
            faults += faulty.faults
    topics = [bank.topic for bank in banks]
    faults += [
        Fault(bank.file, 1, 1, f"the topic `{bank.topic}` stands in another bank too", "each topic once")
        for index, bank in enumerate(banks)
        if bank.topic in topics[:index]
    ]
    if faults:
        raise BankFaulty(tuple(faults))
    return tuple(banks), notes


def bank_in(data: bytes, path: Path, settings: Settings = DEFAULTS) -> tuple[Bank, SafetyNotes | None]:
    """The bank in a text that need not be saved yet, as `read_banks` would read it from the file at `path`.

    Its safety notes and its author's own drawings are looked for in the folder of `path`. Raises `BankFaulty`.
    """
    beside = path.parent / SAFETY
    found = beside if beside.is_file() else shipped_folder() / SAFETY
    notes = read_safety_notes(read_file(found), found.name) if found.is_file() else None
    bank = read_bank(_whole(data, path), path.name, settings.of_a_sitting())
    if strange := _strange_notes(bank, notes):
        raise BankFaulty(tuple(strange))
    return bank, notes


def _find(name: str) -> Path:
    path = Path(name)
    if path.is_file():
        return path
    shipped = {bank.stem: bank for bank in shipped_banks()}
    if name in shipped:
        return shipped[name]
    if path.is_dir():
        raise NotFound(f"{name} is a folder; name the bank files in it, as {name}/*.yaml")
    near_by = [str(found) for found in path.parent.glob("*.yaml")] if path.parent.is_dir() else []
    close = get_close_matches(name, [*shipped, *near_by], n=1)
    hint = f"did you mean {close[0]}? " if close else ""
    raise NotFound(f"there is no bank {name}; {hint}shipped topics are {', '.join(shipped)}")


def _whole(data: bytes, path: Path) -> bytes:
    """A bank's bytes with the drawings of its author's own that stand in its folder; links are not followed."""
    beside = {name: path.parent / name for name in files_named(data, path.name)}
    found = {name: read_file(svg) for name, svg in beside.items() if svg.is_file() and not svg.is_symlink()}
    return with_drawings(data, found, path.name)


def read_file(path: Path) -> bytes:
    """A file's bytes, as far as any reader here takes them. Raises `NotFound` where it cannot be read."""
    if path.is_fifo():  # opening one waits until somebody writes into it
        raise NotFound(f"{path} is a pipe, not a file: save what comes out of it in a file, and give that")
    try:
        with path.open("rb") as file:
            return file.read(20_000_000)  # one more than is allowed, so that the reader can say so
    except OSError as error:
        raise NotFound(f"{path} cannot be read: {error.strerror}") from None


def _strange_notes(bank: Bank, notes: SafetyNotes | None) -> list[Fault]:
    known = list(notes.notes) if notes else []
    asked = [(1, name) for name in bank.safety]
    asked += [(exercise.line, name) for exercise in bank.exercises for name in exercise.safety]
    return [
        Fault(bank.file, line, 1, f"no safety note is named `{name}`", near(name, known, "expected one of"))
        for line, name in asked
        if name not in known
    ]
