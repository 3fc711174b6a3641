"""Work in a child: what it returns, how far it is, and that nothing holds the parent longer than was allowed."""

from __future__ import annotations

import os
from collections.abc import Callable

import pytest

from courseware.workflows.in_a_child import ChildDied, TookTooLong, in_a_child


def count_to(most: int, tell: Callable[[int], None]) -> int:
    for _ in range(most):
        tell(1)
    return most


def for_ever(tell: Callable[[int], None]) -> None:
    while True:
        pass


def divide(by: int, tell: Callable[[int], None]) -> float:
    return 1 / by


def vanish(tell: Callable[[int], None]) -> None:
    os._exit(9)


def test_what_is_returned_comes_back_with_every_step_told() -> None:
    told: list[int] = []
    assert in_a_child(count_to, (1201,), seconds=60, tell=told.append, too_long="") == 1201
    assert sum(told) == 1201


def test_work_that_does_not_end_is_ended() -> None:
    with pytest.raises(TookTooLong, match="narrow the ranges"):
        in_a_child(for_ever, (), seconds=1, tell=lambda _: None, too_long="narrow the ranges")


class _Stop(Exception):
    pass


def test_whoever_is_told_can_end_it() -> None:
    def tell(more: int) -> None:
        raise _Stop

    with pytest.raises(_Stop):
        in_a_child(for_ever, (), seconds=60, tell=tell, too_long="")


@pytest.mark.parametrize(
    ("work", "arguments", "says"), [(divide, (0,), "ZeroDivisionError"), (vanish, (), "was ended")]
)
def test_a_child_that_fails_or_vanishes_is_told(work: Callable[..., object], arguments: tuple, says: str) -> None:
    with pytest.raises(ChildDied, match=says):
        in_a_child(work, arguments, seconds=60, tell=lambda _: None, too_long="")
