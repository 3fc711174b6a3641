"""The words of all shipped banks, read as a tutor reads them.

Rounded up is the answer rounded the other way, a printed sum comes to the figure beside it, the upright joint has one
name, and a class and its retake have variants enough.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
import yaml

from courseware.banks import Bank, Exercise, solve
from courseware.banks.formulas import Value
from courseware.banks.part import Solved, WorkingLine
from courseware.banks.solve import scope_of
from courseware.files.bank_files import shipped_banks
from courseware.papers.shares import OF_A_MONTH, for_practice
from courseware.part_kinds.choice.bank import SolvedChoice
from tests.banks.shipped import EXERCISES, READ, SITE, numbers, variants

FEWEST = 40  # variants: two thirds are for papers, a class of 14 and most of its retake


@pytest.mark.parametrize("name", EXERCISES)
def test_a_class_and_most_of_its_retake_have_variants_of_their_own(name: str, space_of) -> None:
    assert len(space_of(*EXERCISES[name])) >= FEWEST


@pytest.mark.parametrize("name", EXERCISES)
def test_a_month_of_practice_has_variants_enough(name: str, space_of) -> None:
    """How many a month asks of one exercise is counted in tests/practice/test_page_month.py."""
    assert len(for_practice(space_of(*EXERCISES[name]))) >= OF_A_MONTH


@pytest.mark.parametrize("name", EXERCISES)
def test_rounded_up_and_rounded_down_are_the_same_figure_rounded_the_other_way(name: str, space_of) -> None:
    _, exercise = EXERCISES[name]
    rounded = [
        (number.name, place, str(slip.says.pieces[0]))
        for number in exercise.numbers
        for place, slip in enumerate(number.slips)
        if str(slip.says.pieces[0]).startswith(("Rounded up", "Rounded down"))
    ]
    for given in variants(name, space_of) if rounded else ():
        solved = numbers(exercise, given)
        for part, place, says in rounded:
            own = solved[part]
            way, step = ("up(", 1) if says.startswith("Rounded up") else ("down(", -1)
            assert own.part.slips[place].value.text.startswith(way), (part, says)
            assert own.slips[place] - own.answer == step, (part, says, given)


_SUM = re.compile(r"(?:^|: )(\d+(?:\.\d+)?) ([×÷+−]) (\d+(?:\.\d+)?)$", re.ASCII)


def printed_sum(say: str) -> Fraction | None:
    """What the sum at the end of a line of working comes to: `Weight: 0.5 × 1440` is 720; None where none stands."""
    if (found := _SUM.search(say)) is None:
        return None
    a, b = Fraction(found[1]), Fraction(found[3])
    return {"×": a * b, "÷": a / b, "+": a + b, "−": a - b}[found[2]]


def lines_of(solved: tuple[Solved, ...]) -> Iterator[tuple[WorkingLine, Value]]:
    for part in solved:
        worked = (*part.numbers, *([part] if isinstance(part, SolvedChoice) else []))
        for own in worked:
            yield from (
                (line, value)
                for line, value in zip(own.part.working, own.working, strict=True)
                if value is not None and not isinstance(value, bool | str)
            )


@pytest.mark.parametrize("name", EXERCISES)
def test_a_sum_printed_in_the_working_comes_to_the_figure_beside_it(name: str, space_of) -> None:
    _, exercise = EXERCISES[name]
    for given in variants(name, space_of):
        solved = solve(exercise, given)
        scope = scope_of(given, solved)
        for line, value in lines_of(solved):
            says = line.say.render(scope, SITE)
            comes = printed_sum(says)
            if comes is None or line.value is None:
                continue
            step = re.fullmatch(r"nearest\(.*, ([\d.]+)\)", line.value.text)
            near = Fraction(step[1]) / 2 if step else Fraction(0)
            assert abs(comes - Fraction(value)) <= near, (says, value)


def test_a_printed_sum_is_read() -> None:
    assert printed_sum("Weight: 0.5 × 1440") == 720
    assert printed_sum("28 ÷ 8") == Fraction("3.5")
    assert printed_sum("× 60") is None


@pytest.mark.parametrize("topic", READ)
def test_the_upright_joint_is_called_a_perpend_and_explained_where_it_is_first_named(topic: str) -> None:
    for exercise in READ[topic].exercises:
        text = exercise_text(READ[topic], exercise)
        assert not re.search(r"\bperps?\b", text)
        assert all(before in {"perpend", "perpends"} for before in before_upright(text)), exercise.name
        if "perpend" in text:
            assert "(upright joint" in text[: text.index("perpend") + 30]
            assert text.count("upright joint") == 1


def exercise_text(bank: Bank, exercise: Exercise) -> str:
    """The words of an exercise as they stand in its file, formulas left out, in small letters."""
    after = [other.line for other in bank.exercises if other.line > exercise.line]
    lines = bank.text.splitlines()[exercise.line - 1 : min(after, default=None) and min(after) - 1]
    said = " ".join(line.split("#")[0] for line in lines)
    return re.sub(r"\{\{.*?\}\}|(value|answer): [^\"'].*?[,}]", " ", said).casefold()


def before_upright(text: str) -> list[str]:
    """The word before each `(upright joint` or `upright joint`."""
    return [found[1] for found in re.finditer(r"(\S+) \(?upright joint", text)]


@pytest.mark.parametrize("path", shipped_banks(), ids=lambda path: path.stem)
def test_a_bank_reads_the_same_without_the_library_libyaml(path: Path) -> None:
    """Python's own parser refuses what libyaml takes, such as a plain text in braces that ends in a question mark."""
    assert list(yaml.parse(path.read_bytes(), Loader=yaml.SafeLoader))
