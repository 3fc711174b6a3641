"""Slips counted by what went wrong: over parts and learners, for certain and perhaps."""

from __future__ import annotations

import pytest

from courseware.class_report.misconceptions import Misconception, misconceptions, slip_words
from courseware.marking.marks import How, Mark, MarkedPaper, NamedSlip
from courseware.papers.compose import read_sources

BEDS, FIRST, COUNT = "the beds were left out", "the first bed was dropped", "the count was out by one"
WORDS = {
    ("1a", "rod/low/1"): BEDS,
    ("1a", "rod/low/2"): FIRST,
    ("1a", "rod/low/3"): BEDS,
    ("2a", "wall/high/1"): BEDS,
}


def slipped(label: str, *keys: str, how: How = "slip", marks: int = 0) -> Mark:
    slips = tuple(NamedSlip(key=key, says=f"What {key} says.") for key in keys)
    return Mark(label=label, marks=marks, of=2, how=how, why="", slips=slips)


def paper(code: str, *marks: Mark) -> MarkedPaper:
    return MarkedPaper(code=code, status="", marks=marks)


def counts(found: tuple[Misconception, ...]) -> list[tuple[str, int, int, int]]:
    return [(one.words, one.times, one.learners, len(one.perhaps)) for one in found]


def test_the_same_words_count_together_over_questions_and_learners() -> None:
    """`9 times, 5 learners, in 4 questions` is how it is read; here 3 times, 2 learners, 2 questions."""
    found = misconceptions(
        [paper("A", slipped("1a", "rod/low/1"), slipped("2a", "wall/high/1")), paper("B", slipped("1a", "rod/low/1"))],
        WORDS,
    )
    assert counts(found) == [(BEDS, 3, 2, 0)]
    assert found[0].labels == ("1a", "2a"), "where it was seen most comes first"
    assert found[0].says == "What rod/low/1 says."


def test_a_slip_whose_bank_says_nothing_is_counted_by_what_it_says_itself() -> None:
    found = misconceptions([paper("A", slipped("9a", "own/part/1")), paper("B", slipped("9a", "own/part/1"))], WORDS)
    assert counts(found) == [("What own/part/1 says", 2, 2, 0)]


def test_spelling_of_capitals_parts_nothing() -> None:
    words = {("1a", "x/y/1"): "The beds were left out", ("2a", "x/z/1"): BEDS}
    found = misconceptions([paper("A", slipped("1a", "x/y/1"), slipped("2a", "x/z/1"))], words)
    assert counts(found) == [("The beds were left out", 2, 1, 0)]


def test_a_figure_that_several_slips_give_is_certain_where_all_have_the_same_words_and_perhaps_elsewhere() -> None:
    same = slipped("1a", "rod/low/1", "rod/low/3", how="family")
    other = slipped("1a", "rod/low/1", "rod/low/2", how="family")
    assert counts(misconceptions([paper("A", same)], WORDS)) == [(BEDS, 1, 1, 0)]
    assert sorted(counts(misconceptions([paper("A", other)], WORDS))) == [(BEDS, 0, 0, 1), (FIRST, 0, 0, 1)]


def test_every_wrong_choice_ticked_counts_for_certain() -> None:
    both = slipped("1a", "rod/low/1", "rod/low/2", how="wrong")
    assert counts(misconceptions([paper("A", both)], WORDS)) == [(BEDS, 1, 1, 0), (FIRST, 1, 1, 0)]


@pytest.mark.parametrize(("marks", "seen"), [(1, 1), (2, 0)])
def test_where_the_assessor_gave_full_marks_there_was_none(marks: int, seen: int) -> None:
    decided = slipped("1a", "rod/low/1", how="decided", marks=marks)
    assert len(misconceptions([paper("A", decided)], WORDS)) == seen


def test_those_of_most_learners_come_first_then_those_seen_most_often() -> None:
    often = [slipped(label, f"x/{label}/1") for label in ("1a", "1b", "1c")]
    words = {(label, f"x/{label}/1"): COUNT for label in ("1a", "1b", "1c")} | {("2a", "wall/high/1"): BEDS}
    papers = [paper("A", *often, slipped("2a", "wall/high/1")), paper("B", slipped("2a", "wall/high/1"))]
    assert counts(misconceptions(papers, words)) == [(BEDS, 2, 2, 0), (COUNT, 3, 1, 0)]


def test_of_two_as_common_the_one_in_more_questions_comes_first() -> None:
    words = {("1a", "x/1a/1"): COUNT, ("1b", "x/1b/1"): BEDS, ("2a", "wall/high/1"): BEDS}
    papers = [
        paper("A", slipped("1a", "x/1a/1"), slipped("1b", "x/1b/1")),
        paper("B", slipped("1a", "x/1a/1"), slipped("2a", "wall/high/1")),
    ]
    assert counts(misconceptions(papers, words)) == [(BEDS, 2, 2, 0), (COUNT, 2, 2, 0)]


@pytest.mark.parametrize(
    ("codes", "perhaps", "again"), [("A", "", False), ("A", "A", False), ("A", "B", True), ("AB", "", True)]
)
def test_the_class_is_taught_what_more_than_one_paper_shows(codes: str, perhaps: str, again: bool) -> None:
    one = Misconception(
        words=BEDS,
        says="",
        seen=tuple((code, "1a") for code in codes),
        perhaps=tuple((code, "1b") for code in perhaps),
    )
    assert one.again is again


def test_the_words_are_those_of_the_banks_in_the_sitting_itself(class_of) -> None:
    """The shipped bank of opening sizes says what each of its slips is counted by."""
    sitting, marked = class_of(12)
    words = slip_words(sitting, read_sources(sitting))
    labels = {part.label: part for part in sitting.papers[0].parts}
    for label, part in labels.items():
        assert sum(of == label for of, _ in words) >= len(part.slips)
    named = {(mark.label, slip.key) for one in marked for mark in one.marks for slip in mark.slips}
    assert named
    assert named <= set(words)


@pytest.mark.parametrize(
    ("words", "says", "rule"),
    [
        ("The beds were left out", "the beds were left out: each course is a brick and a bed", "Each course is a brick and a bed."),
        ("The beds were left out", "Each course is a brick and a bed.", "Each course is a brick and a bed."),
        ("3-4-5 was used wrongly", "The long side does not fit 3-4-5", "The long side does not fit 3-4-5."),
        ("Added where it should be multiplied", "Added where it should be multiplied", ""),
    ],
)  # fmt: skip
def test_a_slip_is_not_told_twice(words: str, says: str, rule: str) -> None:
    assert Misconception(words=words, says=says, seen=(), perhaps=()).rule == rule
