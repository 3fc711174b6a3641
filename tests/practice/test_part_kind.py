"""What a kind of part gives the practice page: plain data, short, with an exact figure for each line of working."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks.part_kinds import kind_folders
from courseware.practice.part_kind import PRACTICE_KINDS, KindInPractice, own_label, without_blanks, working_data
from tests.practice.test_kinds import kinds


@pytest.mark.parametrize(
    ("label", "own"), [("1a", "a"), ("1c", "c"), ("1a(i)", "i"), ("1b(ii)", "ii"), ("1c(iv)", "iv")]
)
def test_a_label_is_that_of_an_exercise_alone(label: str, own: str) -> None:
    """There is no other exercise on the page: it is number 1, which says nothing."""
    assert own_label(label) == own


def test_what_says_nothing_is_left_out_but_nought_stays() -> None:
    """Nought decimal places is something: the answer is rounded to a whole number."""
    data = {"note": "", "rows": [], "given": {}, "asks": False, "places": 0, "marks": 2, "before": None, "right": "0"}
    assert without_blanks(data) == {"places": 0, "marks": 2, "before": None, "right": "0"}


def test_every_line_of_working_has_its_figure_as_shown_and_exactly() -> None:
    """The width of an opening: bricks of 225 mm and a joint (Sheet 9, Table 1: CO + Joint)."""
    (kind,) = kinds("opening-for-a-panel", most=1)
    question = kind.questions[0]
    solved, answer = question.solved[0].numbers[0], question.key.answers[0][0]
    lines = working_data(solved.part.working, solved.working, answer, "mm")
    assert [line["say"] for line in lines] == [said.say for said in answer.working]
    assert Fraction(lines[-1]["right"]) == solved.answer == 225 * int(question.issued.given["bricks"]) + 10
    assert {line["unit"] for line in lines} == {"mm"}


def test_a_line_of_words_alone_has_no_figure_to_fill_in() -> None:
    (kind,) = kinds("opening-for-a-panel", most=1)
    solved, answer = kind.questions[0].solved[0].numbers[0], kind.questions[0].key.answers[0][0]
    lines = working_data(solved.part.working, (None, True, "a word"), answer, "mm")
    assert not any({"right", "unit"} & set(line) for line in lines)


def test_every_kind_of_part_can_be_practised() -> None:
    """One answered in a few words is, on paper and on the page, of the kind `drawn`."""
    known = {name for name in kind_folders() if isinstance(PRACTICE_KINDS.get(name), KindInPractice)}
    assert known == set(kind_folders()) - {"words"}
