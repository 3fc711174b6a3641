"""What was said of scripts, read for a whole sitting at once."""

from __future__ import annotations

from courseware.database.connection import reading
from courseware.database.state_rows import SAID, WORDS, released_in, said_of
from courseware.database.states import confirm, release, take_back


def test_each_word_that_can_be_said_has_its_words() -> None:
    assert set(WORDS) == set(SAID)


def test_a_script_is_released_while_the_newest_word_on_it_says_so(entered, sitting, later) -> None:
    key = (sitting.papers[0].code, 1)

    def stands() -> tuple[bool, int]:
        with reading(entered) as connection:
            return key in released_in(connection, sitting.code), len(said_of(connection, sitting.code).get(key, []))

    assert stands() == (False, 0)
    confirm(entered, sitting.code, by="J. Marsh", at=later(3))
    assert stands() == (False, 1)
    release(entered, sitting.code, by="J. Marsh", at=later(4))
    assert stands() == (True, 2)
    take_back(entered, sitting.code, reason="too early", by="J. Marsh", at=later(5))
    assert stands() == (False, 3)
