"""Which attempt at a paper a script is: the one place where attempts are numbered."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Protocol, TypeVar

from courseware.marking.marks import Status


class _HandedIn(Protocol):
    @property
    def code(self) -> str: ...
    @property
    def status(self) -> Status: ...


_Paper = TypeVar("_Paper", bound=_HandedIn)


def numbered_attempts(papers: Iterable[_Paper]) -> Iterator[tuple[int, _Paper]]:
    """Each script or marked paper with its attempt: 1, and 2, 3, … for what was resubmitted.

    Those of one paper come in the order in which they were handed in. One resubmitted is never the first, even where
    the first is not among them.
    """
    again: Counter[str] = Counter()
    for paper in papers:
        again[paper.code] += paper.status == "resubmitted"
        yield again[paper.code] + 1 if paper.status == "resubmitted" else 1, paper
