"""A learner deleted for good: what would go, said before it does, and what went."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.erasure.learner import delete_everywhere, find_to_erase
from courseware.files.record_location import opened, record_file
from courseware.words import count
from courseware.workflows.class_lists import LISTS

if TYPE_CHECKING:
    from sqlalchemy import URL, Engine

    from courseware.erasure.from_folder import ErasedFiles
    from courseware.erasure.learner import Erased, ToErase
    from courseware.workflows.watch import Watch


@contextmanager
def found_to_erase(
    url: URL, out: Path, who: str, folders: Sequence[Path], *, elsewhere: bool = False
) -> Iterator[tuple[Engine | None, ToErase]]:
    """What there is of a learner in the record, where it is, in the output folder and in the folders named.

    What the record knows outside of all these is deleted from where `elsewhere` says so, and only listed otherwise.
    Class lists that are kept beside the output folder are looked into too; they are the tutor's own, and told of.

    Raises `NotFound` where `who` is nobody, or may be several.
    """
    file = record_file(url)
    lists = out.resolve().parent / LISTS
    parents = [out, *([file.parent] if file else []), *([lists] if lists.is_dir() else [])]
    if file is not None and not file.exists():
        yield None, find_to_erase(None, who, folders, parents, elsewhere=elsewhere)
        return
    with opened(url, make=False) as engine:
        yield engine, find_to_erase(engine, who, folders, parents, elsewhere=elsewhere)


def erase(engine: Engine | None, found: ToErase, watch: Watch) -> Erased:
    """Deletes what was found, for good."""
    return delete_everywhere(engine, found, watch.waiting)


def what_goes(found: ToErase) -> tuple[str, ...]:
    """What would be deleted, and what would be left, line by line; lines that belong to one before are set in."""
    return tuple(_goes(found))


def what_went(gone: Erased) -> tuple[str, ...]:
    """What was deleted, and what is still for the tutor to do, line by line."""
    return tuple(_went(gone))


def _goes(found: ToErase) -> Iterator[str]:
    yield f"To be deleted: {count(len(found.papers.codes), 'paper')}, {', '.join(found.papers.codes)}"
    yield f"  in the record: {', '.join(found.in_record) or 'nothing'}"
    for folder in found.folders:
        yield f"  in the folder {folder.path}"
    if found.elsewhere:
        left = "too" if found.with_elsewhere else "left as they are unless you ask for them too"
        yield f"  Outside the folder of work, as the record knows them ({left}):"
        for path in found.elsewhere:
            yield f"    {path}"
    if found.papers.others:
        yield f"  NOT, since they may be a namesake's: {', '.join(found.papers.others)}; name each by its code"
    if found.untouched:
        yield "  These hold the name or a code, and are left as they are: they are yours, or were changed since:"
        for path in found.untouched:
            yield f"    {path}"
    for code in found.not_found:
        yield f"  The folder of the sitting {code} was not found; if it is still there, name it with --sitting."
    for path in found.faulty:
        yield f"  The sitting in {path} cannot be read, so nobody can say who is in it."


def _went(gone: Erased) -> Iterator[str]:
    if gone.record:
        yield f"Deleted in the record: {count(len(gone.record.papers), 'paper')}."
        if gone.record.sittings:
            yield f"  No papers were left in {', '.join(gone.record.sittings)}, so it went too."
        if gone.record.redacted:
            texts = count(gone.record.redacted, "text")
            yield f"  The name was in {texts} typed on other papers, and is taken out there."
        for place in gone.record.still:
            yield f"  The name still stands in {place}."
    for folder in (*(one for one in gone.beside if one.removed or one.remade or one.look), *gone.folders):
        yield from _went_from(folder)
    yield "Class lists, print-outs, back-ups and copies that lie elsewhere are for you to delete."


def _went_from(folder: ErasedFiles) -> Iterator[str]:
    if not (folder.removed or folder.remade or folder.look):
        return
    yield f"In {folder.folder}" + (", which held nobody else and is gone." if folder.whole else ":")
    if folder.removed and not folder.whole:
        yield f"  removed: {', '.join(folder.removed)}"
    if folder.remade:
        yield f"  without the learner: {', '.join(folder.remade)}"
    if folder.was_marked:
        yield "  What marking made is removed: mark the sitting again."
    for name in folder.look:
        yield f"  Look through {name} yourself: it names the learner, or cannot be looked into."
