"""Work on what a stranger may have written, in a process of its own: told how far it is, ended when it takes long."""

from __future__ import annotations

import multiprocessing
import time
import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any, TypeVar

from courseware.printing.workers import end_with_parent
from courseware.workflows.watch import Tell

Done = TypeVar("Done")
_LOOK = 0.2  # seconds between two looks at the child
_TOLD = 500  # steps of which the parent is told at once


class TookTooLong(ValueError):
    """The work was ended after its time; the message says what to do."""


class ChildDied(RuntimeError):
    """The child ended before its work did, as it does when the memory is used up; or its work has a fault."""


def in_a_child(
    work: Callable[..., Done], arguments: tuple[Any, ...], *, seconds: float, tell: Tell, too_long: str
) -> Done:
    """What `work(*arguments, tell)` returns, done by a child that is killed after so many seconds.

    `tell` hears how many more steps are done, and 0 while nothing is; what it raises ends the child too. `work` is a
    function of a module, and all that travels can be pickled. Raises `TookTooLong` with `too_long`, and `ChildDied`.
    """
    context = multiprocessing.get_context("spawn")
    here, there = context.Pipe(duplex=False)
    child = context.Process(target=_run, args=(there, work, arguments), daemon=True)
    child.start()
    there.close()
    ends = time.monotonic() + seconds
    try:
        while True:
            if time.monotonic() > ends:
                raise TookTooLong(too_long)
            if not here.poll(_LOOK):
                tell(0)
                continue
            kind, what = here.recv()
            if kind == "done":
                return what  # type: ignore[no-any-return]  # what `work` returns
            if kind == "fault":
                raise ChildDied(what)
            tell(what)
    except EOFError:
        raise ChildDied("the process that did this was ended, as it is when the memory is used up") from None
    finally:
        child.kill()
        child.join()
        here.close()


def _run(there: Connection, work: Callable[..., Any], arguments: tuple[Any, ...]) -> None:
    end_with_parent()
    waiting = 0

    def tell(more: int) -> None:
        nonlocal waiting
        waiting += more
        if waiting >= _TOLD or not more:
            there.send(("more", waiting))
            waiting = 0

    try:
        done = work(*arguments, tell)
        there.send(("more", waiting))
        there.send(("done", done))
    except Exception:
        there.send(("fault", traceback.format_exc()))
