"""The register: every paper from the moment of issue, and only entries that can be true."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.database.errors import RecordRefuses
from courseware.database.history import history
from courseware.database.learners import export_learner
from courseware.database.register import enter_in_register, exchanged, names_by_reference, register_of
from courseware.database.scripts import enter_scripts
from courseware.database.sittings import take
from courseware.papers.sheet_format import SheetFormat
from courseware.papers.sitting_file import write_sitting


@pytest.fixture
def note(record, later):
    """Makes an entry about a paper, at nine and so many minutes."""

    def enter(paper, entry: str, minute: int = 5, by: str = "J. Marsh", **more: str):
        return enter_in_register(record, paper.code, entry, by=by, at=later(minute), **more)

    return enter


@pytest.fixture
def hand_in(record, sitting, written, later):
    def enter(paper, *cells: str, status: str = "", minute: int = 6):
        more = {"assessor": "J. Marsh", "role": "first", "source": "x.xlsx", "at": later(minute)}
        enter_scripts(record, sitting.code, [written(paper, *cells, status=status)], [], **more)

    return enter


def of(record, sitting, paper):
    return next(one for one in register_of(record, sitting.code) if one.code == paper.code)


@pytest.mark.each_database
def test_every_paper_stands_in_the_register_from_the_moment_it_is_taken_in(record, sitting, other_sitting, later):
    large = replace(other_sitting.papers[0].learner, sheets=SheetFormat(size=18))
    papers = (replace(other_sitting.papers[0], learner=large), *other_sitting.papers[1:])
    due = replace(other_sitting, papers=papers, due="2026-03-09")
    take(record, due, write_sitting(due), at=later(1), by="J. Marsh")
    found = register_of(record, due.code)
    assert [(one.code, one.name, one.reference) for one in found] == [
        (paper.code, paper.learner.name, paper.learner.reference) for paper in papers
    ]
    assert {(one.stands, one.attempt, one.due, one.by) for one in found} == {("issued", 1, "2026-03-09", "J. Marsh")}
    assert [one.sheets for one in found] == ["large-18", "", ""]
    [issued] = [event for event in history(record, papers[0].code) if event.what == "register"]
    assert (issued.after, issued.by, issued.at) == ("issued, due 2026-03-09", "J. Marsh", later(1))


def test_who_joins_later_is_entered_then_and_nobody_twice(record, sitting, other_sitting, later) -> None:
    first_two = replace(other_sitting, papers=other_sitting.papers[:2])
    take(record, first_two, write_sitting(first_two), at=later(1), by="J. Marsh")
    take(record, other_sitting, write_sitting(other_sitting), at=later(9), by="A. Boateng")
    take(record, other_sitting, write_sitting(other_sitting), at=later(10), by="A. Boateng")
    assert [one.by for one in register_of(record, other_sitting.code)] == ["J. Marsh", "J. Marsh", "A. Boateng"]


@pytest.mark.each_database
def test_a_retake_counts_as_the_next_attempt_and_is_told_beside_the_first(
    record, sitting, other_sitting, later
) -> None:
    again = replace(other_sitting, retake_of=sitting.code, papers=other_sitting.papers[:1])
    take(record, again, write_sitting(again), at=later(1))
    assert [one.attempt for one in register_of(record, again.code)] == [2]
    assert [one.retakes for one in register_of(record, sitting.code)] == [(again.papers[0].code,), (), ()]


@pytest.mark.each_database
def test_absent_then_late_then_handed_in(record, sitting, note, hand_in) -> None:
    paper = sitting.papers[0]
    assert note(paper, "absent", reason="at the dentist").stands == "absent"
    stands = note(paper, "late", due="2026-01-12", reason="agreed with the tutor", by="A. Boateng", minute=7)
    assert (stands.stands, stands.due, stands.reason, stands.by) == (
        "late", "2026-01-12", "agreed with the tutor", "A. Boateng",
    )  # fmt: skip
    hand_in(paper, "900")
    assert of(record, sitting, paper).stands == "handed in"


def test_a_row_marked_absent_on_the_sheet_is_absent_in_the_register(record, sitting, hand_in) -> None:
    hand_in(sitting.papers[0], status="absent")
    assert of(record, sitting, sitting.papers[0]).stands == "absent"


def test_a_row_that_was_cleared_again_is_not_handed_in(record, sitting, hand_in) -> None:
    paper = sitting.papers[0]
    hand_in(paper, "900")
    hand_in(paper, "", minute=8)
    assert of(record, sitting, paper).stands == "issued"


def test_a_resubmission_has_its_day_and_is_the_next_attempt(record, sitting, note, hand_in) -> None:
    paper = sitting.papers[0]
    hand_in(paper, "900")
    note(paper, "resubmission", due="2026-01-19", minute=7)
    assert (of(record, sitting, paper).stands, of(record, sitting, paper).due) == ("handed in", "2026-01-19")
    hand_in(paper, "910", status="resubmitted", minute=9)
    assert of(record, sitting, paper).stands == "handed in again"
    told = [event.after for event in history(record, paper.code) if event.what == "register"]
    assert told == ["resubmission, due 2026-01-19"]


def test_a_withdrawn_paper_is_not_marked_until_that_is_taken_back(record, sitting, note, hand_in) -> None:
    paper = sitting.papers[0]
    note(paper, "withdrawn", reason="left the course")
    with pytest.raises(
        RecordRefuses, match=rf"^the paper {paper.code} is withdrawn \(left the course\); take that back"
    ):
        hand_in(paper, "900")
    assert note(paper, "back", reason="came back", minute=7).stands == "issued"
    hand_in(paper, "900", minute=8)
    assert of(record, sitting, paper).stands == "handed in"


@pytest.mark.parametrize(
    ("before", "handed_in", "entry", "more", "says"),
    [
        ((), False, "absent", {}, "is absent for a reason: write it"),
        ((), False, "late", {"due": "2026-01-12"}, "is late for a reason: write it"),
        ((), False, "late", {"reason": "ill"}, r"needs the day agreed for it \(late\)"),
        ((), False, "late", {"reason": "ill", "due": "2026-01-04"}, "cannot be due on 2026-01-04, before its sitting"),
        ((), False, "withdrawn", {}, "is withdrawn for a reason: write it"),
        ((), False, "resubmission", {"due": "2026-01-12"}, "is not handed in yet; agree a later day as late"),
        ((), False, "back", {"reason": "no"}, "has no entry that could be taken back"),
        ((), False, "issued", {}, "is issued once"),
        ((("absent", {"reason": "ill"}),), False, "absent", {"reason": "ill"}, "stands as absent in the same words"),
        ((("absent", {"reason": "ill"}),), False, "back", {}, "needs the reason for which an entry is taken back"),
        ((("withdrawn", {"reason": "left"}),), False, "absent", {"reason": "ill"}, r"is withdrawn \(left\); take that"),
        ((), True, "absent", {"reason": "ill"}, "is handed in, so it is neither absent, late nor withdrawn"),
        ((), True, "withdrawn", {"reason": "left"}, "is handed in, so it is neither"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_in_one_line(
    record, sitting, note, hand_in, before, handed_in: bool, entry: str, more, says: str
) -> None:
    paper = sitting.papers[0]
    for minute, (earlier, said) in enumerate(before):
        note(paper, earlier, minute, **said)
    if handed_in:
        hand_in(paper, "900")
    stood = of(record, sitting, paper)
    with pytest.raises(RecordRefuses, match=f"^{paper.code} {says}") as refused:
        note(paper, entry, 9, **more)
    assert "\n" not in str(refused.value)
    assert of(record, sitting, paper) == stood


def test_on_the_day_of_the_sitting_itself_a_paper_can_be_due(record, sitting, note) -> None:
    assert note(sitting.papers[0], "late", due=sitting.date, reason="by the evening").due == sitting.date


def test_a_paper_or_sitting_that_is_not_there_is_refused(record, note, sitting) -> None:
    with pytest.raises(RecordRefuses, match="the record has no paper AAAA"):
        note(replace(sitting.papers[0], code="AAAA"), "absent", reason="ill")
    with pytest.raises(RecordRefuses, match="the record has no sitting AAAA"):
        register_of(record, "AAAA")


@pytest.mark.each_database
def test_two_names_that_change_places_are_asked_about_and_not_taken(record, sitting, later) -> None:
    one, two, three = sitting.papers
    swapped = (replace(one, learner=two.learner), replace(two, learner=one.learner), three)
    changed = replace(sitting, papers=swapped)
    with pytest.raises(RecordRefuses, match=f"the names of {min(one.code, two.code)} and .* have changed places"):
        take(record, changed, write_sitting(changed), at=later(1))
    assert of(record, sitting, one).name == one.learner.name


def test_a_name_put_right_is_no_exchange() -> None:
    before = {"A1": "Ann", "A2": "Ben", "A3": "Cy"}
    assert exchanged(before, {**before, "A1": "Anne"}) == ()
    assert exchanged(before, {"A1": "Ben", "A2": "Cy", "A3": "Ann"}) == ()  # three in a ring: nobody's places are two
    assert exchanged(before, {"A1": "BEN", "A2": "ann"}) == (("A1", "A2"),)
    assert exchanged({"A1": "Ann", "A2": "Ann"}, {"A1": "Ann", "A2": "Ann"}) == ()


def test_names_by_reference_are_the_newest(record, sitting) -> None:
    assert names_by_reference(record) == {"A-0012": "Amara Okafor", "A-0013": "Łukasz Wójcik"}


def test_an_export_has_a_learners_entries(record, sitting, note) -> None:
    note(sitting.papers[0], "absent", reason="at the dentist")
    [paper] = export_learner(record, sitting.papers[0].code)["papers"]
    assert [(row["entry"], row["reason"]) for row in paper["register"]] == [
        ("issued", ""),
        ("absent", "at the dentist"),
    ]
