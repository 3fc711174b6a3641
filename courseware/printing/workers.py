"""Many sheets at once: each composed and printed by one of a few processes."""

from __future__ import annotations

import multiprocessing
import os
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, TypeVar

from courseware.papers.compose import Sources, compose_key, compose_paper, read_sources
from courseware.papers.compose_grid import compose_grid
from courseware.papers.record import read_record
from courseware.papers.secret import secrets
from courseware.papers.sitting import Sitting

_WORTH_A_POOL = 6  # sheets: a second process takes half a second to start
_TRIES = 2  # with all processes, before what is left is tried alone
Item = TypeVar("Item")
Done = TypeVar("Done")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet to print: whose (by place in the record) and whether it is the key."""

    place: int
    key: bool

    def __str__(self) -> str:
        return f"{'key' if self.key else 'paper'} {self.place + 1}"


class WorkersDied(RuntimeError):
    """Items that ended their process each time they were tried, even alone; all others were done."""

    def __init__(self, items: Sequence[Any]) -> None:
        super().__init__(f"{len(items)} of the run's pieces of work ended the process that did them")
        self.items = tuple(items)


def each(
    work: Callable[[Any, Any], Done], shared: Any, items: Sequence[Item], processes: int, worth: int = _WORTH_A_POOL
) -> Iterator[tuple[Item, Done]]:
    """Each item with `work(shared, item)`, as it is done, by as many processes as pay; `shared` travels to each once.

    What a process that died (killed, out of memory) had not done is done again by others; an item that ends its
    process even alone is left. Raises `WorkersDied` with those at the end, once all others are done.
    """
    if processes < 2 or len(items) < worth:
        for item in items:
            yield item, work(shared, item)
        return
    left = list(range(len(items)))
    for _ in range(_TRIES):
        lost: list[int] = []
        for index, done in _by_pool(work, shared, [(index, items[index]) for index in left], processes, lost):
            yield items[index], done
        left = lost
    died: list[int] = []
    for index in left:
        for _, done in _by_pool(work, shared, [(index, items[index])], 1, died):
            yield items[index], done
    if died:
        raise WorkersDied([items[index] for index in died])


def _by_pool(
    work: Callable[[Any, Any], Done], shared: Any, items: Sequence[tuple[int, Any]], processes: int, lost: list[int]
) -> Iterator[tuple[int, Done]]:
    """What a new pool makes of these items, in order; `lost` takes the places of those that died with a process."""
    if not items:
        return
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(min(processes, len(items)), context, _begin, (work, shared)) as pool:
        waiting = [(index, _handed_in(pool, item)) for index, item in items]
        for index, future in waiting:
            if future is None:
                lost.append(index)
                continue
            try:
                done = future.result()
            except BrokenProcessPool:
                lost.append(index)
            else:
                yield index, done


def _handed_in(pool: ProcessPoolExecutor, item: Any) -> Future[Any] | None:
    try:
        return pool.submit(_work, item)
    except BrokenProcessPool:
        return None


def print_sheets(record: str, sheets: Sequence[Sheet], processes: int, take: Callable[[Sheet, bytes], None]) -> None:
    """Prints `sheets` of the sitting in `record`; `take` is given each with its PDF. Raises `WorkersDied`."""
    for sheet, pdf in each(_print, record, sheets, processes):
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


def _begin(work: Callable[[Any, Any], Any], shared: Any) -> None:
    end_with_parent()
    _BEGUN[:] = [work, shared]


def _work(item: Any) -> Any:
    work, shared = _BEGUN
    return work(shared, item)


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
