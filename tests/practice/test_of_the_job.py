"""Practice for a job: its own figures as far as can be, and never all of them, which are on its worksheet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from courseware.banks import Space, read_bank
from courseware.banks.givens import Given
from courseware.practice.of_the_job import FEWEST, of_the_job

SHIPPED = Path(__file__).parents[2] / "question_banks" / "opening_sizes.yaml"
BANK = read_bank(SHIPPED.read_bytes(), SHIPPED.name)


def space(**values: int) -> Space:
    givens = tuple(Given(name=name, values=tuple(range(1, most + 1))) for name, most in values.items())
    size = 1
    for most in values.values():
        size *= most
    return Space(exercise=replace(BANK.exercises[0], givens=givens), indices=range(size))


def test_a_figure_of_the_job_is_kept_and_the_others_vary() -> None:
    found = of_the_job(space(bricks=9, length=20), {"bricks": 4})
    assert [found.variant(index)["bricks"] for index in range(len(found))] == [4] * 20


def test_the_worksheets_own_variant_is_never_among_them() -> None:
    own = {"bricks": 4, "courses": 12}
    found = of_the_job(space(bricks=9, courses=20), own)
    assert len(found) == 8 + 19  # as many as share one figure with it
    assert own not in [found.variant(index) for index in range(len(found))]


def test_a_figure_is_given_up_where_too_few_variants_would_be_left() -> None:
    own = {"bricks": 1, "courses": 1, "below": 1}
    found = of_the_job(space(bricks=2, courses=2, below=2), own)
    assert len(found) == FEWEST  # three share two figures, three more share one


def test_an_exercise_that_a_job_says_nothing_of_is_left_out() -> None:
    assert len(of_the_job(space(bricks=9), {"corner": "mitred"})) == 0
    assert len(of_the_job(space(bricks=9), {"bricks": 4})) == 0, "its only given is the worksheet's"
