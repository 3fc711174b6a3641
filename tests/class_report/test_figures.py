"""What a class's papers come to: parts, outcomes, slips and what to look at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from courseware.class_report.figures import ClassFigures, class_figures
from courseware.marking.marks import Mark, MarkedPaper, NamedSlip
from courseware.papers.sitting import Sitting

JOINT = NamedSlip(key="what-fits-the-gap/bricks_wide/1", says="The extra joint was left out")
FACE = NamedSlip(key="what-fits-the-gap/bricks_wide/2", says="The joints were forgotten")


def all_right(sitting: Sitting) -> list[MarkedPaper]:
    return [
        MarkedPaper(
            code=paper.code,
            status="",
            marks=tuple(
                Mark(label=part.label, marks=part.marks, of=part.marks, how="right", why="")
                for exercise in paper.exercises
                for part in exercise.parts
            ),
        )
        for paper in sitting.papers
    ]


def first_marks(class_of, marks: Sequence[dict]) -> ClassFigures:
    """A class all right but for its first part, for which each paper's mark is changed as told."""
    sitting, _ = class_of(len(marks))
    papers = [
        replace(paper, marks=(replace(paper.marks[0], **change), *paper.marks[1:]))
        for paper, change in zip(all_right(sitting), marks, strict=True)
    ]
    return class_figures(sitting, papers)


def slipped(*slips: NamedSlip, how: str = "slip", marks: int = 1) -> dict:
    return {"how": how, "marks": marks, "slips": slips}


def test_a_part_has_its_marks_blanks_and_open_answers_counted(class_of) -> None:
    changes = [
        {"how": how, "marks": marks} for how, marks in (("blank", 0), ("unreached", 0), ("asked", 0), ("right", 2))
    ]
    part = first_marks(class_of, changes).parts[0]
    assert (part.of, part.got, part.blank, part.unreached, part.asked) == (2, 2, 1, 1, 1)
    assert part.statistics.facility.value == 0.25


def test_an_outcome_is_all_parts_of_an_exercise_over_learners_not_over_answers(class_of) -> None:
    sitting, marked = class_of(12)
    figures = class_figures(sitting, marked)
    for outcome in figures.outcomes:
        parts = [part for part in figures.parts if part.exercise == outcome.exercise]
        assert outcome.labels == tuple(part.label for part in parts)
        assert outcome.facility.value == pytest.approx(sum(p.got for p in parts) / (12 * sum(p.of for p in parts)))
        assert outcome.facility.n == 12
    assert sum(outcome.of for outcome in figures.outcomes) == figures.of


def test_a_slip_on_more_than_one_paper_is_to_be_taught_again_and_one_alone_is_a_slip(class_of) -> None:
    once = first_marks(class_of, [slipped(JOINT), {}, {}]).slips
    twice = first_marks(class_of, [slipped(JOINT), slipped(JOINT), {}]).slips
    assert [(slip.key, len(slip.codes), slip.again) for slip in once] == [(JOINT.key, 1, False)]
    assert [(slip.key, len(slip.codes), slip.again) for slip in twice] == [(JOINT.key, 2, True)]
    assert (twice[0].label, twice[0].exercise, twice[0].part) == ("1a", "what-fits-the-gap", "bricks_wide")


def test_slips_come_by_count_and_a_shared_figure_counts_as_perhaps(class_of) -> None:
    changes = [slipped(JOINT), slipped(FACE), slipped(FACE), slipped(JOINT, FACE, how="family", marks=0)]
    face, joint = first_marks(class_of, changes).slips
    assert (face.key, len(face.codes), len(face.perhaps), face.again) == (FACE.key, 2, 1, True)
    assert (joint.key, len(joint.codes), len(joint.perhaps), joint.again) == (JOINT.key, 1, 1, True)


def test_every_wrong_choice_ticked_is_a_slip_of_its_own(class_of) -> None:
    found = first_marks(class_of, [slipped(JOINT, FACE, how="wrong", marks=0), {}]).slips
    assert [len(slip.codes) for slip in found] == [1, 1]


def test_where_the_assessor_gave_full_marks_there_was_no_slip(class_of) -> None:
    assert first_marks(class_of, [slipped(JOINT, how="decided", marks=2), {}]).slips == ()
    assert len(first_marks(class_of, [slipped(JOINT, how="decided", marks=1), {}]).slips) == 1


def test_a_slip_is_told_in_the_words_most_papers_had(class_of) -> None:
    other = replace(JOINT, says="The 10 mm joint was left out")
    found = first_marks(class_of, [slipped(other), slipped(JOINT), slipped(JOINT)]).slips
    assert [slip.says for slip in found] == [JOINT.says]


@pytest.mark.parametrize(("changes", "reasons"), [
    ([{}] * 12, ()),
    ([{"how": "unknown", "marks": 0}] * 9 + [{}] * 3, ("few got it",)),
    ([{"how": "blank", "marks": 0}] * 2 + [{"how": "unreached", "marks": 0}] * 2 + [{}] * 8, ("many left it out",)),
    ([{"how": "blank", "marks": 0}] * 3 + [{}] * 9, ()),
])  # fmt: skip
def test_a_question_is_looked_at_where_few_got_it_or_many_left_it_out(class_of, changes, reasons) -> None:
    assert first_marks(class_of, changes).parts[0].look == reasons


@pytest.mark.parametrize(("learners", "reasons"), [(9, ()), (12, ("those who did well elsewhere did less well here",))])
def test_a_question_that_runs_against_the_rest_is_looked_at_from_ten_papers(class_of, learners, reasons) -> None:
    """The weaker two thirds of the class got part 1a and little else; the stronger third got everything but that."""
    sitting, _ = class_of(learners)
    strong = learners // 3
    papers = [
        replace(
            paper,
            marks=tuple(
                replace(mark, marks=mark.of * ((n == 0) != (place < strong))) for n, mark in enumerate(paper.marks)
            ),
        )
        for place, paper in enumerate(all_right(sitting))
    ]
    assert class_figures(sitting, papers).parts[0].look == reasons


def test_the_order_of_the_papers_does_not_matter(class_of) -> None:
    sitting, marked = class_of(12)
    assert class_figures(sitting, marked) == class_figures(sitting, marked[::-1])


def test_a_sitting_not_marked_yet_has_figures_without_papers(class_of) -> None:
    sitting, _ = class_of(3)
    found = class_figures(sitting, ())
    assert (found.codes, found.totals, found.slips, found.papers.missing) == ((), (), (), 3)
    assert {part.look for part in found.parts} == {()}
    assert found.whole.mean is None
