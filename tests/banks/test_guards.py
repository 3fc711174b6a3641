"""What an exercise's figures alone do not show: an answer that never varies, a working that misleads, answers told."""

from __future__ import annotations

from collections import Counter

import pytest

from courseware.banks import prove, solve
from courseware.banks.guards import Guards, no_brick
from courseware.banks.solve import scope_of
from courseware.trade import FORMATS, Format


def test_a_figure_that_is_the_same_on_every_paper(exercise, number) -> None:
    same = number("half_one", "half")
    assert prove(exercise(parts=[same])).failure.why == (
        "the answer to half_one is the same in every variant, so on every paper: let it go by a given, or say "
        "`fixed: true` in half_one where it is a figure to know"
    )
    two_papers = exercise(given={"bricks": ["5", "6"]}, parts=[same])
    assert prove(two_papers).failure.why.startswith("the answer to half_one is the same in every variant")
    assert prove(exercise(parts=[{**same, "fixed": True}])).failure is None
    assert prove(exercise(given={"bricks": ["5"]}, parts=[same])).failure is None  # one variant: there is but one paper
    assert prove(exercise(parts=[number(fixed=True)])).failure.why == (
        "length says `fixed: true`, and its answer is not the same in every variant"
    )


def seen(exercise, bricks: int = 4):
    solved = solve(exercise, {"bricks": bricks})
    return solved, scope_of({"bricks": bricks}, solved)


def test_a_working_whose_rounded_lines_lead_elsewhere_misleads(exercise, number) -> None:
    """4 / 7 = 0.571…: the key shows 0.6, and 0.6 × 70 is 42, where the answer is 40."""
    working = [{"say": "A week", "value": "nearest(bricks / 7, 0.1)"}, {"say": "Seventy", "value": "bricks / 7 * 70"}]
    sound = [{"say": "A week", "value": "bricks * 10"}, {"say": "So", "value": "bricks * 10"}]
    for lines, misleads in ((working, True), (sound, False)):
        made = exercise(parts=[number(answer="bricks * 10", working=lines)])
        assert (Guards(made).misleads(*seen(made)) is not None) is misleads


def test_an_answer_told_elsewhere_is_counted_by_part_and_place(exercise, number) -> None:
    made = exercise(pose="It is {{ bricks * module - joint }} mm.", parts=[number()])
    [(part, place)] = Guards(made).leaks(*seen(made))
    assert (part, place) == ("length", "the question")
    assert Guards(exercise()).leaks(*seen(exercise())) == []


@pytest.mark.parametrize(
    ("fixed", "low", "high", "fault"),
    [(False, 1, 2, False), (False, 2, 2, True), (True, 2, 2, False), (True, 1, 2, True)],
)
def test_what_is_fixed_is_said_to_be(exercise, number, fixed: bool, low: int, high: int, fault: bool) -> None:
    made = exercise(parts=[number(fixed=fixed)])
    told = Guards(made).fault([0, 1, 2], {"length": (low, high)}, Counter())
    assert (told is not None) is fault


def test_of_one_variant_nothing_can_vary(exercise, number) -> None:
    assert Guards(exercise(parts=[number()])).fault([0], {"length": (2, 2)}, Counter()) is None


def test_two_slips_of_the_same_words_explain_neither_figure(exercise, number) -> None:
    def told(*says: str) -> str | None:
        slips = [{"value": f"pier(bricks) + {place}", "says": say} for place, say in enumerate(says, 1)]
        return Guards(exercise(parts=[number(slips=slips)])).fault([0, 1], {"length": (1, 2)}, Counter())

    assert told("A joint was added", "Out by {{ bricks }}", "Out by {{ 2 * bricks }}") is None
    assert told("A joint was added", "Out by one", "A joint was added") == (
        "slip 3 of length has the words of another: say what went wrong in each"
    )


@pytest.mark.parametrize(
    ("sizes", "wrong"),
    [
        ((1000, 400, 65, 10, 10), ""),
        ((1001, 400, 65, 10, 10), "not laid by hand"),
        ((215, 215, 65, 10, 10), ""),
        ((215, "215.5", 65, 10, 10), "wider than it is long"),
        ((215, 102, 65, 10, 65), ""),
        ((215, 102, 65, 66, 10), "joint thicker"),
        ((215, 102, 65, 0, 0), ""),  # laid dry
    ],
)
def test_bricks_that_are_none(sizes, wrong: str) -> None:
    length, width, height, perpend, bed = sizes
    told = no_brick(Format("Kiln", length, width, height, perpend=perpend, bed=bed))
    assert wrong in told if wrong else told is None
    assert [no_brick(known) for known in FORMATS.values()] == [None] * len(FORMATS)
