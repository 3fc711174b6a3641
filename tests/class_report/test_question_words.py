"""What a question is called where its figures differ from paper to paper."""

from __future__ import annotations

from courseware.banks import read_bank
from courseware.class_report.question_words import question_words, without_figures
from courseware.papers.compose import read_sources

BANK = """\
topic: Piers
aim: Work out the length of a pier
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 2 to 9}
    pose: A pier is {{ bricks }} bricks long.
    parts:
      - name: length
        ask: "At {{ place }} the pier grows by {{ bricks }} bricks. How long is a pier of {{ bricks + 1 }} bricks?"
        answer: pier(bricks)
        marks: 1
        working: [{say: Multiply out, value: bricks * module - joint}]
"""


def test_figures_and_names_are_left_open() -> None:
    (exercise,) = read_bank(BANK.encode(), "piers.yaml").exercises
    ask = without_figures(exercise.parts[0].ask)
    assert ask == "At … the pier grows by … bricks. How long is a pier of … bricks?"


def test_every_part_of_a_sitting_is_called_by_its_question_whatever_its_figures(class_of) -> None:
    """Exercise 2 to 7 of the shipped bank of opening sizes; no word is an exercise's or part's name as written there."""
    sitting, _ = class_of(3)
    found = question_words(sitting, read_sources(sitting))
    assert list(found) == [part.label for part in sitting.papers[0].parts]
    assert all(found.values())
    names = {part.name for part in sitting.papers[0].parts if "_" in part.name}
    assert not [words for words in found.values() if any(name in words for name in names)]


def test_a_row_of_a_table_is_called_by_the_question_and_the_row(class_of) -> None:
    sitting, _ = class_of(3, ("course_gauge",), 2)
    found = question_words(sitting, read_sources(sitting))
    rows = [words for label, words in found.items() if "(" in label]
    assert rows
    assert len(set(rows)) > len(rows) / 2, "rows are told apart where more than a figure does"
