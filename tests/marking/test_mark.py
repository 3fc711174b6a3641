"""What holds for marking whatever the variant and whatever is written, over every exercise of the shipped banks."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.banks import Bank, Exercise, raw_size
from courseware.banks.figures import Figure, exact_text, half_up
from courseware.banks.formulas import FormulaImpossible
from courseware.banks.number_part import SolvedNumber
from courseware.banks.solve import solve
from courseware.banks.space import given_at
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.marking.mark import Marked, mark_scripts
from courseware.marking.marks import MarkedPaper, Script
from courseware.papers.codes import code
from courseware.papers.compose import Sources
from courseware.papers.deal import issue_exercise
from courseware.papers.group import Learner
from courseware.papers.invented import invented_site
from courseware.papers.part_kind import LETTERS
from courseware.papers.sitting import IssuedPaper, IssuedPart, Sitting, SourceFile
from courseware.part_kinds.choice.bank import ChoicePart, SolvedChoice
from courseware.settings.settings import DEFAULTS
from courseware.trade import TradeError

OWN = Path(__file__).with_name("bank_for_marking.yaml")
VARIANTS = 3  # sampled of each exercise
SEED = "a seed for properties"
SITE = invented_site(1)
Given = Mapping[str, Figure | str]


@cache
def banks() -> tuple[Bank, ...]:
    return read_banks([*shipped_banks(), OWN])[0]


EXERCISES = [(bank, exercise) for bank in banks() for exercise in bank.exercises]
NAMES = [exercise.name for _, exercise in EXERCISES]


@cache
def sources() -> Sources:
    return Sources(exercises={(bank.topic, e.name): (bank, e) for bank, e in EXERCISES}, safety=None)


def sampled(exercise: Exercise) -> Iterator[Given]:
    """Variants drawn from all that the exercise may have, the same in every run."""
    rng, found = Random(exercise.name), 0
    while found < VARIANTS:
        variant = given_at(exercise, rng.randrange(raw_size(exercise)))
        try:
            if exercise.where is not None and not exercise.where.value(variant):
                continue
        except (TradeError, FormulaImpossible):
            continue
        found += 1
        yield variant


def sitting_of(bank: Bank, exercise: Exercise, *variants: Given) -> Sitting:
    codes = [code(SEED, str(number)) for number in range(len(variants))]
    papers = tuple(
        IssuedPaper(
            code=own,
            learner=Learner(name="", reference=""),
            exercises=(issue_exercise(1, bank, exercise, variant, SITE, SEED, own),),
        )
        for own, variant in zip(codes, variants, strict=True)
    )
    source = SourceFile(file=bank.file, sha256=bank.sha256, text=bank.text)
    return Sitting(
        code=code(SEED, "sitting"), title="Marking", date="2026-01-05", group="Group T", seed=SEED, settings=DEFAULTS,
        version="0", banks=(source,), safety=None, papers=papers,
    )  # fmt: skip


def marked(sitting: Sitting, *scripts: Script) -> Marked:
    return mark_scripts(sitting, scripts, sources=sources())


def numbers(exercise: Exercise, variant: Given, carried: Mapping[str, Figure] | None = None) -> dict[str, SolvedNumber]:
    return {number.part.name: number for part in solve(exercise, variant, carried) for number in part.numbers}


# ---- a script with all right answers, in several ways of writing

ANOTHER_UNIT = {
    "litres": (Fraction(1, 1000), " m³"),  # the figure in the part's unit times the factor, and the unit then written
    "mm": (Fraction(1, 1000), " m"), "m": (100, "cm"), "in": (Fraction(254, 10), " mm"), "m²": (10**6, " mm2"), "mm²": (Fraction(1, 100), " cm²"),
    "m³": (1000, " litres"), "kg": (1000, " g"), "minutes": (Fraction(1, 60), " h"), "hours": (60, " min"), "degrees": (1, "°"), "°": (1, " deg"), "pence": (1, "p"), "dB(A)": (1, " dB"), "%": (1, " per cent"),
}  # fmt: skip


def plain(answer: Fraction, part: IssuedPart, exact: Fraction) -> str:
    return part.answer


def with_its_unit(answer: Fraction, part: IssuedPart, exact: Fraction) -> str:
    return f"{part.answer} {part.unit}"


def with_comma(answer: Fraction, part: IssuedPart, exact: Fraction) -> str:
    slips = {Fraction(value) for value, _ in part.slips}
    return part.answer if answer * 1000 in slips else part.answer.replace(".", ",")  # a comma that may be the slip's


def in_another_unit(answer: Fraction, part: IssuedPart, exact: Fraction) -> str:
    factor, unit = ANOTHER_UNIT.get(part.unit, (1, " no."))
    return f"{exact_text(answer * factor)}{unit if part.unit else ''}"


def as_a_mixed_number(answer: Fraction, part: IssuedPart, exact: Fraction) -> str:
    whole, left = divmod(answer, 1)
    return f"{whole} {left}" if left and whole else str(answer)


def in_threes(answer: Fraction, part: IssuedPart, exact: Fraction) -> str:
    whole, point, left = part.answer.partition(".")
    return part.answer if "/" in whole else f"{int(whole):,}".replace(",", "\u00a0") + point + left


def not_rounded(answer: Fraction, part: IssuedPart, exact: Fraction) -> str:
    if answer == exact:
        return part.answer
    return str(float(half_up(exact, len(part.answer.partition(".")[2]) + 3)))


WAYS = [plain, with_its_unit, with_comma, in_another_unit, as_a_mixed_number, in_threes, not_rounded]


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.__name__)
def test_a_script_with_all_right_answers_gets_full_marks(way: Callable[[Fraction, IssuedPart, Fraction], str]) -> None:
    """On every exercise, for every variant sampled."""
    for bank, exercise in EXERCISES:
        variants = tuple(sampled(exercise))
        sitting = sitting_of(bank, exercise, *variants)
        scripts = []
        for paper, variant in zip(sitting.papers, variants, strict=True):
            solved = numbers(exercise, variant)
            cells = {
                part.label: way(Fraction(part.answer), part, Fraction(solved[part.name].exact))
                if part.name in solved
                else part.answer or "all"
                for part in paper.exercises[0].parts
            }
            scripts.append(Script(code=paper.code, cells=cells))
        found = marked(sitting, *scripts)
        assert not found.questions
        for paper in found.papers:
            lost = [(mark.label, mark.written, mark.how) for mark in paper.marks if mark.marks < mark.of]
            assert not lost, f"{exercise.name}: {lost}"
            assert {mark.how for mark in paper.marks} == {"right"}


# ---- one early slip costs its own marks only


def after_a_slip(exercise: Exercise, variant: Given, name: str, slip: Figure) -> dict[str, str] | None:
    """What a learner writes who makes one slip and goes on from it; None where it makes no sense to go on."""
    try:
        carried = numbers(exercise, variant, {name: slip})
    except (TradeError, FormulaImpossible):
        return None
    right = numbers(exercise, variant)
    for later, number in carried.items():
        if right[later].answer and not number.answer:
            return None  # nothing at all left of it: a person is asked
        figures = zip((number.answer, *number.working), (right[later].answer, *right[later].working), strict=True)
        if any(not isinstance(f, str | bool | None) and f < 0 <= r for f, r in figures):
            return None
    return {later: exact_text(number.answer) for later, number in carried.items()} | {name: exact_text(slip)}


def choices_followed(exercise: Exercise, variant: Given, slip: Mapping[str, Figure]) -> dict[str, int]:
    """The places of the choices that one who goes on from a slip ticks, where one alone is right by it."""
    return {
        part.part.name: part.right.index(True)
        for part in solve(exercise, variant, slip)
        if isinstance(part, SolvedChoice) and not part.part.several and part.right.count(True) == 1
    }


@pytest.mark.parametrize(("bank", "exercise"), EXERCISES, ids=NAMES)
def test_one_early_slip_costs_its_own_marks_only(bank: Bank, exercise: Exercise) -> None:
    """Every named slip of every part, carried on by the bank's own formulas: what comes later is right from it."""
    for variant in list(sampled(exercise))[:3]:
        sitting = sitting_of(bank, exercise, variant)
        paper = sitting.papers[0]
        for name, number in numbers(exercise, variant).items():
            for place, figure in enumerate(number.slips):
                if (
                    number.slips.count(figure) > 1
                    or abs(figure - number.answer) <= number.within
                    or figure in number.accept
                ):
                    continue  # such a variant is left out of the space
                written = after_a_slip(exercise, variant, name, figure)
                if written is None:
                    continue
                ticked = choices_followed(exercise, variant, {name: figure})
                cells = {
                    p.label: LETTERS[p.shown.index(ticked[p.name])]
                    if p.name in ticked
                    else written.get(p.name, p.answer or "all")
                    for p in paper.exercises[0].parts
                }
                found = marked(sitting, Script(code=paper.code, cells=cells)).papers[0]
                charged = number.part.marks - number.part.slips[place].earns
                lost = {m.label: (m.written, m.how) for m in found.marks if m.marks < m.of}
                assert found.total == found.of - charged, f"{name} = {written[name]} costs {charged}; lost: {lost}"


