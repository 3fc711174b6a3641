"""Many sheets at once: each composed and printed by one of a few processes.

What composes and prints is loaded where it is used, since a process that proves banks does without.
"""

from __future__ import annotations

import multiprocessing
import os
import pickle
import threading
import time
import zlib
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from functools import lru_cache
from io import BytesIO
from itertools import pairwise
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from courseware.papers.compose import Sources
    from courseware.papers.sitting import Sitting

_WORTH_A_POOL = 6  # sheets: a second process takes half a second to start
GRID_LEARNERS = 60  # on one document of a class grid: memory grows with the document that is laid out
_TRIES = 2  # with all processes, before what is left is tried alone
Item = TypeVar("Item")
Done = TypeVar("Done")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet to print: whose (by place in the sitting) and whether it is the key."""

    place: int
    key: bool

    def __str__(self) -> str:
        return f"{'key' if self.key else 'paper'} {self.place + 1}"


@dataclass(frozen=True, slots=True, kw_only=True)
class GridSlice:
    """The learners of one document of the class grid, by their places in the sitting; `end` is not among them."""

    start: int
    end: int

    def __str__(self) -> str:
        return f"class grid, learners {self.start + 1} to {self.end}"


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
    packed = zlib.compress(pickle.dumps((work, shared)), 1)  # a class's sitting travels as a twentieth of itself
    with ProcessPoolExecutor(min(processes, len(items)), context, _begin, (packed,)) as pool:
        waiting = deque((index, _handed_in(pool, item)) for index, item in items)
        try:
            while waiting:
                index, future = waiting.popleft()  # kept no longer than until it is taken: a class is large in memory
                if future is None:
                    lost.append(index)
                    continue
                try:
                    done = future.result()
                except BrokenProcessPool:
                    lost.append(index)
                else:
                    yield index, done
        finally:
            pool.shutdown(wait=False, cancel_futures=True)  # where nobody wants the rest, it is not made


def _handed_in(pool: ProcessPoolExecutor, item: Any) -> Future[Any] | None:
    try:
        return pool.submit(_work, item)
    except BrokenProcessPool:
        return None


def print_sheets(text: str, sheets: Sequence[Sheet], processes: int, take: Callable[[Sheet, bytes], None]) -> None:
    """Prints `sheets` of the sitting in `text`; `take` is given each with its PDF. Raises `WorkersDied`."""
    for sheet, pdf in each(_print, text, sheets, processes):
        take(sheet, pdf)


def write_words(text: str, sheets: Sequence[Sheet], processes: int, take: Callable[[Sheet, bytes], None]) -> None:
    """Editable copies of `sheets`, as `print_sheets` prints them. Raises `WorkersDied`."""
    for sheet, copy in each(_write_word, text, sheets, processes):
        take(sheet, copy)


def end_with_parent() -> None:
    """Lets a worker end when the run that started it is killed: it looks once a second."""
    parent = os.getppid()

    def watch() -> None:
        while os.getppid() == parent:
            time.sleep(1)
        os._exit(1)

    threading.Thread(target=watch, daemon=True).start()


def print_grid(text: str, learners: int, processes: int = 1) -> bytes:
    """The class grid of the sitting of so many learners in `text`: one tagged PDF, or slices of a large class joined.

    A slice has so many learners, its own page numbers, and which of the class they are in its heading; joined, they
    keep their tags as all joined files do. Raises `WorkersDied`.
    """
    from courseware.printing.join_pdfs import gather_into

    slices = _grid_slices(learners)
    printed = dict(each(_print_grid, text, slices, processes, worth=2))
    if len(slices) == 1:
        return printed[slices[0]]
    joined = BytesIO()
    gather_into(joined, [BytesIO(printed[part]) for part in slices], right_hand=False)
    return joined.getvalue()


def _grid_slices(size: int) -> list[GridSlice]:
    """So many learners in as few slices as do, each as long as the others or one shorter."""
    count = -(-size // GRID_LEARNERS)
    ends = [size * place // count for place in range(count + 1)]
    return [GridSlice(start=start, end=end) for start, end in pairwise(ends)]


def _print_grid(text: str, part: GridSlice) -> bytes:
    from courseware.papers.compose_grid import compose_grid
    from courseware.printing.render import grid_pdf

    sitting, sources = sitting_in(text)
    return grid_pdf(compose_grid(sitting, sources, range(part.start, part.end)))


_BEGUN: list[Any] = []  # a worker's own, set as it begins: its work, and what all of it shares


def _begin(packed: bytes) -> None:
    end_with_parent()
    _BEGUN[:] = pickle.loads(zlib.decompress(packed))


def _work(item: Any) -> Any:
    work, shared = _BEGUN
    return work(shared, item)


def _print(text: str, sheet: Sheet) -> bytes:
    from courseware.papers.compose import compose_key, compose_paper
    from courseware.papers.key_secrets import secrets
    from courseware.printing.leak_check import release
    from courseware.printing.render import key_pdf, margin_words, paper_pdf

    sitting, sources = sitting_in(text)
    key = compose_key(sitting, sheet.place, sources)
    if sheet.key:
        return key_pdf(key)
    paper = compose_paper(sitting, sheet.place, sources)
    return release(paper_pdf(paper), secrets(paper, key, margin_words(paper)))


def _write_word(text: str, sheet: Sheet) -> bytes:
    from courseware.papers.compose import compose_key, compose_paper
    from courseware.papers.key_secrets import secrets
    from courseware.printing.word_copy import key_word, paper_word, release_word

    sitting, sources = sitting_in(text)
    key = compose_key(sitting, sheet.place, sources)
    if sheet.key:
        return key_word(key)
    paper = compose_paper(sitting, sheet.place, sources)
    return release_word(paper_word(paper), secrets(paper, key))


@lru_cache(maxsize=1)
def sitting_in(text: str) -> tuple[Sitting, Sources]:
    """The sitting in its file's text and its banks, read once a process."""
    from courseware.papers.compose import read_sources
    from courseware.papers.sitting_file import read_sitting

    sitting = read_sitting(text)
    return sitting, read_sources(sitting)
