"""The practice booklet, before it is printed: what stands in it, and in which order."""

from __future__ import annotations

from dataclasses import fields
from functools import cache
from itertools import pairwise
from typing import get_type_hints

import pytest

from courseware.banks import Space, prove
from courseware.files.bank_files import find_banks, read_banks, shipped_banks
from courseware.papers.deal import CannotDeal
from courseware.papers.shares import for_practice
from courseware.papers.sheets import AskedExercise, KeyExercise
from courseware.practice.booklet import Booklet, ExamplePair, Round, compose_booklet

SEED = "a seed for booklets"


@cache
def shelf(*topics: str) -> tuple:
    """Every exercise of these topics, the easiest of all, with its share for practice; and the safety notes."""
    banks, notes = read_banks(find_banks(topics) if topics else shipped_banks())
    every = [(bank, exercise) for bank in banks for exercise in bank.exercises]
    candidates = [(bank, exercise) for bank, exercise in every if topics or exercise.level == 1]
    return candidates, [for_practice(prove(exercise).space) for _, exercise in candidates], notes


def made(*topics: str, seed: str = SEED, level: int | None = None) -> Booklet:
    candidates, spaces, notes = shelf(*topics)
    taken = [place for place, (_, exercise) in enumerate(candidates) if level in (None, exercise.level)]
    return compose_booklet([candidates[place] for place in taken], [spaces[place] for place in taken], notes, seed)


@pytest.fixture(scope="module")
def booklet() -> Booklet:
    """One booklet of every shipped topic."""
    return made()


def test_every_question_has_its_answer_at_the_back_in_the_same_order(booklet) -> None:
    assert [answer.asked for answer in booklet.answers] == list(booklet.questions)
    assert [question.number for question in booklet.questions] == list(range(1, len(booklet.questions) + 1))


def test_an_exercise_is_asked_three_times_as_secure_needs(booklet) -> None:
    topic = {question.number: question.topic for question in booklet.questions}
    assert len(booklet.rows) == len(shipped_banks())
    for row in booklet.rows:
        assert [topic[number] for number in row.questions] == [row.topic] * 3
    assert sorted(number for row in booklet.rows for number in row.questions) == sorted(topic)


def test_each_time_the_figures_are_others(booklet) -> None:
    """The worked one as well, so that an answer cannot be copied from it."""
    for row, block in zip(booklet.rows, booklet.blocks, strict=True):
        posed = [q.pose + str(q.parts) for q in booklet.questions if q.number in row.questions]
        posed.append(block.example.asked.pose + str(block.example.asked.parts))
        assert len(set(posed)) == 4, row


def test_an_example_comes_before_its_question_and_is_of_the_same_exercise(booklet) -> None:
    for block in booklet.blocks:
        asked = block.example.asked
        assert (asked.topic, len(asked.parts)) == (block.question.topic, len(block.question.parts))
        assert [part.label for part in asked.parts] == list("abcdefgh"[: len(asked.parts)])
        assert all(answer.label[0] in "abcdefgh" for part in block.example.answers for answer in part)


@pytest.mark.parametrize("seed", [f"seed {number}" for number in range(20)])
def test_never_the_same_exercise_twice_running(seed) -> None:
    one_topic = made("opening_sizes", seed=seed)
    exercise = {number: place for place, row in enumerate(one_topic.rows) for number in row.questions}
    in_turn = [exercise[question.number] for question in one_topic.questions]
    assert len(in_turn) == 9
    assert all(one != next_one for one, next_one in pairwise(in_turn))


def test_topics_take_turns(booklet) -> None:
    assert all(one.topic != next_one.topic for one, next_one in pairwise(booklet.questions))
    first, second = ([question.topic for question in each.questions] for each in booklet.rounds)
    assert first != second


def test_only_examples_and_the_back_can_hold_an_answer() -> None:
    """By type: a question to be done is what a paper asks, which has no field for an answer."""
    assert get_type_hints(Round)["questions"] == tuple[AskedExercise, ...]
    assert get_type_hints(ExamplePair) == {"example": KeyExercise, "question": AskedExercise}
    holding = {field.name for field in fields(Booklet) if "KeyExercise" in str(get_type_hints(Booklet)[field.name])}
    assert holding == {"answers"}


def test_cautions_stand_where_the_learner_begins_and_once_each(booklet) -> None:
    """Each round is for another day, so it says them again."""
    sections = [
        [asked for block in booklet.blocks for asked in (block.example.asked, block.question)],
        *(list(each.questions) for each in booklet.rounds),
    ]
    told = [[note.title for asked in section for note in asked.safety] for section in sections]
    assert all(len(titles) == len(set(titles)) for titles in told)
    assert {"Cutting", "Silica dust", "Lifting"} <= set(told[0])
    assert set(told[0]) == set(told[1]) == set(told[2])
    assert booklet.cautions


def test_the_same_seed_gives_the_same_booklet_and_another_seed_another() -> None:
    first = made("opening_sizes")
    assert made("opening_sizes") == first
    assert made("opening_sizes", seed="another").questions != first.questions


def test_one_topic_alone_has_more_than_one_exercise_to_change_between() -> None:
    assert len(made("opening_sizes").rows) == 3
    assert {row.topic for row in made("opening_sizes").rows} == {"Opening sizes"}


def test_a_level_is_kept_to() -> None:
    assert {question.level for question in made("course_gauge", level=2).questions} == {2}


def test_without_a_level_the_easiest_comes(booklet) -> None:
    assert {question.level for question in booklet.questions} == {1}


def test_what_nobody_can_mark_comes_last() -> None:
    """Of the easiest exercises on the gauge one has a rod to draw, which a learner alone cannot have marked."""
    drawn = "marks on a new rod"
    for seed in ("a", "b", "c", "d", "e", "f"):
        assert drawn not in {row.exercise for row in made("course_gauge", seed=seed).rows}
    candidates, spaces, notes = shelf("course_gauge")
    only = [place for place, (_, exercise) in enumerate(candidates) if exercise.name == drawn.replace(" ", "-")]
    booklet = compose_booklet([candidates[i] for i in only], [spaces[i] for i in only], notes, SEED)
    assert [row.exercise for row in booklet.rows] == [drawn]
    points = [note for answer in booklet.answers[0].answers[-1] for note in answer.notes]
    assert points[0] == "The foot of the rod stands at the datum"  # without the mark that it earns on a paper


def test_an_exercise_with_too_few_variants_is_left_out() -> None:
    """Three questions and an example want four."""
    candidates, spaces, notes = shelf("opening_sizes")
    few = [Space(exercise=space.exercise, indices=space.indices[:3]) for space in spaces]
    kept = compose_booklet(candidates, [*few[:-1], spaces[-1]], notes, SEED)
    assert [row.exercise for row in kept.rows] == [candidates[-1][1].name.replace("-", " ")]
    with pytest.raises(CannotDeal, match="enough variants"):
        compose_booklet(candidates, few, notes, SEED)
