"""One learner taken out of a sitting's folder for good, everybody else's papers and answers left as they were.

What changes for the others: the joined files, the class grid and sitting.json have one paper less. Their own papers,
keys and codes stay, byte for byte. On numbered papers `Paper 3 of 12` stands as it was handed out, while `again` counts
those left and prints `of 11`. What marking made is removed: its class picture counts the learner.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from courseware.database.learner_lookup import Papers
from courseware.database.written_files import WrittenFile
from courseware.erasure.named_in_file import FileFinding, look_into
from courseware.files.atomic import one_at_a_time, write_whole
from courseware.files.sitting_files import (
    ALL_KEYS,
    ALL_PAPERS,
    GRID,
    LEARNERS,
    MARKED,
    SITTING,
    TUTOR,
    issued_files,
    key_file,
    own_files,
    paper_file,
    sheet_files,
)
from courseware.files.sitting_folders import SittingFolder, read_folder
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import SittingFaulty, write_sitting
from courseware.printing.join_pdfs import gather
from courseware.printing.workers import print_grid

_JOINED = ((paper_file, ALL_PAPERS), (key_file, ALL_KEYS))
_MOST_LOOKED_INTO = 5000  # files beside the sittings
_DEEPEST = 3  # folders below the output folder


@dataclass(frozen=True, slots=True, kw_only=True)
class ErasedFiles:
    """What was done to a sitting's folder. `look` are files that name the learner or cannot be read: a tutor's own."""

    folder: Path
    removed: tuple[str, ...]
    remade: tuple[str, ...]
    look: tuple[str, ...]
    whole: bool = False  # the folder held nobody else, and went
    was_marked: bool = False  # marking has to be done again


def erase_from_folder(folder: Path, papers: Papers, waiting: Callable[[], None]) -> ErasedFiles:
    """Takes a learner's papers out of a folder. Done again after a stop, it goes on where it was.

    The folder's sitting.json is changed last of all, so that the learner can be found again until all is done.
    """
    with one_at_a_time(folder.parent, waiting):
        found = read_folder(folder)
        left = tuple(paper for paper in found.sitting.papers if paper.code not in papers.codes)
        if not left or folder.name.startswith("."):  # what a stopped run left was never issued
            return _dissolve(found)
        return _take_out(found, replace(found.sitting, papers=left), papers)


def erase_beside(parents: Sequence[Path], papers: Papers, noted: Sequence[WrittenFile]) -> ErasedFiles:
    """Takes a learner out of what the program wrote elsewhere: exports, audit copies, plans.

    What is about the learner's papers goes; what is about a class is cleaned, or goes. A file that was changed since,
    and any other that holds the name or a code, is a tutor's own: it is told of.
    """
    removed: list[str] = []
    remade: list[str] = []
    for one in noted:
        if one.path.name == SITTING or not one.is_untouched:
            continue
        verdict = look_into(one.path, papers)
        if set(one.codes) & set(papers.codes):
            verdict = FileFinding(do="remove")
        elif one.codes:
            continue  # another learner's: told of below where it names this one
        if _carry_out(one.path, verdict) in {"remove", "clean"}:
            (removed if verdict.do == "remove" else remade).append(str(one.path))
        if verdict.do == "remove" and not any(one.path.parent.iterdir()) and one.path.parent not in parents:
            one.path.parent.rmdir()  # an export's folder
    look = tuple(str(path) for path in mentions(parents, papers, noted))
    return ErasedFiles(folder=parents[0], removed=tuple(removed), remade=tuple(remade), look=look)


def mentions(parents: Sequence[Path], papers: Papers, noted: Sequence[WrittenFile]) -> tuple[Path, ...]:
    """The files that hold the learner's name or a code and that deleting does not touch, in these folders and below.

    At most so many files are looked into, so deep; what lies elsewhere is for the tutor.
    """
    handled = {one.path for one in noted if one.is_untouched and (not one.codes or set(one.codes) & set(papers.codes))}
    found: set[Path] = set()
    for count, path in enumerate(_files_below(parents)):
        if count == _MOST_LOOKED_INTO:
            break
        if path not in handled and _tells(path, papers) == "named":
            found.add(path)
    return tuple(sorted(found))


def _files_below(parents: Sequence[Path]) -> Iterator[Path]:
    """The files of these folders, but for those that the program wrote into sittings' folders."""
    for parent in dict.fromkeys(path.resolve() for path in parents):
        left = [(parent, 0)]
        while left:
            folder, depth = left.pop()
            own = _own_of(folder)
            for path in sorted(folder.rglob("*") if own is not None else folder.iterdir()):
                if path.is_dir() and own is None and depth < _DEEPEST and not path.is_symlink():
                    left.append((path, depth + 1))
                elif path.is_file() and (own is None or path.relative_to(folder).as_posix() not in own):
                    yield path


def _own_of(folder: Path) -> frozenset[str] | None:
    try:
        return own_files(read_folder(folder).sitting) if (folder / SITTING).is_file() else None
    except SittingFaulty:
        return None


