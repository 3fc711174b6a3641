"""Which rows and columns the heat map has: papers and parts where they fit, bands and exercises where they do not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.class_report.figures import ClassFigures, OutcomeFigures, class_figures
from courseware.class_report.heat_table import MOST_DIGITS, MOST_MARKS, MOST_PAPERS, MOST_SHARES, heat_table
from courseware.class_report.papers_counted import ClassPapers
from courseware.marking.marks import How, Mark, MarkedPaper
from courseware.papers.group import Learner
from courseware.papers.sitting import IssuedPaper


@pytest.fixture(scope="module")
def figures_of(class_of):
    """Figures of so many papers of so many exercises of so many parts of two marks; each paper's marks as told."""
    figures = class_figures(*class_of(1))

    def make(papers: int, exercises: int, parts: int, got=lambda paper, place: (paper + place) % 3, how: How = "right"):
        labels = [f"{n}{'abcdefghij'[k]}" for n in range(1, exercises + 1) for k in range(parts)]
        counted = tuple(
            (
                IssuedPaper(code=f"CODE-{n:03}", learner=Learner(name=f"Name {n}"), exercises=()),
                MarkedPaper(
                    code=f"CODE-{n:03}",
                    status="",
                    marks=tuple(
                        Mark(label=label, marks=got(n, place), of=2, how=how, why="")
                        for place, label in enumerate(labels)
                    ),
                ),
            )
            for n in range(papers)
        )
        outcomes = tuple(
            OutcomeFigures(
                topic="T",
                exercise=str(n),
                labels=tuple(labels[n * parts : (n + 1) * parts]),
                of=2 * parts,
                facility=None,
            )
            for n in range(exercises)
        )
        one = figures.parts[0]
        return replace(
            figures,
            papers=ClassPapers(counted=counted, absent=0, missing=0, unfinished=0),
            parts=tuple(replace(one, label=label, of=2) for label in labels),
            outcomes=outcomes,
        )

    return make


@pytest.mark.parametrize(
    ("papers", "single"),
    [(1, True), (MOST_PAPERS - 1, True), (MOST_PAPERS, True), (MOST_PAPERS + 1, False), (200, False)],
)
def test_each_paper_has_a_row_while_they_fit(figures_of, papers: int, single: bool) -> None:
    table = heat_table(figures_of(papers, 3, 2))
    assert table.papers is single
    assert len(table.rows) == papers if single else len(table.rows) <= MOST_PAPERS


@pytest.mark.parametrize(("of", "most"), [(2, MOST_DIGITS), (9, MOST_DIGITS), (10, MOST_MARKS)])
def test_each_part_has_a_column_while_figures_of_marks_fit(figures_of, of: int, most: int) -> None:
    for parts in (most - 1, most, most + 1):
        figures = figures_of(3, parts, 1)
        figures = replace(figures, parts=(replace(figures.parts[0], of=of), *figures.parts[1:]))
        table = heat_table(figures)
        assert table.parts is (parts <= most)
        assert len(table.columns) == parts if parts <= most else len(table.columns) <= MOST_SHARES


@pytest.mark.parametrize(("parts", "own"), [(MOST_SHARES - 1, True), (MOST_SHARES, True), (MOST_SHARES + 1, False)])
def test_shares_take_more_room_than_marks(figures_of, parts: int, own: bool) -> None:
    assert heat_table(figures_of(200, parts, 1)).parts is own


def test_many_parts_are_shown_by_exercise_and_many_exercises_by_runs(figures_of) -> None:
    by_exercise = heat_table(figures_of(200, 10, 4))
    assert [column.label for column in by_exercise.columns] == [str(n) for n in range(1, 11)]
    assert all(column.begins and column.of == 8 for column in by_exercise.columns)
    by_run = heat_table(figures_of(200, 92, 4))
    assert len(by_run.columns) <= MOST_SHARES
    assert [column.label for column in by_run.columns][:2] == ["1–4", "5–8"]
    assert sum(column.of for column in by_run.columns) == 92 * 8


def test_rows_are_codes_with_their_marks_and_never_names(figures_of) -> None:
    table = heat_table(figures_of(3, 2, 2))
    assert [(row.label, row.total) for row in table.rows] == [("CODE-000", "3"), ("CODE-001", "4"), ("CODE-002", "5")]
    assert [cell.text for cell in table.rows[1].cells] == ["1", "2", "0", "1"]
    assert [cell.share for cell in table.rows[1].cells] == [0.5, 1.0, 0.0, 0.5]
    assert [column.begins for column in table.columns] == [True, False, True, False]


@pytest.mark.parametrize(
    ("how", "text", "open"),
    [
        ("blank", "–", False),
        ("unreached", "–", False),
        ("asked", "?", True),
        ("unknown", "?", True),
        ("slip", "0", False),
    ],
)
def test_what_is_blank_and_what_is_open_has_a_sign(figures_of, how: How, text: str, open: bool) -> None:
    cell = heat_table(figures_of(1, 1, 1, got=lambda *_: 0, how=how)).rows[0].cells[0]
    assert (cell.text, cell.open) == (text, open)


def test_an_exercise_with_something_open_says_so_beside_its_marks(figures_of) -> None:
    figures: ClassFigures = figures_of(1, 24, 2, got=lambda _, place: 1 if place == 0 else 0, how="unknown")
    assert [cell.text for cell in heat_table(figures).rows[0].cells][:2] == ["1?", "0?"]


def test_bands_go_from_the_highest_marks_down_keep_equal_totals_together_and_lose_no_paper(figures_of) -> None:
    """Sixty papers of 0 to 59 marks and none equal: bands of like number."""
    table = heat_table(figures_of(60, 30, 1, got=lambda paper, place: min(2, max(0, paper - 2 * place))), 10)
    assert not table.papers
    assert [row.label for row in table.rows][:2] == ["54 to 59: 6 papers", "48 to 53: 6 papers"]
    assert table.rows[0].total == "94", "339 of 6 × 60 marks"
    same = heat_table(figures_of(60, 3, 1, got=lambda *_: 1), 10)
    assert [row.label for row in same.rows] == ["3: 60 papers"]
    assert [cell.text for cell in same.rows[0].cells] == ["50", "50", "50"]
