"""Exercises to choose from: shipped and a tutor's own, each seen as a real question."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.papers.shares import for_papers
from courseware.papers.sheet_format import STANDARD, read_format
from courseware.settings.settings import DEFAULTS, Settings
from courseware.workflows.exercises_at_hand import (
    BankAtHand,
    Pick,
    banks_at_hand,
    drawn,
    find_exercises,
    sides_in_all,
    totals,
)
from tests.bank_of_piers import BANK


@pytest.fixture
def work(tmp_path: Path) -> Path:
    (tmp_path / "banks").mkdir()
    return tmp_path


def own(work: Path, text: str, name: str = "piers.yaml") -> BankAtHand:
    (work / "banks" / name).write_text(text, encoding="utf-8")
    [found] = [bank for bank in banks_at_hand(work, DEFAULTS) if bank.own and bank.key == f"banks/{name}"]
    return found


def piers(most: int = 40, working: str = "bricks * module - joint") -> str:
    return BANK % (1, most, working)


@pytest.fixture(scope="session")
def cutting(tmp_path_factory) -> BankAtHand:
    """A shipped topic whose proof is soon done."""
    return next(
        bank for bank in banks_at_hand(tmp_path_factory.mktemp("empty"), DEFAULTS) if bank.key == "safe_cutting"
    )


def test_shipped_topics_come_first_then_the_tutors_own(work: Path) -> None:
    own(work, piers())
    keys = [bank.key for bank in banks_at_hand(work, DEFAULTS)]
    assert keys[-1] == "banks/piers.yaml"
    assert "course_gauge" in keys


def test_a_bank_with_a_fault_stands_among_the_others_and_says_where(work: Path) -> None:
    found = own(work, piers().replace("level: 1", "level: 9"))
    assert found.exercises == ()
    assert found.fault.startswith("piers.yaml:6:")


def test_a_bank_that_was_changed_is_read_anew(work: Path) -> None:
    assert own(work, piers()).exercises[0].exercise.level == 1
    assert own(work, piers().replace("level: 1", "level: 3")).exercises[0].exercise.level == 3


def test_an_exercise_that_fails_its_proof_is_not_shown_as_a_question(work: Path) -> None:
    [one] = own(work, piers(working="bricks * module")).exercises
    assert "bricks = 3" in one.fault
    with pytest.raises(NotFound, match="fails its proof"):
        one.question()


def test_each_turn_shows_another_variant_until_all_were_shown(work: Path) -> None:
    [one] = own(work, piers(most=10)).exercises
    poses = [one.question(turn).asked.pose for turn in range(one.variants)]
    assert len(set(poses)) == one.variants > 3
    assert one.question(one.variants).asked.pose == poses[0]


def test_what_is_shown_is_never_on_a_paper(work: Path) -> None:
    [one] = own(work, piers(most=60)).exercises
    papers = for_papers(one.proof.space)
    dealt = {f"A pier of {papers.variant(place)['bricks']} bricks." for place in range(len(papers))}
    assert not dealt & {one.question(turn).asked.pose for turn in range(one.variants)}


def test_a_question_has_its_key_beside_it(cutting: BankAtHand) -> None:
    for one in cutting.exercises:
        question = one.question()
        assert len(question.answers) == len(question.asked.parts)
        assert all(answer.answer or answer.by_eye for part in question.answers for answer in part)


def test_a_drawing_is_laid_out_for_a_wide_screen_and_for_a_phone(cutting: BankAtHand) -> None:
    picture = cutting.picture
    assert picture is not None
    assert picture.wide.startswith("<svg")
    assert "style=" not in picture.wide + picture.narrow
    call = next(call for one in cutting.exercises if (call := one.question().asked.drawing))
    assert drawn(call).alt == call.alt


def test_totals_grow_with_the_choice_and_with_the_type(cutting: BankAtHand) -> None:
    one, *others = cutting.exercises
    few, many = totals([one]), totals([one, *others])
    assert (few.exercises, few.marks) == (1, one.exercise.marks)
    assert many.marks == sum(each.exercise.marks for each in cutting.exercises)
    assert many.sides >= few.sides >= 1
    assert totals(cutting.exercises, read_format("large-24 extra-50")).sides > many.sides
    assert totals(cutting.exercises, read_format("extra-50")).minutes > many.minutes
    assert totals([]).sides == 0


def test_a_class_takes_the_sides_of_each_learners_own_sheets(cutting: BankAtHand) -> None:
    usual, large = STANDARD, read_format("large-24")
    one, more = totals(cutting.exercises).sides, totals(cutting.exercises, large).sides
    assert sides_in_all(cutting.exercises, [usual, large, usual]) == 2 * one + more
    assert sides_in_all(cutting.exercises, []) == 0


def test_picks_keep_their_order(cutting: BankAtHand) -> None:
    picks = [one.pick for one in reversed(cutting.exercises)]
    assert [one.pick for one in find_exercises([cutting], picks)] == picks


def test_a_pick_that_no_bank_has_any_more_is_named(cutting: BankAtHand) -> None:
    with pytest.raises(NotFound, match="old exercise is in no bank any more"):
        find_exercises([cutting], [Pick(bank="safe_cutting", exercise="old-exercise")])


def test_the_centres_settings_are_those_of_the_questions(work: Path) -> None:
    own(work, piers())
    bank = banks_at_hand(work, Settings(upright_joint="perp", name="Brookfield College"))[-1]
    assert bank.exercises[0].bank.settings.upright_joint == "perp"