def _tells(path: Path, papers: Papers) -> Literal["", "named", "unreadable"]:
    """Whether a file holds the learner's name or a code, in itself or in its name; or nobody can say."""
    passing = path.name in {".courseware.lock", ".request"} or path.suffix in {".sqlite", ".part"}
    if not passing and _is_named(path, papers):
        return "named"
    match look_into(path, papers).do:
        case "" | "unreadable" as none_named:
            return none_named
    return "named"


def _take_out(found: SittingFolder, left: Sitting, papers: Papers) -> ErasedFiles:
    folder = found.path
    text = write_sitting(left)
    # All in memory before anything is touched.
    remade = [*_joined(folder, left), *_grid(folder, text, len(left.papers))]
    was_marked = (folder / MARKED).is_dir()
    removed = _remove(found, papers)
    removed += [name for name, data in remade if data is None and (folder / name).exists()]
    for name, data in remade:
        if data is None:
            (folder / name).unlink(missing_ok=True)
        else:
            _rewrite(folder / name, data)
    cleaned = _clean_sheets(folder, papers)
    look = _tutors_own(found, papers)
    _rewrite(folder / SITTING, text.encode())
    names = [name for name, data in remade if data is not None]
    return ErasedFiles(
        folder=folder,
        removed=tuple(sorted(removed)),
        remade=(*names, *cleaned, SITTING),
        look=look,
        was_marked=was_marked,
    )


def _joined(folder: Path, left: Sitting) -> Iterator[tuple[str, bytes | None]]:
    """The joined files, made from the single ones; None where a single one is missing, for `again` to make all."""
    for single, name in _JOINED:
        if (folder / name).exists():
            singles = [folder / single(paper.code) for paper in left.papers]
            yield name, gather(singles) if all(path.exists() for path in singles) else None


def _grid(folder: Path, text: str, learners: int) -> Iterator[tuple[str, bytes | None]]:
    """The class grid, made again; None where this version of the program cannot work out the papers any more."""
    if (folder / GRID).exists():
        try:
            yield GRID, print_grid(text, learners)
        except (SittingFaulty, LookupError, TypeError, ValueError, ArithmeticError):  # the banks', the trade core's
            yield GRID, None


def _remove(found: SittingFolder, papers: Papers) -> list[str]:
    """Removes what marking made, the learner's own sheets, and what stopped runs left of either."""
    folder, removed = found.path, []
    own = own_files(found.sitting)
    codes = {name for code in papers.codes for name in issued_files(code)}
    for name in sorted(own):
        if (name in codes or name.startswith(f"{MARKED}/")) and (folder / name).is_file():
            (folder / name).unlink()
            removed.append(name)
    for temporary in folder.rglob(".*.part"):  # `.NAME.PROCESS.part`
        written = temporary.with_name(temporary.name[1:].rsplit(".", 2)[0]).relative_to(folder).as_posix()
        if written in own:
            temporary.unlink()
    _drop_empty(folder / MARKED)
    return removed


def _drop_empty(room: Path) -> None:
    if room.is_dir() and not room.is_symlink() and not any(room.iterdir()):
        room.rmdir()


def _is_named(path: Path, papers: Papers) -> bool:
    """Whether a code stands in a file's name, however it is written."""
    letters = re.sub("[^A-Z]", "", path.name.upper())
    return any(code.replace("-", "") in letters for code in papers.codes)


def _clean_sheets(folder: Path, papers: Papers) -> list[str]:
    """Takes the learner's rows out of the marking sheets. Returns the names of those that had any."""
    there = [name for name in sheet_files() if (folder / name).is_file()]
    return [name for name in there if _carry_out(folder / name, look_into(folder / name, papers)) == "clean"]


def _tutors_own(found: SittingFolder, papers: Papers) -> tuple[str, ...]:
    """The files that the program did not write and that name the learner, or cannot be looked into."""
    folder, own = found.path, own_files(found.sitting)
    names = {path.relative_to(folder).as_posix(): path for path in sorted(folder.rglob("*")) if path.is_file()}
    return tuple(name for name, path in names.items() if name not in own and _tells(path, papers))


def _carry_out(path: Path, verdict: FileFinding) -> str:
    if verdict.do == "clean":
        _rewrite(path, verdict.data)
    if verdict.do == "remove":
        path.unlink()
    return verdict.do


def _rewrite(path: Path, data: bytes) -> None:
    """Writes a file whole, with the rights that it had."""
    write_whole(path, data, path.stat().st_mode & 0o777 if path.exists() else 0o600)


def _dissolve(found: SittingFolder) -> ErasedFiles:
    """Removes all that the program made in a folder, sitting.json last, and the folders that are then empty."""
    folder = found.path
    own = sorted(name for name in own_files(found.sitting) if name != SITTING and (folder / name).is_file())
    for name in own:
        (folder / name).unlink()
    for temporary in folder.rglob(".*.part"):
        temporary.unlink()
    for name in (LEARNERS, TUTOR, MARKED):
        _drop_empty(folder / name)
    for path in (folder / ".request", folder / SITTING):
        path.unlink(missing_ok=True)
    look = tuple(sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()))
    if not any(folder.iterdir()):
        folder.rmdir()
    return ErasedFiles(folder=folder, removed=(*own, SITTING), remade=(), look=look, whole=not folder.exists())
