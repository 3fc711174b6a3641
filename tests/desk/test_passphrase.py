"""A passphrase is tried ten times in ten minutes, not for ever."""

from __future__ import annotations

from courseware.desk.passphrase import MOST_TRIES, WITHIN, Passphrase


class Clock:
    now = 0.0


def test_the_right_one_matches_and_no_other() -> None:
    lock = Passphrase("ten brown bricks é")
    assert lock.matches("ten brown bricks é") is True
    for typed in ("", "ten brown bricks", "TEN BROWN BRICKS é", "\ud800"):
        assert lock.matches(typed) is False


def test_after_ten_wrong_ones_none_is_looked_at_until_time_has_passed() -> None:
    clock = Clock()
    lock = Passphrase("ten brown bricks", now=lambda: clock.now)
    assert [lock.matches("x") for _ in range(MOST_TRIES)] == [False] * MOST_TRIES
    assert lock.matches("ten brown bricks") is None
    clock.now = WITHIN - 0.1
    assert lock.matches("ten brown bricks") is None
    clock.now = WITHIN
    assert lock.matches("ten brown bricks") is True
