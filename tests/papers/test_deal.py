"""Dealing: who gets which variant, in what order choices and steps are printed, and what the seed decides."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from courseware.banks import Bank, prove, read_bank
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.codes import code, read_code
from courseware.papers.deal import CannotDeal, Choosing, Heads, blueprint, choose, deal_sitting, shared_variants
from courseware.papers.group import Group, Learner, numbered
from courseware.papers.sitting import IssuedPart, Sitting
from courseware.papers.sitting_file import write_sitting
from courseware.part_kinds.order.paper import one_order, shuffled_out_of_order

BANK = (Path(__file__).parent / "walls.yaml").read_text(encoding="utf-8")


def bank(topic: str = "walls") -> Bank:
    return read_bank(BANK.replace("TOPIC", topic).encode(), f"{topic}.yaml")


def dealt(learners: int | Group = 4, seed: str = "a seed", **choosing: object) -> Sitting:
    group = numbered(learners) if isinstance(learners, int) else learners
    heads = Heads(title="Walls", date="2026-01-05", group=group, seed=seed, version="0")
    chosen = choose([bank()], Choosing(**choosing), seed)
    return deal_sitting(heads, [bank()], None, chosen, [prove(exercise).space for _, exercise in chosen])


def variants(sitting: Sitting, exercise: int = 0) -> list[str]:
    return [paper.exercises[exercise].given["bricks"] for paper in sitting.papers]


def part(sitting: Sitting, label: str, paper: int = 0) -> IssuedPart:
    [found] = [p for e in sitting.papers[paper].exercises for p in e.parts if p.label == label]
    return found


@pytest.mark.parametrize("exercise", [0, 1])
@pytest.mark.parametrize("learners", [1, 3, 4])
def test_no_two_learners_share_a_variant_while_the_space_lasts(exercise: int, learners: int) -> None:
    found = variants(dealt(learners), exercise)
    assert len(set(found)) == learners
    assert set(found) <= {"5", "6", "7", "8"}


@pytest.mark.parametrize("learners", [5, 8, 11, 30])
def test_after_that_every_variant_comes_equally_often(learners: int) -> None:
    often = Counter(variants(dealt(learners))).values()
    assert max(often) - min(often) <= 1
    assert len(often) == 4


def test_what_must_come_more_than_once_is_told_beforehand() -> None:
    spaces = [prove(exercise).space for exercise in bank().exercises]
    assert shared_variants(spaces, 4) == ()
    assert shared_variants(spaces, 5) == (("walls-pier", 4), ("walls-opening", 4))


def test_the_same_seed_deals_the_same_and_another_seed_another() -> None:
    assert write_sitting(dealt(8)) == write_sitting(dealt(8))
    others = [dealt(8, seed=f"seed {n}") for n in range(20)]
    assert len({tuple(variants(sitting)) for sitting in others}) > 15
    assert len({sitting.papers[0].code for sitting in others} | {sitting.code for sitting in others}) == 40


def test_names_decide_nothing_on_a_paper() -> None:
    named = Group(
        name="A", learners=tuple(Learner(name=name, reference=name) for name in ("Zoë", "Amara", "Łukasz", "Bo"))
    )
    anonymous = [replace(paper, learner=Learner(name="")) for paper in dealt(named).papers]
    assert anonymous == list(dealt(4).papers)
    assert [paper.learner for paper in dealt(named).papers] == list(named.learners)


def test_a_learner_added_at_the_end_changes_no_other_paper() -> None:
    assert dealt(5).papers[:4] == dealt(4).papers


def test_a_bank_that_was_changed_gives_other_papers() -> None:
    other = replace(bank(), sha256="0" * 64)
    heads = Heads(title="Walls", date="2026-01-05", group=numbered(8), seed="a seed", version="0")
    chosen = [(other, exercise) for exercise in other.exercises]
    sitting = deal_sitting(heads, [other], None, chosen, [prove(exercise).space for exercise in other.exercises])
    assert not {paper.code for paper in sitting.papers} & {paper.code for paper in dealt(8).papers}


def test_codes_read_back_and_none_comes_twice() -> None:
    sitting = dealt(300)
    codes = [sitting.code, *(paper.code for paper in sitting.papers)]
    assert len(set(codes)) == 301
    assert all(read_code(own) == own for own in codes)


def test_a_papers_code_goes_by_the_seed_the_bank_and_the_learners_place() -> None:
    sitting = dealt(3)
    assert [paper.code for paper in sitting.papers] == [
        code("a seed", "paper", bank().sha256, place) for place in ("0", "1", "2")
    ]
    assert sitting.code == code("a seed", "sitting", bank().sha256, "Walls", "2026-01-05")


def test_parts_are_issued_with_their_labels_exact_answers_and_marks() -> None:
    sitting = dealt(1)
    bricks = Fraction(variants(sitting, 1)[0])
    parts = sitting.papers[0].exercises[1].parts
    assert [(p.label, p.kind, p.marks) for p in parts] == [
        ("2a", "number", 1), ("2b", "choice", 1), ("2c", "order", 1), ("2d(i)", "table", 2), ("2d(ii)", "table", 1),
    ]  # fmt: skip
    assert parts[0].answer == str(bricks * 225 - 10)  # Sheet 9, Table 1: a pier
    assert (parts[0].unit, parts[0].within) == ("mm", "0.5")
    assert parts[0].slips == ((str(bricks * 225), f"{bricks} joints"),)
    assert Fraction(parts[4].answer) == bricks * 60 / 27


def test_the_letter_of_a_choice_is_that_of_its_printed_place() -> None:
    sitting = dealt(30)
    issued = [part(sitting, "2b", paper) for paper in range(30)]
    assert all(sorted(p.shown) == [0, 1, 2, 3] for p in issued)
    assert all(p.shown["ABCD".index(p.answer)] == 0 for p in issued)  # the bank's first choice is the right one
    assert {p.answer for p in issued} == set("ABCD")


def test_the_answer_to_an_order_keeps_every_pair_and_is_never_as_printed() -> None:
    sitting = dealt(30)
    for paper in range(30):
        issued = part(sitting, "2c", paper)
        sequence = issued.answer.split(",")
        assert sorted(sequence) == list("ABCD")
        assert len(issued.before) == 3
        assert all(sequence.index(a) < sequence.index(b) for a, b in issued.before)
        assert any(a > b for a, b in issued.before)  # the letters stand in the order printed


def test_steps_are_told_in_the_banks_own_order_where_it_is_right() -> None:
    [order] = [p for p in bank().exercises[0].parts if p.name == "sequence"]
    assert one_order(order) == ["mark", "lay", "line", "fill"]
    assert one_order(replace(order, before=(("fill", "mark"),))) == ["lay", "line", "fill", "mark"]
    assert shuffled_out_of_order(order, "s") != [0, 1, 2, 3]


def test_every_paper_of_a_sitting_names_the_same_place_and_draws_its_own_setting() -> None:
    exercises = [paper.exercises[1] for paper in dealt(30).papers]
    assert len({tuple(exercise.site.items()) for exercise in exercises}) == 1
    site = exercises[0].site
    settings = {f"A wall in {site['place']}.", f"A wall at {site['street']}.", f"A wall for {site['client']}."}
    assert {exercise.setting for exercise in exercises} == settings


TOPICS = ("walls", "arches", "sills")


def chosen(**choosing: object) -> list[str]:
    return [exercise.name for _, exercise in choose([bank(topic) for topic in TOPICS], Choosing(**choosing), "s")]


@pytest.mark.parametrize(
    ("choosing", "names"),
    [
        (
            {},
            [f"{topic}-{name}" for name in ("opening", "pier") for topic in TOPICS],
        ),  # rising in level, of one level topic by topic
        ({"level": 1}, [f"{topic}-opening" for topic in TOPICS]),
        ({"level": 2}, [f"{topic}-pier" for topic in TOPICS]),
        ({"picked": ("sills-pier", "walls-opening")}, ["sills-pier", "walls-opening"]),  # as asked for
    ],
)
def test_which_exercises_a_sitting_takes(choosing: dict[str, object], names: list[str]) -> None:
    assert chosen(**choosing) == names


@pytest.mark.parametrize(("topics", "taken"), [(1, 2), (3, 6), (5, 6), (6, 6), (7, 7), (8, 8)])
def test_a_sitting_takes_six_exercises_unless_told_otherwise_and_at_least_one_a_topic(topics: int, taken: int) -> None:
    """Each topic has two exercises."""
    banks = [bank(topic) for topic in "abcdefgh"[:topics]]
    found = choose(banks, Choosing(), "s")
    assert len(found) == taken
    assert len({of.topic for of, _ in found}) == topics


def test_two_exercises_of_one_level_stand_as_in_their_bank() -> None:
    """Whatever the seed draws first."""
    one = bank()
    level = replace(one, exercises=tuple(replace(exercise, level=1) for exercise in one.exercises))
    for seed in ("a", "b", "c", "d", "e"):
        assert [e.name for _, e in choose([level], Choosing(), seed)] == ["walls-pier", "walls-opening"]


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6])
def test_so_many_exercises_are_spread_over_the_topics(count: int) -> None:
    often = Counter(name.partition("-")[0] for name in chosen(exercises=count))
    assert sum(often.values()) == count
    assert max(often.values()) - min((often[topic] for topic in TOPICS), default=0) <= 1


@pytest.mark.parametrize(
    ("choosing", "why"),
    [
        ({"level": 3}, "no exercise of level 3 stands in these banks; leave --level out or choose another"),
        ({"exercises": 7}, "7 exercises were asked for; these banks hold 6"),
        ({"picked": ("walls",)}, "no exercise is named walls; these banks hold arches-opening, arches-pier, "
                                 "sills-opening, sills-pier, walls-opening, walls-pier"),
    ],
)  # fmt: skip
def test_what_the_banks_do_not_hold_is_told(choosing: dict[str, object], why: str) -> None:
    with pytest.raises(CannotDeal) as cannot:
        chosen(**choosing)
    assert str(cannot.value) == why


def test_a_blueprint_is_the_same_whenever_it_is_asked_and_goes_round_the_topics() -> None:
    banks, _ = read_banks(shipped_banks())
    chosen = blueprint(banks, 1, 12)
    assert chosen == blueprint(banks, 1, 12)
    assert {exercise.level for _, exercise in chosen} == {1}
    assert [bank.topic for bank, _ in chosen][:3] == [
        bank.topic for bank in banks if any(exercise.level == 1 for exercise in bank.exercises)
    ][:3]
    assert len(blueprint(banks, 1, 500)) == sum(exercise.level == 1 for bank in banks for exercise in bank.exercises)
    assert blueprint(banks[:1], 7, 4) == ()
