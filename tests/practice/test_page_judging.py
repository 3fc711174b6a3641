"""An answer on the page is judged as marking judges it: the same figures, typed in many ways, given to both."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from pathlib import Path

import pytest

from courseware.banks import Exercise, prove, read_bank
from courseware.banks.figures import exact_text, half_up
from courseware.banks.number_part import SolvedNumber
from courseware.banks.solve import solve
from courseware.marking.judge import AskedFigure, judge
from courseware.marking.read_answer import read_figure, settled
from courseware.papers.shares import for_practice
from courseware.practice.kinds import practice_kinds
from courseware.practice.one_file import page_script
from courseware.practice.payload import kind_data

FOLDER = Path(__file__).parents[2] / "question_banks"
KINDS = (  # whole figures, halves, decimals, roundings, bands, inches, thirds, routes, tables
    ("opening_sizes", "half-brick-opening"),
    ("opening_sizes", "us-modular-in-inches"),
    ("opening_sizes", "square-the-frame"),
    ("course_gauge", "german-bricks-on-the-grid"),
    ("resource_lists", "mortar-and-bags"),
    ("resource_lists", "australian-bricks"),
    ("resource_lists", "full-list"),
    ("projection_levelling", "angle-from-the-pavement"),
)
MODULES = ("figures", "units", "written", "sums", "judge")


@lru_cache(maxsize=8)
def bank_named(file: str):
    return read_bank((FOLDER / f"{file}.yaml").read_bytes(), f"{file}.yaml")


@pytest.fixture(scope="module")
def judge_all(browser):
    """Judges pairs of a typed answer and a part by the page's own modules, in the browser."""
    page = browser.new_page()
    page.evaluate(f"() => {{ {page_script(MODULES)}\nglobalThis.judgeTyped = judgeTyped; }}")
    yield lambda cases: page.evaluate(
        "cases => cases.map(([typed, part]) => { const v = judgeTyped(typed, part); return [v.how, v.slips ?? []]; })",
        cases,
    )
    page.close()


def by_marking(typed: str, solved: SolvedNumber, before: Fraction | int | None) -> tuple[str, list[str]]:
    written = read_figure(typed, solved.part.unit)
    if written.reading == "blank":
        return "blank", []
    value = settled(written, Fraction(solved.answer), (*solved.slips, *solved.accept)) if written.figures else None
    if value is None:
        return "asked", []
    asked = AskedFigure(
        own=solved, carried=None, withheld="", says=lambda _: "", key="k", elsewhere=lambda _: False, before=(before,)
    )  # nothing is carried on the page, and it knows no other paper
    verdict = judge(value, written, asked)
    return verdict.how, [slip.key for slip in verdict.slips]


def typings(solved: SolvedNumber, before: Fraction | int | None) -> Iterator[str]:
    """The answer, near it, every slip, every route, wrong sizes and units, decimals more and fewer than asked."""
    exact = Fraction(solved.exact)
    for figure in (
        solved.answer,
        *([before] if before is not None else []),
        *solved.slips,
        *solved.accept,
        Fraction(solved.answer) + Fraction(1, 2),
    ):
        for places in range(5):
            yield exact_text(half_up(Fraction(figure), places))
            yield exact_text(Fraction(int(exact * 10**places), 10**places))
            yield f"{float(half_up(Fraction(figure), places)):.{places}f}".replace(".", ",")
        yield f"{exact_text(half_up(Fraction(figure), 3))} {solved.part.unit}"
        yield f"{Fraction(figure).numerator}/{Fraction(figure).denominator}"
    yield f"{exact.numerator}/{exact.denominator}"
    answer = exact_text(half_up(exact, 3))
    yield from (f"{answer} kg", f"{answer} mm", f"{answer} m", f"{answer} m²", f"{answer} bags", f"{answer}?", "", "-")
    yield from (exact_text(Fraction(solved.answer) * Fraction(10) ** power) for power in range(-7, 8))
    digits = exact_text(solved.answer)
    yield from (digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :] for i in range(len(digits) - 1))


def exercise_named(file: str, name: str) -> Exercise:
    return next(exercise for exercise in bank_named(file).exercises if exercise.name == name)


@pytest.mark.parametrize(("file", "name"), KINDS)
def test_the_page_judges_as_marking_does(judge_all, file: str, name: str) -> None:
    exercise = exercise_named(file, name)
    (kind,) = practice_kinds([(bank_named(file), exercise)], [for_practice(prove(exercise).space)], None, 3)
    cases: list[tuple[str, object]] = []
    expected: list[tuple[str, list[str]]] = []
    for question, variant in zip(kind.questions, kind_data(kind)["variants"], strict=True):
        parts = {row["name"]: row for part in variant["parts"] for row in part.get("rows", [part])}
        for solved in (number for part in question.solved for number in part.numbers):
            before = question.before.get(solved.part.name)
            for typed in dict.fromkeys(typings(solved, before)):
                cases.append((typed, parts[solved.part.name]))
                how, keys = by_marking(typed, solved, before)
                says = [row["says"] for row in parts[solved.part.name].get("slips", [])]
                expected.append((how, [says[int(key.rpartition("/")[2]) - 1] for key in keys]))
    found = [(how, slips) for how, slips in judge_all(cases)]
    wrong = [(c[0], c[1]["name"], e, f) for c, e, f in zip(cases, expected, found, strict=True) if e != f]
    assert not wrong, wrong[:5]
    hows = Counter(how for how, _ in found)
    assert {"right", "slip", "unit", "tens", "unknown", "asked", "blank"} <= set(hows), hows


def test_the_kinds_above_hold_what_they_are_for() -> None:
    numbers = [number for file, name in KINDS for number in exercise_named(file, name).numbers]
    assert any(number.accept for number in numbers)
    assert any(number.within for number in numbers)
    assert {"mm", "m²", "m³", "in", "bags", "kg"} <= {number.unit for number in numbers}
    assert {None, 0, 1, 2, 3} <= {number.places for number in numbers}
    solved = [n for file, name in KINDS for p in solve_first(file, name) for n in p.numbers]
    assert any(Fraction(number.exact).denominator == 3 for number in solved)


def solve_first(file: str, name: str):
    exercise = exercise_named(file, name)
    return solve(exercise, {given.name: given.values[-1] for given in exercise.givens})
