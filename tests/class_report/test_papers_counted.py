"""Whose papers count in the figures of a class."""

from __future__ import annotations

from dataclasses import replace

from courseware.class_report.papers_counted import class_papers


def test_papers_count_in_order_of_code_each_with_its_own_issue(class_of) -> None:
    sitting, marked = class_of(3)
    counted = class_papers(sitting, marked[::-1]).counted
    assert [paper.code for _, paper in counted] == sorted(paper.code for paper in sitting.papers)
    assert all(issued.code == paper.code for issued, paper in counted)


def test_absent_missing_and_unfinished_papers_are_left_out_and_counted(class_of) -> None:
    sitting, marked = class_of(5)
    absent = replace(marked[0], status="absent", marks=())
    unfinished = replace(marked[1], marks=marked[1].marks[:-1])
    found = class_papers(sitting, (absent, unfinished, *marked[2:4]))
    assert (len(found.counted), found.absent, found.unfinished, found.missing) == (2, 1, 1, 1)


def test_a_withdrawn_paper_is_not_one_that_is_not_handed_in(class_of) -> None:
    sitting, marked = class_of(4)
    gone = {marked[2].code, marked[0].code}  # the other was written before, and counts
    found = class_papers(sitting, marked[:2], gone)
    assert (len(found.counted), found.withdrawn, found.missing) == (2, 1, 1)


def test_a_paper_handed_in_again_does_not_stand_in_for_the_first(class_of) -> None:
    sitting, marked = class_of(3)
    again = replace(marked[0], status="resubmitted", marks=tuple(replace(m, marks=m.of) for m in marked[0].marks))
    for papers in ((again, *marked), (*marked, again)):
        assert {paper for _, paper in class_papers(sitting, papers).counted} == set(marked)
    alone = class_papers(sitting, (again, *marked[1:])).counted
    assert again in {paper for _, paper in alone}, "where it is all there is, it counts"


def test_a_late_paper_counts(class_of) -> None:
    sitting, marked = class_of(3)
    assert len(class_papers(sitting, [replace(paper, status="late") for paper in marked]).counted) == 3


def test_a_paper_of_another_sitting_does_not_count(class_of) -> None:
    sitting, marked = class_of(3)
    found = class_papers(sitting, [replace(marked[0], code="AAAA-AAAA-A")])
    assert (found.counted, found.missing) == ((), 3)
