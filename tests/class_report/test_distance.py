"""Two sittings of the same exercises set side by side, with what each learner and the class came by worked out by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from courseware.class_report.distance import CannotCompare, Distance, Pair, distance, pairs
from courseware.marking.marks import MarkedSitting, NamedSlip
from courseware.papers.group import Learner
from courseware.papers.sitting import Sitting
from tests.class_report.test_figures import all_right

BEDS = NamedSlip(key="what-fits-the-gap/bricks_wide/1", says="The extra joint was left out")
NO_WORDS = ({}, {})


@pytest.fixture
def piers(class_of) -> Sitting:
    """A sitting of five known by reference; names may change between sittings."""
    sitting, _ = class_of(5)
    papers = tuple(
        replace(paper, learner=Learner(name=f"Learner {place}", reference=f"R{place}"))
        for place, paper in enumerate(sitting.papers)
    )
    return replace(sitting, papers=papers)


def on(sitting: Sitting, date: str, first: Sequence[dict], code: str = "") -> MarkedSitting:
    """The sitting held on a date, all right but for the first parts of the first papers, as told."""
    papers = list(all_right(sitting))
    for place, change in enumerate(first):
        marks = papers[place].marks
        papers[place] = replace(papers[place], marks=(replace(marks[0], **change), *marks[1:]))
    return MarkedSitting(sitting=replace(sitting, date=date, code=code or date), marked=tuple(papers))


def travelled(start: MarkedSitting, end: MarkedSitting) -> Distance:
    return distance(Pair(start=start, end=end), NO_WORDS)


WRONG = {"how": "slip", "marks": 0, "slips": (BEDS,)}


def test_a_change_is_the_mean_over_those_who_wrote_both(piers: Sitting) -> None:
    """By hand: of an exercise worth m marks, whose first part gives 2, two of five gain 2 marks each: 2·2/(5·m)."""
    start, end = on(piers, "2026-09-07", [WRONG, WRONG]), on(piers, "2027-06-07", [])
    found = travelled(start, end)
    first = found.outcomes[0]
    assert found.both == 5
    assert first.change is not None
    assert first.change.value == pytest.approx(2 * 2 / (5 * first.start.of))
    assert (first.start.facility.value, first.end.facility.value) == (pytest.approx(1 - 4 / (5 * first.start.of)), 1)
    assert all(other.change.value == 0 and other.change.interval is None for other in found.outcomes[1:])


def test_who_wrote_once_counts_for_the_class_but_not_for_the_change(piers: Sitting) -> None:
    start, end = on(piers, "2026-09-07", [WRONG]), on(piers, "2027-06-07", [])
    left = MarkedSitting(sitting=end.sitting, marked=end.marked[1:])
    found = travelled(start, left)
    assert (found.papers, found.both) == ((5, 4), 4)
    assert found.outcomes[0].change.value == 0  # the one who had it wrong did not write the end


def test_a_learner_is_known_by_reference_though_the_name_changed_and_numbered_papers_are_nobody_s(
    piers: Sitting,
) -> None:
    renamed = tuple(replace(paper, learner=replace(paper.learner, name="Another")) for paper in piers.papers)
    found = travelled(on(piers, "2026-09-07", []), on(replace(piers, papers=renamed), "2027-06-07", []))
    assert found.both == 5
    nobody = tuple(replace(paper, learner=Learner(name="")) for paper in piers.papers)
    found = travelled(on(replace(piers, papers=nobody), "2026-09-07", []), on(piers, "2027-06-07", []))
    assert (found.both, found.outcomes[0].change) == (0, None)


def test_two_learners_of_one_name_are_not_taken_for_one(piers: Sitting) -> None:
    twins = tuple(replace(paper, learner=Learner(name="Sam Hill")) for paper in piers.papers)
    start = on(replace(piers, papers=twins), "2026-09-07", [])
    with pytest.raises(CannotCompare, match="two learners of 2026-09-07 go by one name or reference"):
        travelled(start, on(piers, "2027-06-07", []))


def test_slips_still_seen_stand_before_those_that_are_gone(piers: Sitting) -> None:
    other = replace(BEDS, key="what-fits-the-gap/bricks_wide/2", says="The joints were forgotten")
    gone = WRONG | {"slips": (other,)}
    found = travelled(on(piers, "2026-09-07", [WRONG, gone, gone]), on(piers, "2027-06-07", [WRONG]))
    assert [(slip.words, slip.start, slip.end) for slip in found.slips] == [(BEDS.says, 1, 1), (other.says, 2, 0)]


def test_what_waits_for_an_assessor_is_counted(piers: Sitting) -> None:
    asked = {"how": "asked", "marks": 0}
    assert travelled(on(piers, "2026-09-07", [asked]), on(piers, "2027-06-07", [asked, asked])).waiting == 3


def test_sittings_are_paired_by_their_exercises_the_earlier_first(piers: Sitting, dealt) -> None:
    other = dealt("course_gauge", exercises=2)
    four = [on(one, date, []) for date in ("2027-06-07", "2026-09-07") for one in (piers, other)]
    found = pairs(four)
    assert [(pair.start.sitting.date, pair.end.sitting.date) for pair in found] == [("2026-09-07", "2027-06-07")] * 2
    assert [pair.start.sitting.papers for pair in found] == [piers.papers, other.papers]


@pytest.mark.parametrize(
    ("dates", "told"),
    [
        (["2026-09-07"], "A1 has no other with the same exercises; name a start and an end of each"),
        (["2026-09-07", "2027-01-11", "2027-06-07"], "A1, A2 and A3 have the same exercises, more than two"),
        (["2026-09-07", "2026-09-07"], "A1 and A2 are both of 2026-09-07, so neither is the start"),
    ],
)
def test_what_cannot_be_paired_is_told(piers: Sitting, dates: list[str], told: str) -> None:
    with pytest.raises(CannotCompare, match=told):
        pairs([on(piers, date, [], code=f"A{place}") for place, date in enumerate(dates, 1)])
