"""A figure marked: by what was read, by the learner's own earlier answers, by what cannot be followed."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks import solve
from courseware.banks.solve import scope_of
from courseware.marking.part_kind import MARKING_KINDS, NotRead, Work
from courseware.papers.part_kind import PAPER_KINDS, labels
from courseware.papers.sitting import IssuedExercise
from courseware.papers.sitting_file import SittingFaulty
from courseware.part_kinds.number.marking import invented_figure

GIVEN = {"bricks": 4}
MARK = MARKING_KINDS["number"].mark


@pytest.fixture
def paper(exercise, number):
    """A pier of 4 bricks: its length (890 mm), what is left of 2000 mm (1110), and how many fit a wall of 8900 (10)."""
    parts = [
        number("length", "pier(bricks)", unit="mm", marks=2, within="2",
               slips=[{"value": "bricks * module", "says": "The last joint was kept", "earns": 1}]),
        number("left_over", "2000 - length", unit="mm", marks=2),
        number("fit", "8900 / length"),
    ]  # fmt: skip
    made = exercise(parts=parts)
    solved = solve(made, GIVEN)
    scope, entries = scope_of(GIVEN, solved), []
    for place, part in enumerate(solved):
        own = labels(1, part.part, place)
        entries += PAPER_KINDS["number"].issue(part, own, scope, {}, ("seed", "paper", made.name))
    issued = IssuedExercise(
        topic="Piers", exercise=made.name, given={"bricks": "4"}, site={}, setting="", parts=tuple(entries)
    )
    return Work(issued, made)


def marks(work: Work, *typed: str, others=None) -> list[tuple[str, int]]:
    """How each part was judged and what it earned, in the order of the paper."""
    pairs = zip(work.exercise.parts, work.issued.parts, typed, strict=False)
    verdicts = [MARK(part, entry, work, text, others or {}) for part, entry, text in pairs]
    return [(verdict.how, verdict.marks) for verdict in verdicts]


@pytest.mark.parametrize(
    ("typed", "how", "earned"),
    [
        ("890", "right", 2), ("890 mm", "right", 2), ("0.89 m", "right", 2), ("89 cm", "right", 2),
        ("888", "right", 2), ("892", "right", 2), ("887.9", "unknown", 0), ("892.1", "unknown", 0),  # ± 2 mm
        ("900", "slip", 1), ("", "blank", 0), ("nr", "unreached", 0), ("7", "unknown", 0),
    ],
)  # fmt: skip
def test_what_a_cell_earns(paper, typed: str, how: str, earned: int) -> None:
    assert marks(paper, typed) == [(how, earned)]


def test_a_slip_is_charged_once_and_what_follows_is_carried(paper) -> None:
    assert marks(paper, "900", "1100") == [("slip", 1), ("carried", 2)]
    assert paper.learner == {"length": 900, "left_over": 1100}


def test_an_answer_within_the_band_is_carried_as_it_stands(paper) -> None:
    assert marks(paper, "891", "1109") == [("right", 2), ("carried", 2)]


def test_right_in_spite_of_an_earlier_slip_is_right(paper) -> None:
    assert marks(paper, "900", "1110") == [("slip", 1), ("right", 2)]


def test_a_part_left_blank_stands_for_those_after_it_as_the_earlier_answers_make_it(paper) -> None:
    [(how, _), *_] = marks(paper, "900", "")
    assert how == "slip"
    assert paper.learner == {"length": 900, "left_over": 1100}


@pytest.mark.parametrize("length", ["2000", "2100"])
def test_a_carried_figure_of_nothing_or_less_goes_to_a_person(paper, length: str) -> None:
    part, entry = paper.exercise.parts[1], paper.issued.parts[1]
    paper.learner["length"] = Fraction(length)
    verdict = MARK(part, entry, paper, "5", {})
    assert verdict.how == "withheld"
    assert "it gives nothing, or less" in verdict.why


def test_a_carried_figure_that_cannot_be_worked_out_goes_to_a_person_with_the_reason(paper) -> None:
    paper.learner["length"] = 0
    verdict = MARK(paper.exercise.parts[2], paper.issued.parts[2], paper, "5", {})
    assert verdict.how == "withheld"
    assert "divides by nothing" in verdict.why


def test_the_answer_of_another_paper_is_told_as_such(paper) -> None:
    others = {"1a": {"1115": ["KTRA-WGHM-B"]}}
    assert marks(paper, "1115", others=others) == [("elsewhere", 0)]
    assert marks(paper, "1116", others=others) == [("unknown", 0)]


@pytest.mark.parametrize("typed", ["about 900", "890 or 900", "see sketch", "12,345"])
def test_what_does_not_read_as_one_figure_goes_to_a_person(paper, typed: str) -> None:
    with pytest.raises(NotRead):
        marks(paper, typed)


def test_a_sitting_whose_answer_is_another_is_not_marked(paper, exercise, number) -> None:
    other = exercise(parts=[number("length", "pier(bricks) + 1", unit="mm", marks=2)]).parts[0]
    with pytest.raises(SittingFaulty, match="part 1a: its answer in the sitting is not the one this program finds"):
        MARK(other, paper.issued.parts[0], paper, "7", {})


def test_invented_learners_write_the_answer_a_slip_anything_or_nothing(paper) -> None:
    entry = paper.issued.parts[0]
    written = [invented_figure(entry, draw) for draw in range(100)]
    assert {text.removesuffix(" mm") for text in written[:62]} == {"890"}
    assert set(written[62:88]) == {"900"}
    assert "nr" in written[88:]
    assert "" in written[88:]
    assert "890" not in written[88:]
