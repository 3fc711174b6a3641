"""How much of a feedback sheet is shown: what is left out of the lines where it is worked, and the order of choices."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.feedback.feedback_text import ExerciseMarks, FeedbackSheet, FirstWrong, LostPart
from courseware.papers.sheets import Heading
from courseware.printing.feedback_choices import Shown, choices

HEADING = Heading(title="T", group="", date="", code="C", learner="", reference="", number="", marks=9)


def wrong(label: str) -> FirstWrong:
    return FirstWrong(
        label=label, topic="T", ask="", marks="", written="", says=(), slips=(), lead="", lines=(), repeated="", comment="",
        cautions="", drawing=None, unit="", worked=True, squares=False,
    )  # fmt: skip


def lost(label: str, blank: bool = False) -> LostPart:
    return LostPart(label=label, marks="0 of 1", written="", says="", look="", blank=blank)


SHEET = FeedbackSheet(
    heading=HEADING,
    total="",
    notes=(),
    marks=tuple(ExerciseMarks(number=n, topic="T", secure="", parts=()) for n in range(16)),
    wrong=(wrong("3a"), wrong("1a"), wrong("2b")),
    lost=(lost("1a"), lost("1b"), lost("2a", blank=True), lost("2b"), lost("3a"), lost("3b", blank=True)),
    comments=(("1a", "See me"), ("9a", "Fine")),
    fresh=None,
    cautions=(),
    marked_by="",
)
SHOWN = Shown(worked=3, beside=None, over=(1, 1), lines=9, words=9, comment=9)


@pytest.mark.parametrize(("worked", "told", "lines"), [
    (3, ["1a", "2b", "3a"], ["1b"]), (2, ["1a", "3a"], ["1b", "2b"]), (1, ["3a"], ["1a", "1b", "2b"]),
    (0, [], ["1a", "1b", "2b", "3a"]),
])  # fmt: skip
def test_the_most_telling_are_worked_in_the_order_of_the_paper_and_the_others_have_a_line(worked, told, lines) -> None:
    chosen = replace(SHOWN, worked=worked).of(SHEET)
    assert [one.label for one in chosen.worked] == told
    assert [one.label for one in chosen.lost] == lines
    assert chosen.blank == ("2a", "3b")


@pytest.mark.parametrize(("worked", "comments"), [(1, ["1a", "9a"]), (2, ["9a"])])
def test_a_comment_stands_with_the_part_that_is_worked_or_apart(worked: int, comments: list[str]) -> None:
    assert [label for label, _ in replace(SHOWN, worked=worked).of(SHEET).comments] == comments


@pytest.mark.parametrize(("exercises", "rows"), [(15, True), (16, True), (17, False)])
def test_a_paper_of_many_exercises_has_no_row_for_each(exercises: int, rows: bool) -> None:
    sheet = replace(SHEET, marks=SHEET.marks[:1] * exercises)
    assert next(choices(sheet)).secure is rows
    assert not any(shown.secure for shown in choices(sheet)) is not rows


def test_choices_show_less_and_less_and_the_fresh_question_goes_last() -> None:
    found = list(choices(SHEET))
    with_question = [shown for shown in found if shown.fresh]
    assert [shown.worked for shown in with_question] == sorted((s.worked for s in with_question), reverse=True)
    assert found[-1] == min(found, key=lambda shown: (shown.fresh, shown.worked, shown.lines))
    assert [shown.fresh for shown in found] == sorted((shown.fresh for shown in found), reverse=True)
