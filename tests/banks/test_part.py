"""What every part has, whatever its kind: nothing to work out, to offer or to go by unless its kind says otherwise."""

from __future__ import annotations

import pytest

from courseware.banks.part import Part, Solved, solve_working
from courseware.banks.wording import Wording


@pytest.fixture
def plain() -> Part:
    return Part(name="plain", ask=Wording(("How?",)), marks=1)


def test_a_part_with_nothing_to_work_out_has_no_figures_and_nothing_to_offer(plain) -> None:
    assert (plain.entries, plain.numbers, plain.goes_by, plain.offers) == ((plain,), (), (), ("", ()))
    assert plain.names == (("plain", None, ("name",)),)  # a name that no later part can use
    assert plain.asks == plain.wordings == (plain.ask,)
    solved = plain.solve({}, {})
    assert solved == Solved(plain)
    assert (solved.numbers, solved.value, solved.signature, solved.only_right, solved.wrong(print)) == (
        (),
        None,
        (),
        None,
        None,
    )


def test_a_working_comes_to_a_value_a_line_and_to_nothing_where_a_line_is_words(exercise, number) -> None:
    lines = [
        {"say": "See the sketch"},
        {"say": "Is it long?", "value": "bricks > 3"},
        {"say": "So", "value": "pier(bricks)"},
    ]
    [part] = exercise(parts=[number(working=lines)]).parts
    assert solve_working(part.working, {"bricks": 4}) == (None, True, 890)
