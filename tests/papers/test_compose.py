"""From a sitting to sheets: what stands on a paper, what on its key, and that the two agree."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from courseware.files.bank_files import shipped_banks
from courseware.papers.compose import compose_key, compose_paper, issued_from, read_sources
from courseware.papers.sitting_file import SittingFaulty, read_sitting, write_sitting

TOPICS = [path.stem for path in shipped_banks()]


@pytest.mark.parametrize("topic", TOPICS)
def test_a_key_repeats_its_paper_word_for_word(composed, topic) -> None:
    sitting, sources = composed(topic)
    paper, key = compose_paper(sitting, 0, sources), compose_key(sitting, 0, sources)
    assert [exercise.asked for exercise in key.exercises] == list(paper.exercises)
    assert key.heading == paper.heading


@pytest.mark.parametrize("topic", TOPICS)
def test_the_marks_of_a_paper_add_up(composed, topic) -> None:
    sitting, sources = composed(topic)
    paper = compose_paper(sitting, 0, sources)
    assert paper.heading.marks == sum(exercise.marks for exercise in paper.exercises)
    for exercise in paper.exercises:
        assert exercise.marks == sum(part.marks for part in exercise.parts)
        for part in exercise.parts:
            assert not part.rows or part.marks == sum(row.marks for row in part.rows)


def test_the_safety_notes_of_a_paper_stand_together_at_the_first_exercise_that_needs_any(composed) -> None:
    """Each that a bank or an exercise of the paper names, once."""
    sitting, sources = composed("")
    exercises = compose_paper(sitting, 0, sources).exercises
    needed = [
        {sources.safety.notes[name][0] for name in (*bank.safety, *exercise.safety)}
        for bank, exercise in (issued_from(issued, sources) for issued in sitting.papers[0].exercises)
    ]
    first = next(place for place, names in enumerate(needed) if names)
    titles = [[note.title for note in exercise.safety] for exercise in exercises]
    assert [bool(each) for each in titles] == [place == first for place in range(len(exercises))]
    assert len(titles[first]) == len(set(titles[first]))
    assert set(titles[first]) == set().union(*needed)


def test_the_centres_rule_for_the_arris_changes_question_and_answer_together(composed) -> None:
    outline, near = (compose_key(*_place(composed("projection_levelling", rule=rule))) for rule in ("outline", "near"))
    asked = [one.asked.pose != other.asked.pose for one, other in zip(outline.exercises, near.exercises, strict=True)]
    answered = [one.answers != other.answers for one, other in zip(outline.exercises, near.exercises, strict=True)]
    assert sum(answered) >= 3
    assert all(told or not changed for told, changed in zip(asked, answered, strict=True))  # the rule is printed


def _place(found: tuple) -> tuple:
    sitting, sources = found
    return sitting, 0, sources


def test_a_sitting_that_says_another_answer_is_refused(composed) -> None:
    """A wrong key is worse than none: what this version finds must be what was issued."""
    sitting, sources = composed("opening_sizes")
    data = json.loads(write_sitting(sitting))
    part = next(p for e in data["papers"][0]["exercises"] for p in e["parts"] if p["kind"] == "number")
    part["answer"] = str(Fraction(part["answer"]) + 1)
    with pytest.raises(SittingFaulty, match=re.escape(f"part {part['label']}")):
        compose_key(read_sitting(json.dumps(data)), 0, sources)


@pytest.mark.parametrize("change", ["given", "exercise", "label"])
def test_a_sitting_that_does_not_fit_its_banks_is_refused(composed, change) -> None:
    sitting, sources = composed("opening_sizes")
    data = json.loads(write_sitting(sitting))
    exercise = data["papers"][0]["exercises"][0]
    if change == "given":
        exercise["given"][next(iter(exercise["given"]))] = "123456"
    elif change == "exercise":
        exercise["exercise"] = "another"
    else:
        exercise["parts"][0]["label"] = "9z"
    with pytest.raises(SittingFaulty):
        compose_paper(read_sitting(json.dumps(data)), 0, sources)


def test_a_numbered_paper_has_its_number_in_place_of_a_name(composed) -> None:
    sitting, sources = composed("opening_sizes")
    unnamed = replace(sitting, papers=tuple(replace(p, learner=replace(p.learner, name="")) for p in sitting.papers))
    assert compose_paper(unnamed, 1, sources).heading.number == "Paper 2 of 3"
    assert compose_paper(sitting, 1, sources).heading.number == ""


def test_the_day_by_which_papers_are_handed_in_stands_at_their_head(composed) -> None:
    sitting, sources = composed("opening_sizes")
    assert compose_paper(sitting, 0, sources).heading.due == ""
    assert compose_paper(replace(sitting, due="2026-12-02"), 0, sources).heading.due == "2 December 2026"


def test_a_sitting_read_back_composes_the_same_sheets(composed) -> None:
    sitting, sources = composed("projection_levelling")
    again = read_sitting(write_sitting(sitting))
    assert again == sitting
    assert compose_key(again, 2, read_sources(again)) == compose_key(sitting, 2, sources)


def test_a_bed_that_is_asked_for_has_no_other_bed_printed_beside_it(composed) -> None:
    sitting, sources = composed("course_gauge")
    pairs = zip(sitting.papers[0].exercises, compose_paper(sitting, 0, sources).exercises, strict=True)
    regauged = ("regauge", "match-the-old", "beds-under", "new-73")
    asked = {e.exercise: a for e, a in pairs}
    lines = {name: asked[name].brick for name in asked if name.startswith(regauged)}
    assert len(lines) == 4
    assert not any("joint" in line or "bed" in line for line in lines.values())


def test_a_sitting_of_an_earlier_version_is_worked_out_as_it_was_issued() -> None:
    """Issued in November 2026, before a sitting kept what it was made with; every answer is compared with its own."""
    sitting = read_sitting(Path(__file__).with_name("sitting_of_an_earlier_version.json").read_text(encoding="utf-8"))
    sources = read_sources(sitting)
    for place, paper in enumerate(sitting.papers):
        key = compose_key(sitting, place, sources)
        assert key.heading.code == paper.code
        assert len(key.exercises) == len(paper.exercises)
    assert sitting.made_with == {}
