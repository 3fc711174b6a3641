"""A start address works once; a session ends when nobody is there."""

from __future__ import annotations

import pytest

from courseware.desk.sessions import Sessions


class Clock:
    now = 1_000_000.0


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def sessions(clock: Clock) -> Sessions:
    return Sessions(who="J. Marsh", idle=600, now=lambda: clock.now)


def test_a_token_lets_one_in_once(sessions: Sessions) -> None:
    token, new = sessions.offer()
    assert new
    assert sessions.offer() == (token, False)
    assert sessions.enter("x" + token) is None
    session = sessions.enter(token)
    assert session is not None
    assert sessions.find(session.cookie) is session
    assert sessions.enter(token) is None
    assert sessions.enter("") is None
    assert sessions.offer()[0] != token


@pytest.mark.parametrize(("left", "open"), [(599, True), (600, False), (601, False), (-1, False)])
def test_one_left_alone_is_locked(sessions: Sessions, clock: Clock, left: int, open: bool) -> None:
    """At 600 seconds, not before; a clock that was set back locks too."""
    session = sessions.begin()
    clock.now += left
    assert (sessions.find(session.cookie) is session) == open


def test_looking_on_does_not_keep_it_open(sessions: Sessions, clock: Clock) -> None:
    session = sessions.begin()
    clock.now += 599
    assert sessions.find(session.cookie, touch=False) is session
    clock.now += 1
    assert sessions.find(session.cookie) is None


def test_being_at_work_does(sessions: Sessions, clock: Clock) -> None:
    session = sessions.begin()
    for _ in range(3):
        clock.now += 599
        assert sessions.find(session.cookie) is session


def test_signing_out_ends_that_session_alone(sessions: Sessions) -> None:
    one, other = sessions.begin(), sessions.begin()
    sessions.end(one)
    assert sessions.find(one.cookie) is None
    assert sessions.find(other.cookie) is other
