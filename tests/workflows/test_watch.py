"""Who looks on: whatever takes the terminal's place is asked the same things."""

from __future__ import annotations

import inspect

import pytest

from courseware.commands.terminal import TERMINAL
from courseware.workflows.watch import Watch
from tests.workflows.conftest import Heard

ASKED = [name for name in vars(Watch) if not name.startswith("_")]


def test_a_watch_is_told_what_to_know_who_is_waited_for_and_how_far_it_is() -> None:
    assert sorted(ASKED) == ["note", "progress", "waiting"]


@pytest.mark.parametrize("name", ASKED)
@pytest.mark.parametrize("watch", [TERMINAL, Heard()], ids=["terminal", "tests"])
def test_the_terminal_and_the_tests_own_take_what_workflows_tell(watch: object, name: str) -> None:
    asked = list(inspect.signature(getattr(Watch, name)).parameters)[1:]
    assert list(inspect.signature(getattr(watch, name)).parameters) == asked
