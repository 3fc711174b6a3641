"""Many sheets at once: each composed, printed and written whole by one of a few processes."""

from __future__ import annotations

import multiprocessing
import os
import threading
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import lru_cache

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


def print_sheets(record: str, sheets: Sequence[Sheet], processes: int, take: Callable[[Sheet, bytes], None]) -> None:
    """Prints `sheets` of the sitting in `record`; `take` is given each with its PDF, in order."""
    if processes < 2 or len(sheets) < _WORTH_A_POOL:
        for sheet in sheets:
            take(sheet, _print((record, sheet)))
        return
    with ProcessPoolExecutor(processes, multiprocessing.get_context("spawn"), _begin, (record,)) as pool:
        for sheet, pdf in zip(sheets, pool.map(_print_begun, sheets, chunksize=2), strict=True):
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

    return grid_pdf(compose_grid(*_sitting(record)))


_RECORD: list[str] = []  # a worker's own, set as it begins


def _begin(record: str) -> None:
    end_with_parent()
    _RECORD[:] = [record]


def _print_begun(sheet: Sheet) -> bytes:
    return _print((_RECORD[0], sheet))


def _print(work: tuple[str, Sheet]) -> bytes:
    from courseware.printing.press import key_pdf, margin_words, paper_pdf
    from courseware.printing.release import release

    record, sheet = work
    sitting, sources = _sitting(record)
    key = compose_key(sitting, sheet.place, sources)
    if sheet.key:
        return key_pdf(key)
    paper = compose_paper(sitting, sheet.place, sources)
    return release(paper_pdf(paper), secrets(paper, key, margin_words(paper)))


@lru_cache(maxsize=1)
def _sitting(record: str) -> tuple[Sitting, Sources]:
    sitting = read_record(record)
    return sitting, read_sources(sitting)
