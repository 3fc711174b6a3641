"""Many sheets at once: each composed and printed by one of a few processes."""

from __future__ import annotations

import multiprocessing
import os
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from courseware.papers.compose import Sources, compose_key, compose_paper, read_sources
from courseware.papers.compose_grid import compose_grid
from courseware.papers.record import read_record
from courseware.papers.secret import secrets
from courseware.papers.sitting import Sitting

_WORTH_A_POOL = 6  # sheets: a second process takes half a second to start


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet to print: whose (by place in the record) and whether it is the key."""

    place: int
    key: bool


def each(work: Callable[[Any, Any], bytes], shared: Any, items: Sequence[Any], processes: int) -> Iterator[bytes]:
    """`work(shared, item)` for each item, in order, by as many processes as pay; `shared` travels to each once."""
    if processes < 2 or len(items) < _WORTH_A_POOL:
        for item in items:
            yield work(shared, item)
        return
    with ProcessPoolExecutor(processes, multiprocessing.get_context("spawn"), _begin, (work, shared)) as pool:
        yield from pool.map(_work, items, chunksize=2)


def print_sheets(record: str, sheets: Sequence[Sheet], processes: int, take: Callable[[Sheet, bytes], None]) -> None:
    """Prints `sheets` of the sitting in `record`; `take` is given each with its PDF, in order."""
    for sheet, pdf in zip(sheets, each(_print, record, sheets, processes), strict=True):
        take(sheet, pdf)


def end_with_parent() -> None:
    """Lets a worker end when the run that started it is killed: it looks once a second."""
    parent = os.getppid()

    def watch() -> None:
        while os.getppid() == parent:
            time.sleep(1)
        os._exit(1)

    threading.Thread(target=watch, daemon=True).start()


def print_grid(record: str) -> bytes:
    """The class grid of the sitting in `record`."""
    from courseware.printing.press import grid_pdf

    return grid_pdf(compose_grid(*sitting_in(record)))


_BEGUN: list[Any] = []  # a worker's own, set as it begins: its work, and what all of it shares


def _begin(work: Callable[[Any, Any], bytes], shared: Any) -> None:
    end_with_parent()
    _BEGUN[:] = [work, shared]


def _work(item: Any) -> bytes:
    work, shared = _BEGUN
    return work(shared, item)  # type: ignore[no-any-return]  # as it was given to `each`


def _print(record: str, sheet: Sheet) -> bytes:
    from courseware.printing.press import key_pdf, margin_words, paper_pdf
    from courseware.printing.release import release

    sitting, sources = sitting_in(record)
    key = compose_key(sitting, sheet.place, sources)
    if sheet.key:
        return key_pdf(key)
    paper = compose_paper(sitting, sheet.place, sources)
    return release(paper_pdf(paper), secrets(paper, key, margin_words(paper)))


@lru_cache(maxsize=1)
def sitting_in(record: str) -> tuple[Sitting, Sources]:
    """The sitting in a record's text and its banks, read once a process."""
    sitting = read_record(record)
    return sitting, read_sources(sitting)
