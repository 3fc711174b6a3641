"""Two markers: their differences part by part, how far they agree, and nothing of one before the other is done."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sklearn.metrics import cohen_kappa_score

from courseware.quality.second_marking import compare
from tests.quality.conftest import asked, paper

# ------------------------------------------------------------------ differences


def test_differences_are_listed_by_paper_and_part_with_both_marks_and_reasons() -> None:
    found = compare([paper("A", 4, 2, 1), paper("B", 3, 3, 3)], [paper("B", 3, 3, 1), paper("A", 4, 1, 1)])
    assert [(one.code, one.first.label, one.first.marks, one.second.marks) for one in found.differences] == [
        ("A", "1b", 2, 1),
        ("B", "1c", 3, 1),
    ]
    assert (found.differences[0].first.why, found.differences[0].second.why) == ("2 earned.", "1 earned.")
    assert (found.compared, found.parts) == (("A", "B"), 6)


def test_agreement_is_taken_over_all_parts_compared() -> None:
    """By counting: 4 of 6 parts alike, 5 of 6 within one, second less first is −1 and −2 over 6 parts."""
    found = compare([paper("A", 4, 2, 1), paper("B", 3, 3, 3)], [paper("A", 4, 1, 1), paper("B", 3, 3, 1)]).agreement
    assert found.exact.value == pytest.approx(4 / 6)
    assert found.within_one.value == pytest.approx(5 / 6)
    assert found.mean_difference == pytest.approx(-3 / 6)


@given(st.lists(st.tuples(*[st.integers(0, 4)] * 6), min_size=2, max_size=12))
def test_kappa_is_that_of_scikit_learn(marks) -> None:
    """Oracle: sklearn.metrics.cohen_kappa_score (scikit-learn, BSD)."""
    first = [paper(str(number), *one[:3]) for number, one in enumerate(marks)]
    second = [paper(str(number), *one[3:]) for number, one in enumerate(marks)]
    pairs = [pair for one in marks for pair in zip(one[:3], one[3:], strict=True)]
    found = compare(first, second).agreement
    for index, weights in ((found.kappa, None), (found.kappa_linear, "linear"), (found.kappa_quadratic, "quadratic")):
        if index is not None:
            left, right = zip(*pairs, strict=True)
            assert index.value == pytest.approx(cohen_kappa_score(left, right, labels=range(5), weights=weights))


@given(st.permutations(range(6)))
def test_the_order_of_the_second_markers_papers_makes_no_difference(order) -> None:
    first = [paper(str(number), number % 5, 1, 2) for number in range(6)]
    second = [paper(str(number), 1, number % 3, 2) for number in range(6)]
    assert compare(first, [second[number] for number in order]) == compare(first, second)


def test_each_script_of_a_paper_is_compared_with_its_own() -> None:
    first = [paper("A", 1, 1, 1), paper("A", 4, 4, 4, status="resubmitted")]
    second = [paper("A", 1, 1, 1), paper("A", 4, 4, 3, status="resubmitted")]
    (one,) = compare(first, second).differences
    assert (one.attempt, one.first.label) == (2, "1c")


# ------------------------------------------------------------------ blind


def test_a_paper_that_the_second_marker_has_not_finished_tells_nothing_of_the_first() -> None:
    first = [paper("A", 4, 2, 1), paper("B", 3, 3, 3)]
    for unfinished in (asked(paper("A", 0, 0, 0), "1b"), paper("A", 0, 0)):
        found = compare(first, [unfinished, paper("B", 3, 3, 3)])
        assert found.waiting == ("A",)
        assert found.compared == ("B",)
        assert found.parts == found.agreement.n == 3
        assert not found.differences


def test_a_paper_that_the_first_marker_has_not_finished_is_named() -> None:
    found = compare([asked(paper("A", 4, 2, 1), "1a")], [paper("A", 1, 1, 1), paper("C", 1, 1, 1)])
    assert (found.unfinished, found.compared) == (("A", "C"), ())


def test_absent_learners_and_papers_that_only_the_first_has_are_left_out() -> None:
    away = paper("B", status="absent")
    found = compare([paper("A", 1, 1, 1), away, paper("C", 1, 1, 1)], [away, paper("C", 1, 1, 1)])
    assert found.compared == ("C",)
    assert found.waiting == found.unfinished == ()