def test_slips_are_carried_on_in_most_exercises_with_later_figures() -> None:
    """So that the property above is not empty: sums of later figures that differ from the right ones."""
    changed = 0
    for _, exercise in EXERCISES:
        variant = next(sampled(exercise))
        right = numbers(exercise, variant)
        for name, number in right.items():
            written = after_a_slip(exercise, variant, name, number.slips[0]) if number.slips else None
            changed += written is not None and any(
                written[later] != exact_text(answer.answer) for later, answer in right.items() if later != name
            )
    assert changed > 40


# ---- whatever is written


@cache
def everything() -> Sitting:
    """One paper with every exercise on it, numbered on."""
    papers = [sitting_of(bank, exercise, next(sampled(exercise))).papers[0] for bank, exercise in EXERCISES]
    exercises = tuple(
        replace(e, parts=tuple(replace(p, label=f"{number}.{p.label}") for p in e.parts))
        for number, paper in enumerate(papers)
        for e in paper.exercises
    )
    bank, exercise = EXERCISES[0]
    sitting = sitting_of(bank, exercise, next(sampled(exercise)))
    return replace(sitting, papers=(replace(papers[0], exercises=exercises),))


PARTS = [part for exercise in everything().papers[0].exercises for part in exercise.parts]
NEARLY = st.text(alphabet="0123456789.,/ -−–+½⅓mkgh²³°%pABCDEFGyn✓✗\u00a0?=eEn", max_size=14)
CELLS = st.one_of(
    st.text(max_size=80), NEARLY, st.sampled_from([p.answer for p in PARTS] + [p.answer + " " + p.unit for p in PARTS])
)


