"""Two markers: their differences part by part, how far they agree, and nothing of one before the other is done."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sklearn.metrics import cohen_kappa_score

from courseware.quality.second_marking import compare, same_marker
from tests.quality.conftest import asked, by_hand, decided, paper

PROGRAM = {"program_counts": True}

# ------------------------------------------------------------------ differences


def test_differences_are_listed_by_paper_and_part_with_both_marks_and_reasons() -> None:
    first = [decided(paper("A", 4, 2, 1)), decided(paper("B", 3, 3, 3))]
    found = compare(first, [*by_hand("B", 3, 3, 1), *by_hand("A", 4, 1, 1)])
    assert [(one.code, one.label, one.first.marks, one.second.marks) for one in found.differences] == [
        ("A", "1b", 2, 1),
        ("B", "1c", 3, 1),
    ]
    one = found.differences[0]
    assert (one.first.why, one.second.why, one.second.by, one.written) == ("2 earned.", "1 seen.", "P. Dunn", "1b = 2")
    assert (found.compared, found.parts, found.alone) == (("A", "B"), 6, 0)


def test_agreement_is_taken_over_all_parts_compared() -> None:
    """By counting: 4 of 6 parts alike, 5 of 6 within one, second less first is −1 and −2 over 6 parts."""
    first = [paper("A", 4, 2, 1), paper("B", 3, 3, 3)]
    found = compare(first, [*by_hand("A", 4, 1, 1), *by_hand("B", 3, 3, 1)], **PROGRAM).agreement
    assert found.exact.value == pytest.approx(4 / 6)
    assert found.within_one.value == pytest.approx(5 / 6)
    assert found.mean_difference == pytest.approx(-3 / 6)


@given(st.lists(st.tuples(*[st.integers(0, 4)] * 6), min_size=2, max_size=12))
def test_kappa_is_that_of_scikit_learn(marks) -> None:
    """Oracle: sklearn.metrics.cohen_kappa_score (scikit-learn, BSD)."""
    first = [paper(str(number), *one[:3]) for number, one in enumerate(marks)]
    second = [mark for number, one in enumerate(marks) for mark in by_hand(str(number), *one[3:])]
    pairs = [pair for one in marks for pair in zip(one[:3], one[3:], strict=True)]
    found = compare(first, second, **PROGRAM).agreement
    for index, weights in ((found.kappa, None), (found.kappa_linear, "linear"), (found.kappa_quadratic, "quadratic")):
        if index is not None:
            left, right = zip(*pairs, strict=True)
            assert index.value == pytest.approx(cohen_kappa_score(left, right, labels=range(5), weights=weights))


def test_each_script_of_a_paper_is_compared_with_its_own() -> None:
    first = [paper("A", 1, 1, 1), paper("A", 4, 4, 4, status="resubmitted")]
    (one,) = compare(first, by_hand("A", 4, 4, 3, attempt=2), **PROGRAM).differences
    assert (one.attempt, one.label) == (2, "1c")


# ------------------------------------------------------------------ whose marks count


@pytest.mark.parametrize(
    ("settings", "parts", "alone"),
    [({}, 1, 2), (PROGRAM, 3, 0)],
)  # fmt: skip
def test_the_programs_own_reading_is_one_of_the_two_only_if_the_centre_says_so(settings, parts, alone) -> None:
    found = compare([decided(paper("A", 4, 2, 1), "1b")], by_hand("A", 1, 1, 1), **settings)
    assert (found.parts, found.agreement.n, found.alone) == (parts, parts, alone)


def test_where_the_first_decided_nothing_two_who_marked_by_hand_are_compared() -> None:
    found = compare([paper("A", 4, 2, 1)], [*by_hand("A", 1, 1, 1), *by_hand("A", 1, 0, 1, by="R. Holt")])
    assert (found.parts, found.alone) == (3, 0)
    (one,) = found.differences
    assert (one.first.by, one.second.by) == ("P. Dunn", "R. Holt")


def test_one_person_under_two_spellings_is_not_two_markers() -> None:
    found = compare([paper("A", 4, 2, 1)], [*by_hand("A", 1, 1, 1), *by_hand("A", 1, 0, 1, by="p dunn")])
    assert (found.parts, found.alone) == (0, 3)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("J. Marsh", "j marsh", True), ("J. Marsh", "J.Marsh ", True), ("Zoë", "ZOË", True), ("J. Marsh", "J. Marshall", False),
    ],
)  # fmt: skip
def test_a_person_is_known_by_any_spelling_of_the_name(one, other, same) -> None:
    assert (same_marker(one) == same_marker(other)) is same


# ------------------------------------------------------------------ blind


def test_a_paper_that_the_second_marker_has_not_finished_tells_nothing_of_the_first() -> None:
    first = [paper("A", 4, 2, 1), paper("B", 3, 3, 3)]
    found = compare(first, [*by_hand("A", 0, 0), *by_hand("B", 3, 3, 3)], **PROGRAM)
    assert (found.waiting, found.compared) == (("A",), ("B",))
    assert found.parts == found.agreement.n == 3
    assert not found.differences


def test_a_part_that_still_waits_for_the_first_marker_does_not_count() -> None:
    found = compare([asked(paper("A", 4, 2, 1), "1a")], by_hand("A", 1, 2, 1), **PROGRAM)
    assert (found.parts, found.alone, found.differences) == (2, 1, ())


def test_absent_learners_and_papers_that_only_the_first_has_are_left_out() -> None:
    away = paper("B", status="absent")
    found = compare([paper("A", 1, 1, 1), away, paper("C", 1, 1, 1)], by_hand("C", 1, 1, 1), **PROGRAM)
    assert (found.compared, found.waiting) == (("C",), ())
