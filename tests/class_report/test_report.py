"""The class picture's two sides as a tutor reads them, whatever the choice of how much they show."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from courseware.class_report.figures import class_figures
from courseware.class_report.misconceptions import slip_words
from courseware.class_report.question_words import question_words
from courseware.class_report.report import ClassPicture, Side, class_picture, who_is_in
from courseware.class_report.starters import Starter
from courseware.drawings.picture import Label
from courseware.marking.marks import MarkedPaper
from courseware.papers.compose import read_sources
from courseware.papers.sitting import Sitting
from tests.class_report.conftest import WALL

TOPICS = ("opening_sizes", "course_gauge")
GAP = Starter("The gap is 1585 mm wide, brick to brick.", "How many bricks long is each course?", "7 bricks", WALL)


def picture_of(sitting: Sitting, marked: Sequence[MarkedPaper], starter: Starter | None = GAP) -> ClassPicture:
    sources = read_sources(sitting)
    starters = {part.label: starter for part in sitting.papers[0].parts} if starter else {}
    figures = class_figures(sitting, marked, slip_words(sitting, sources))
    return class_picture(sitting, figures, question_words(sitting, sources), starters)


def headings(side: Side) -> list[str]:
    return [block.heading for block in side if block.heading]


def everything(picture: ClassPicture) -> str:
    """All words of all choices, in pictures too."""
    told = [picture.title]
    for side in (*picture.first, *picture.second):
        for block in side():
            told += [block.heading, *block.text]
            if block.picture:
                told += [mark.text for mark in block.picture.marks if isinstance(mark, Label)] + [block.picture.alt]
    return "\n".join(told)


def test_what_to_teach_first_stands_at_the_top_of_the_first_side_with_its_starter(class_of) -> None:
    picture = picture_of(*class_of(12, TOPICS))
    first = headings(picture.first[0]())
    assert first[0].startswith("Teach first: ")
    assert first[1:] == ["Ten-minute starter", "Who got what"]
    assert picture.title == "Class picture: Setting out"


def test_the_centres_name_is_that_of_its_settings(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    named = replace(sitting, settings=replace(sitting.settings, name="Tyneholm College"))
    assert picture_of(sitting, marked).centre == ""
    assert [picture_of(named, some).centre for some in (marked, ())] == ["Tyneholm College"] * 2


def test_every_choice_shows_a_starter_with_its_drawing(class_of) -> None:
    picture = picture_of(*class_of(12, TOPICS))
    for choice in picture.first:
        _, _, starter, _ = choice()
        assert starter.picture
        assert starter.picture.alt == WALL.alt


def test_then_slips_spread_and_outcomes_and_more_starters(class_of) -> None:
    second = headings(picture_of(*class_of(12, TOPICS)).second[0]())
    assert second[:3] == ["What went wrong", "Spread of marks", "How much of each exercise the class got"]
    assert all(heading.startswith("Then: ") for heading in second[3:])


def test_a_starter_comes_once_whatever_it_is_for(class_of) -> None:
    """All parts have the same starter here, and it stands on the first side."""
    assert len(headings(picture_of(*class_of(12, TOPICS)).second[0]())) == 3


def test_each_choice_shows_no_more_than_the_one_before(class_of) -> None:
    picture = picture_of(*class_of(30, TOPICS))
    rows = [next(block.picture.height for block in side() if block.heading == "Who got what") for side in picture.first]
    assert rows == sorted(rows, reverse=True)
    bars = [side()[0].picture.height for side in picture.second]
    assert bars[-1] == min(bars) < bars[0]


def test_withdrawn_papers_are_named_apart_from_those_not_handed_in(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    says = who_is_in(sitting, class_figures(sitting, marked[:1], withdrawn={marked[1].code}))
    assert "1 paper marked; 1 not handed in; 1 withdrawn." in says


def test_absent_learners_are_left_out_and_counted(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    picture = picture_of(sitting, (replace(marked[0], status="absent", marks=()), *marked[2:]))
    (who,) = picture.first[0]()[0].text
    assert "10 papers marked; 1 absent; 1 not handed in." in who
    assert who.startswith("For the tutor, not for learners. Group T, 5 January 2026, sitting ")
    assert marked[0].code not in everything(picture)


def test_papers_go_by_code_and_no_name_stands_anywhere(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    named = replace(
        sitting, papers=tuple(replace(p, learner=replace(p.learner, name="Zoë <b>")) for p in sitting.papers)
    )
    picture = picture_of(named, marked)
    told = everything(picture)
    assert "Zoë" not in told
    assert all(paper.code in told for paper in marked)


def test_no_exercise_and_no_part_is_called_by_its_name_in_the_bank(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    told = everything(picture_of(sitting, marked))
    for exercise in sitting.papers[0].exercises:
        assert exercise.exercise.replace("-", " ") not in told
        assert f"{exercise.topic}: " in told


@pytest.mark.parametrize("waiting", [0, 1, 2])
def test_answers_that_wait_for_a_look_at_the_working_make_the_figures_provisional(class_of, waiting: int) -> None:
    sitting, marked = class_of(3, TOPICS)
    right = [replace(p, marks=tuple(replace(m, marks=m.of, how="right", slips=()) for m in p.marks)) for p in marked]
    first = [replace(m, how="unknown", marks=0) if n < waiting else m for n, m in enumerate(right[0].marks)]
    who, *_, shown = picture_of(sitting, (replace(right[0], marks=tuple(first)), *right[1:])).first[0]()
    assert ("provisional" in who.text[0]) is ("?: still to be settled." in shown.text[0]) is (waiting > 0)
    if waiting:
        assert (
            f"{waiting} answer{'' if waiting == 1 else 's'} wait{'s' if waiting == 1 else ''} for a look" in who.text[0]
        )


def test_answers_that_could_not_be_read_are_told(class_of) -> None:
    sitting, marked = class_of(3, TOPICS)
    opened = replace(marked[0], marks=(replace(marked[0].marks[0], how="asked", marks=0), *marked[0].marks[1:]))
    (who,) = picture_of(sitting, (opened, *marked[1:])).first[0]()[0].text
    assert "1 answer could not be read and earns nothing until settled" in who


@pytest.mark.parametrize(("learners", "said"), [(29, True), (30, False), (31, False)])
def test_a_small_class_is_cautioned_and_a_large_one_is_not(class_of, learners: int, said: bool) -> None:
    told = everything(picture_of(*class_of(learners, ("opening_sizes",), 2)))
    assert (f"So small a class (n = {learners})" in told) is said


def test_many_outcomes_are_cut_to_the_weakest_and_that_is_said(class_of) -> None:
    picture = picture_of(*class_of(12, TOPICS, 12))
    full, least = (picture.second[n]()[2] for n in (0, -1))
    assert "weakest" not in full.text[0]
    assert "The 8 weakest of 12 are shown." in least.text[0]


def test_a_class_without_a_slip_is_told_so(class_of) -> None:
    sitting, marked = class_of(12, TOPICS)
    right = [replace(p, marks=tuple(replace(m, marks=m.of, how="right", slips=()) for m in p.marks)) for p in marked]
    told = everything(picture_of(sitting, right))
    assert "No slip was seen on more than one paper" in told
    assert "No answer showed a slip that has a name." in told


def test_nothing_marked_is_said_and_nothing_shown(class_of) -> None:
    sitting, _ = class_of(3, TOPICS)
    picture = picture_of(sitting, ())
    assert picture.second == ()
    (side,) = picture.first
    assert side()[1].text == ("Nothing is marked yet, so there is nothing to show.",)
    assert "0 papers marked; 3 not handed in." in side()[0].text[0]
