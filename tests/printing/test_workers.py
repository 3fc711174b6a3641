"""Work shared out among processes: one that dies costs its own work alone, and that is done again."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

from courseware.printing.workers import WorkersDied, each

pytestmark = pytest.mark.skipif(os.name != "posix", reason="kill -9")


def _dies_once(folder: str, item: int) -> int:
    """Twice the item; the first process that meets item 3 is killed."""
    met = Path(folder) / "met"
    if item == 3 and not met.exists():
        met.touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return item * 2


def _dies_always(_: None, item: int) -> int:
    if item in (3, 5):
        os.kill(os.getpid(), signal.SIGKILL)
    return item * 2


@pytest.mark.parametrize("processes", [1, 2])
def test_each_item_has_its_result(processes: int) -> None:
    assert sorted(each(divmod, 100, [7, 8, 9, 10, 11, 12], processes)) == [(n, divmod(100, n)) for n in range(7, 13)]


def test_what_a_killed_process_had_not_done_is_done_by_another(tmp_path: Path) -> None:
    done = dict(each(_dies_once, str(tmp_path), range(8), 2))
    assert (tmp_path / "met").exists()
    assert done == {item: item * 2 for item in range(8)}


def test_an_item_that_ends_every_process_is_left_and_named_and_all_others_are_done() -> None:
    done: dict[int, int] = {}
    with pytest.raises(WorkersDied) as died:
        done.update(each(_dies_always, None, range(8), 2))
    assert died.value.items == (3, 5)
    assert done == {item: item * 2 for item in range(8) if item not in (3, 5)}  # kept as they came