@given(cells=st.lists(CELLS, min_size=1, max_size=60), start=st.integers(0, len(PARTS) - 1))
def test_any_text_in_any_cell_is_marked_within_its_marks_or_asked_about(cells: list[str], start: int) -> None:
    sitting = everything()
    labels = [part.label for part in PARTS]
    written = {labels[(start + place) % len(labels)]: text for place, text in enumerate(cells)}
    found = marked(sitting, Script(code=sitting.papers[0].code, cells=written))
    marks = {mark.label: mark for mark in found.papers[0].marks}
    assert list(marks) == labels
    assert all(0 <= mark.marks <= mark.of and mark.why for mark in marks.values())
    assert all(mark.written == written.get(label, "") for label, mark in marks.items())
    assert {label for label, mark in marks.items() if mark.how == "asked"} == {
        q.label for q in found.questions if q.label
    }
    assert all(marks[label].how == "blank" for label in marks if not written.get(label, "").strip())


@given(text=st.text(max_size=40))
def test_the_same_text_earns_the_same_in_a_part_of_its_own_or_among_others(text: str) -> None:
    """The first part of a paper, before which nothing stands: what follows takes nothing from it."""
    sitting = everything()
    label = PARTS[0].label
    alone = marked(sitting, Script(code=sitting.papers[0].code, cells={label: text})).papers[0].marks[0]
    rest = {part.label: part.answer for part in PARTS[1:]}
    among = marked(sitting, Script(code=sitting.papers[0].code, cells={**rest, label: text})).papers[0].marks[0]
    assert alone == among


@given(order=st.permutations(range(8)), cells=st.lists(st.lists(CELLS, min_size=5, max_size=5), min_size=8, max_size=8))
def test_marks_do_not_depend_on_the_order_of_the_rows(order: list[int], cells: list[list[str]]) -> None:
    bank, exercise = EXERCISES[NAMES.index("chain")]
    sitting = sitting_of(bank, exercise, *[{"bricks": 5 + n % 4, "courses": 14 + n % 7} for n in range(8)])
    labels = [part.label for part in sitting.papers[0].exercises[0].parts]
    scripts = [
        Script(code=paper.code, cells=dict(zip(labels, row, strict=True)))
        for paper, row in zip(sitting.papers, cells, strict=True)
    ]
    in_order, shuffled = marked(sitting, *scripts), marked(sitting, *[scripts[place] for place in order])
    assert in_order.papers == shuffled.papers
    assert set(in_order.questions) == set(shuffled.questions)


def test_ticking_everything_earns_nothing() -> None:
    """In every choice of the banks of which several, or one, are right."""
    sitting = everything()
    ticked = {part.label: LETTERS[: len(part.shown)] for part in PARTS if part.kind == "choice"}
    papers: tuple[MarkedPaper, ...] = marked(sitting, Script(code=sitting.papers[0].code, cells=ticked)).papers
    choices = [mark for mark in papers[0].marks if mark.label in ticked]
    assert len(choices) == sum(isinstance(part, ChoicePart) for _, exercise in EXERCISES for part in exercise.parts)
    assert {mark.marks for mark in choices} == {0}
