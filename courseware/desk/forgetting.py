"""One learner taken out of a sitting's folder for good, everybody else's papers and answers left as they were.

What changes for the others: the joined files, the class grid and the record have one paper less. Their own papers, keys
and codes stay, byte for byte. On numbered papers `Paper 3 of 12` stands as it was handed out, while `again` counts anew
and prints `of 11`. What marking made (the folder `marked`) is removed whole: its class picture counts the learner.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from courseware.desk.folder import one_at_a_time, write_whole
from courseware.desk.issuing import LEARNERS, MARKED, RECORD, TUTOR
from courseware.desk.named_in_file import Verdict, look_into
from courseware.desk.sitting_folders import SittingFolder, read_folder
from courseware.evidence.whose import Papers
from courseware.papers.record import RecordFaulty, write_record
from courseware.papers.sitting import Sitting
from courseware.printing.gather import gather
from courseware.printing.workers import print_grid

_JOINED = ((LEARNERS, "paper", "all-papers.pdf"), (TUTOR, "key", "all-keys.pdf"))
_GRID = f"{TUTOR}/class-grid.pdf"
_PLANS = ("sampling-plan", "criteria", "two-markers")  # how the names of those begin that this program writes


@dataclass(frozen=True, slots=True, kw_only=True)
class Forgotten:
    """What was done to a sitting's folder. `look` are files that name the learner or cannot be read: a tutor's own."""

    folder: Path
    removed: tuple[str, ...]
    remade: tuple[str, ...]
    look: tuple[str, ...]
    whole: bool = False  # the folder held nobody else, and went
    was_marked: bool = False  # marking has to be done again


def forget(folder: Path, papers: Papers, waiting: Callable[[], None]) -> Forgotten:
    """Takes a learner's papers out of a folder. Done again after a stop, it goes on where it was.

    The record in the folder is changed last of all, so that the learner can be found again until all is done.
    """
    with one_at_a_time(folder.parent, waiting):
        found = read_folder(folder)
        left = tuple(paper for paper in found.sitting.papers if paper.code not in papers.codes)
        if not left or folder.name.startswith("."):  # what a stopped run left was never issued
            return _dissolve(folder, papers)
        return _take_out(found, replace(found.sitting, papers=left), papers)


def forget_beside(parent: Path, papers: Papers, waiting: Callable[[], None]) -> Forgotten:
    """Takes a learner out of what lies beside the sittings' folders.

    What bears one of the codes goes, such as an export or an audit copy; sampling plans and the like are cleaned or
    removed. Any other file is a tutor's own, such as a class list: it is told of where it names the learner.
    """
    removed: list[str] = []
    remade: list[str] = []
    look: list[str] = []
    with one_at_a_time(parent, waiting):
        for temporary in parent.glob(".*.part"):  # what a stopped run left
            temporary.unlink(missing_ok=True)
        for path in _named(parent.iterdir(), papers):
            if not (path / RECORD).exists():  # else a whole sitting whose title has the code in it
                shutil.rmtree(path) if path.is_dir() and not path.is_symlink() else path.unlink()
                removed.append(path.name)
        for path in sorted(path for path in parent.iterdir() if path.is_file()):
            verdict = look_into(path, papers)
            if path.name.startswith(_PLANS):
                _carry_out(path, verdict)
                (removed if verdict.do == "remove" else remade if verdict.do == "clean" else []).append(path.name)
            elif verdict.do in {"clean", "remove", "look"}:
                look.append(path.name)
    return Forgotten(folder=parent, removed=tuple(removed), remade=tuple(remade), look=tuple(look))


def _take_out(found: SittingFolder, left: Sitting, papers: Papers) -> Forgotten:
    folder = found.path
    record = write_record(left)
    remade = [*_joined(folder, left), *_grid(folder, record)]  # all in memory before anything is touched
    was_marked = (folder / MARKED).is_dir()
    removed = _remove(folder, papers)
    removed += [name for name, data in remade if data is None and (folder / name).exists()]
    for name, data in remade:
        if data is None:
            (folder / name).unlink(missing_ok=True)
        else:
            _rewrite(folder / name, data)
    cleaned, more, look = _look_through(folder, left, papers)
    _rewrite(folder / RECORD, record.encode())
    names = [name for name, data in remade if data is not None]
    return Forgotten(
        folder=folder,
        removed=tuple(sorted({*removed, *more})),
        remade=(*names, *cleaned, RECORD),
        look=tuple(look),
        was_marked=was_marked,
    )


def _joined(folder: Path, left: Sitting) -> Iterator[tuple[str, bytes | None]]:
    """The joined files anew from the single ones; None where a single one is missing, for `again` to make all."""
    for room, kind, name in _JOINED:
        if (folder / room / name).exists():
            singles = [folder / room / f"{kind}-{paper.code}.pdf" for paper in left.papers]
            whole = all(single.exists() for single in singles)
            yield f"{room}/{name}", gather(singles) if whole else None


def _grid(folder: Path, record: str) -> Iterator[tuple[str, bytes | None]]:
    """The class grid anew; None where this version of the program cannot work out the papers any more."""
    if (folder / _GRID).exists():
        try:
            yield _GRID, print_grid(record)
        except (RecordFaulty, LookupError, TypeError, ValueError, ArithmeticError):  # the banks', the trade core's
            yield _GRID, None


def _remove(folder: Path, papers: Papers) -> list[str]:
    """Removes what marking made, what stopped runs left, and every file under one of the codes."""
    removed = []
    if (folder / MARKED).is_symlink():
        (folder / MARKED).unlink()
        removed.append(MARKED)
    elif (folder / MARKED).is_dir():
        shutil.rmtree(folder / MARKED)
        removed.append(f"{MARKED}/")
    for path in _named(list(folder.rglob("*")), papers):
        if path.is_dir() and not path.is_symlink():
            shutil.rmtree(path)
        else:
            path.unlink(missing_ok=True)
        removed.append(str(path.relative_to(folder)))
    for temporary in folder.rglob("*.part"):
        temporary.unlink()
    return removed


def _named(paths: Iterator[Path] | Sequence[Path], papers: Papers) -> list[Path]:
    """Those with a code in their names, however it is written."""
    codes = [code.replace("-", "") for code in papers.codes]
    return [path for path in paths if any(code in re.sub("[^A-Z]", "", path.name.upper()) for code in codes)]


def _look_through(folder: Path, left: Sitting, papers: Papers) -> tuple[list[str], list[str], list[str]]:
    """Looks through the files that nobody remakes: tables are cleaned, sheets removed, the rest is told.

    Returns the names of all three kinds.
    """
    own = {f"{room}/{kind}-{paper.code}.pdf" for room, kind, _ in _JOINED for paper in left.papers}
    own |= {f"{room}/{name}" for room, _, name in _JOINED} | {_GRID, RECORD}
    done: dict[str, list[str]] = {"clean": [], "remove": [], "look": [], "unreadable": [], "": []}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_file() and name not in own:
            done[_carry_out(path, look_into(path, papers))].append(name)
    return done["clean"], done["remove"], sorted(done["look"] + done["unreadable"])


def _carry_out(path: Path, verdict: Verdict) -> str:
    if verdict.do == "clean":
        _rewrite(path, verdict.data)
    if verdict.do == "remove":
        path.unlink()
    return verdict.do


def _rewrite(path: Path, data: bytes) -> None:
    """Writes a file whole, with the rights that it had."""
    write_whole(path, data, path.stat().st_mode & 0o777 if path.exists() else 0o600)


def _dissolve(folder: Path, papers: Papers) -> Forgotten:
    """Removes all that the program made in a folder, and the folder where nothing else is in it; its record last."""
    rooms = [name for name in (LEARNERS, TUTOR, MARKED) if (folder / name).is_dir()]
    for name in rooms:
        shutil.rmtree(folder / name)
    removed = (*(f"{name}/" for name in rooms), *_remove(folder, papers), RECORD)
    for path in (folder / ".request", folder / RECORD):
        path.unlink(missing_ok=True)
    look = tuple(sorted(path.name for path in folder.iterdir()))
    if not look:
        folder.rmdir()
    return Forgotten(folder=folder, removed=removed, remade=(), look=look, whole=not look)
