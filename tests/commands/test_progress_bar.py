"""The progress bar: nothing for quick work or where nobody looks, and how far it is for the rest."""

from __future__ import annotations

import sys

import pytest

from courseware.commands import progress_bar as module
from courseware.commands.progress_bar import progress


class Bar:
    """What a bar was told."""

    def __init__(self) -> None:
        self.told: list[object] = []

    def start(self) -> None:
        self.told.append("start")

    def add_task(self, what: str, total: int) -> int:
        self.told.append((what, total))
        return 7

    def update(self, task: int, completed: int) -> None:
        self.told.append((task, completed))

    def stop(self) -> None:
        self.told.append("stop")


@pytest.fixture
def bar(monkeypatch) -> Bar:
    """A bar on a terminal, where a second passes with each look at the clock."""
    made = Bar()
    monkeypatch.setattr(module, "_bar", lambda: made)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    return made


def clock(monkeypatch, *times: float) -> None:
    left = iter(times)
    monkeypatch.setattr(module.time, "monotonic", lambda: next(left))


@pytest.mark.parametrize(("seconds", "shown"), [(0.9, False), (1.0, False), (1.1, True)])
def test_a_bar_is_shown_once_the_work_has_taken_a_second(bar: Bar, monkeypatch, seconds: float, shown: bool) -> None:
    clock(monkeypatch, 10.0, 10.0 + seconds)
    with progress("Printing", 8) as tell:
        tell(2)
    assert bool(bar.told) is shown


def test_what_was_done_before_it_was_shown_counts(bar: Bar, monkeypatch) -> None:
    clock(monkeypatch, 0.0, 0.5, 2.0)
    with progress("Printing", 8) as tell:
        tell(2)
        tell(3)
        tell(1)
    assert bar.told == ["start", ("Printing", 8), (7, 5), (7, 6), "stop"]


def test_where_no_terminal_listens_nothing_is_shown(bar: Bar, monkeypatch) -> None:
    monkeypatch.setattr(sys.stderr, "isatty", lambda: False, raising=False)
    with progress("Printing", 8) as tell:
        tell(8)
    assert bar.told == []


def test_the_bar_goes_where_the_work_is_stopped(bar: Bar, monkeypatch) -> None:
    clock(monkeypatch, 0.0, 2.0)

    def work() -> None:
        with progress("Printing", 8) as tell:
            tell(1)
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        work()
    assert bar.told[-1] == "stop"


def test_the_bar_as_it_is_shown_writes_to_the_error_stream(capfd) -> None:
    """What a command gives back on its output stays clean."""
    shown = module._bar()
    shown.start()
    shown.update(shown.add_task("Printing", total=8), completed=8)
    shown.stop()
    out, _ = capfd.readouterr()
    assert out == ""
    assert shown.console.stderr
