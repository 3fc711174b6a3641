"""Long work, one piece after another in each of two lanes: how far it is, what came of it, stopped when asked to."""

from __future__ import annotations

import secrets
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from queue import SimpleQueue
from typing import Any, Literal, TypeAlias

from courseware.workflows.messages import explain, keep_details
from courseware.workflows.watch import Stopped, Tell, Watch

_MOST_KEPT = 100  # pieces of work that can still be looked at
_MOST_NOTES = 200

State: TypeAlias = Literal["waiting", "working", "done", "failed", "stopped"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeFile:
    """A file that came of some work, and what it is for."""

    path: Path
    use: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What came of some work: in a line, in more lines, its files, and pages to go on to (words and address)."""

    says: str
    more: tuple[str, ...] = ()
    files: tuple[MadeFile, ...] = ()
    onward: tuple[tuple[str, str], ...] = ()


@dataclass(slots=True)
class Job:
    """A piece of work as it stands; `what` is being done now, `done` of `total` steps of it."""

    id: str
    title: str
    work: Callable[[Watch], Made]
    state: State = "waiting"
    what: str = ""
    done: int = 0
    total: int = 0
    notes: list[str] = field(default_factory=list)
    made: Made | None = None
    trouble: str = ""  # in a plain line, of one that failed
    told: int = 0  # grows with each change
    stopping: bool = False
    closing: bool = False  # the desk ends: what was begun stays for its next start

    @property
    def over(self) -> bool:
        """Whether nothing more will come of it."""
        return self.state in {"done", "failed", "stopped"}

    def seen(self) -> dict[str, Any]:
        """How far it is, as a page is told while it looks on."""
        return {"state": self.state, "what": self.what, "done": self.done, "total": self.total, "notes": self.notes}


class Jobs:
    """Two queues with a thread at work on each; the worker processes are the workflows' own."""

    def __init__(self) -> None:
        self._jobs: dict[str, Job] = {}
        self._lanes = (_Lane("desk-work"), _Lane("desk-aside"))

    def start(self, title: str, work: Callable[[Watch], Made], *, aside: bool = False, instead: bool = False) -> str:
        """Puts work into a queue. Returns its id, by which `/work/{id}` shows it.

        Work `aside` holds nobody up: it changes neither the record nor a sitting. Work `instead` of earlier work of
        this title has that stopped, and takes its place in the list.
        """
        for old in [one for one in self._jobs.values() if one.title == title] if instead else ():
            self.stop(old.id)
            del self._jobs[old.id]
        job = Job(id=secrets.token_hex(8), title=title, work=work)
        self._jobs[job.id] = job
        for old in [one for one in self._jobs.values() if one.over][: max(0, len(self._jobs) - _MOST_KEPT)]:
            del self._jobs[old.id]
        self._lanes[aside].put(job)
        return job.id

    def find(self, id: str) -> Job | None:
        """The work of that id; none where this run of the desk has none."""
        return self._jobs.get(id)

    def all(self) -> tuple[Job, ...]:
        """All work of this run, the newest first."""
        return tuple(reversed(self._jobs.values()))

    def stop(self, id: str) -> None:
        """Asks work to end; it does so at its next step."""
        if (job := self._jobs.get(id)) is not None and not job.over:
            job.stopping = True
            job.told += 1

    def close(self, patience: float = 10) -> None:
        """Ends all work, which the next start goes on with, and waits so many seconds for it."""
        for job in self.all():
            job.closing = job.closing or not job.stopping
            self.stop(job.id)
        ends = time.monotonic() + patience
        for lane in self._lanes:
            lane.close()
        for lane in self._lanes:
            lane.wait(max(0, ends - time.monotonic()))


class _Lane:
    """A queue and the thread that works on it, begun with the first piece of work."""

    def __init__(self, name: str) -> None:
        self._queue: SimpleQueue[Job | None] = SimpleQueue()
        self._thread = threading.Thread(target=self._run, name=name, daemon=True)

    def put(self, job: Job) -> None:
        self._queue.put(job)
        if self._thread.ident is None:
            self._thread.start()

    def close(self) -> None:
        self._queue.put(None)

    def wait(self, patience: float) -> None:
        if self._thread.ident is not None:
            self._thread.join(patience)

    def _run(self) -> None:
        while (job := self._queue.get()) is not None:
            _do(job)


def _do(job: Job) -> None:
    """Does a piece of work; whatever goes wrong is told in a plain line."""
    try:
        if job.stopping:
            raise Stopped
        job.state = "working"
        job.told += 1
        job.made = job.work(_LookingOn(job))
        job.state = "done"
    except Stopped:
        job.state = "stopped"
    except BaseException as error:  # the page engine has one that is not an Exception
        message, _ = explain(error)
        job.trouble = message or keep_details(error)
        job.state = "failed"
    job.told += 1


class _LookingOn:
    """A `Watch` that keeps how far the work is, and ends it when it is to stop."""

    def __init__(self, job: Job) -> None:
        self._job = job

    def note(self, text: str) -> None:
        self._go_on()
        if len(self._job.notes) < _MOST_NOTES:
            self._job.notes.append(text)

    def waiting(self) -> None:
        self.note("Another run is writing to this folder; waiting for it to end.")

    @contextmanager
    def progress(self, what: str, total: int) -> Iterator[Tell]:
        self._job.what, self._job.done, self._job.total = what, 0, total
        self._go_on()

        def tell(more: int) -> None:
            self._job.done += more
            self._go_on()

        yield tell

    def _go_on(self) -> None:
        self._job.told += 1
        if self._job.stopping:
            raise Stopped(kept=self._job.closing)
