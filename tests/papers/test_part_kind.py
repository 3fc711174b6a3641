"""What papers ask of every kind of part: labels, the sitting's entries of each part, an entry without a figure."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.banks import solve
from courseware.banks.part_kinds import listed_kinds
from courseware.banks.solve import scope_of
from courseware.papers.part_kind import (
    PAPER_KINDS,
    KindOnPaper,
    entries_by_part,
    entry_of,
    holds_figure,
    labels,
    question,
)

ROW = {"say": "How much?", "answer": "bricks", "marks": 1, "working": [{"say": "So many", "value": "bricks"}]}
TABLE = {"name": "rows", "kind": "table", "ask": "Fill in.", "rows": [{**ROW, "name": "one"}, {**ROW, "name": "two"}]}
DRAWN = {"name": "sketch", "kind": "drawn", "ask": "Draw it.", "points": ["a", "b"], "marks": 2}


@pytest.fixture(scope="module")
def parts(exercise, number):
    """A figure, a table of two rows and a drawing, issued as exercise 3 of a paper."""
    made = exercise(parts=[number(unit="mm"), TABLE, DRAWN])
    given = {"bricks": 4}
    solved = solve(made, given)
    scope, issued = scope_of(given, solved), []
    for place, part in enumerate(solved):
        kind = PAPER_KINDS[part.part.kind]
        issued += kind.issue(part, labels(3, part.part, place), scope, {}, ("seed", "paper", made.name))
    return made, tuple(issued)


def issued_with(entries):
    from courseware.papers.sitting import IssuedExercise

    return IssuedExercise(topic="Piers", exercise="pier-length", given={}, site={}, setting="", parts=tuple(entries))


def test_each_part_is_labelled_by_its_exercise_and_place_and_each_row_of_a_table(parts) -> None:
    made, issued = parts
    assert [entry.label for entry in issued] == ["3a", "3b(i)", "3b(ii)", "3c"]
    assert labels(12, made.parts[2], 2) == ("12c",)


def test_a_sittings_entries_are_found_part_by_part(parts) -> None:
    made, issued = parts
    found = entries_by_part(made, issued_with(issued), 3)
    assert found == ((issued[0],), (issued[1], issued[2]), (issued[3],))
    assert entries_by_part(made, issued_with(issued)) == found


@pytest.mark.parametrize(
    "change",
    [
        lambda entries: entries[:-1],
        lambda entries: (entries[0], entries[2], entries[1], entries[3]),
        lambda entries: (replace(entries[0], marks=2), *entries[1:]),
        lambda entries: (replace(entries[0], name="other"), *entries[1:]),
        lambda entries: (replace(entries[0], unit="m"), *entries[1:]),
        lambda entries: (replace(entries[0], kind="drawn"), *entries[1:]),
        lambda entries: (replace(entries[0], shown=(0,)), *entries[1:]),
        lambda entries: (*entries[:3], replace(entries[3], kind="number")),
    ],
)
def test_entries_that_are_not_the_exercises_own_parts_are_none(parts, change) -> None:
    made, issued = parts
    assert entries_by_part(made, issued_with(change(issued))) is None


def test_entries_under_another_exercises_number_are_none(parts) -> None:
    made, issued = parts
    assert entries_by_part(made, issued_with(issued), 2) is None


def test_a_figure_is_told_from_letters_and_ticks(parts) -> None:
    _, issued = parts
    assert [holds_figure(entry) for entry in issued] == [True, True, True, False]


def test_an_entry_without_a_figure_has_no_unit_band_or_slips(parts) -> None:
    made, _ = parts
    entry = entry_of(made.parts[2], "3c", "B", [1, 0], (("A", "B"),))
    assert (entry.label, entry.name, entry.kind, entry.marks) == ("3c", "sketch", "drawn", 2)
    assert (entry.answer, entry.shown, entry.before) == ("B", (1, 0), (("A", "B"),))
    assert (entry.unit, entry.within, entry.slips) == ("", "", ())


def test_a_question_is_labelled_by_its_part_though_its_entries_are_rows(parts) -> None:
    made, issued = parts
    asked = question(made.parts[1], issued[1:3], {"bricks": 4}, {})
    assert (asked.label, asked.kind, asked.ask, asked.marks) == ("3b", "table", "Fill in.", 2)


def test_every_kind_that_papers_issue_is_known_to_them() -> None:
    assert {name for name in listed_kinds() if isinstance(PAPER_KINDS.get(name), KindOnPaper)} >= {
        "number", "choice", "order", "table", "drawn",
    }  # fmt: skip
