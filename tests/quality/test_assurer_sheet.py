"""The assurer's sheet: every variant of every question, with what the key has of it, and nobody's name or code."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.drawings.picture import Label
from courseware.papers.compose import compose_key, read_sources
from courseware.quality import assurer_sheet as sheet_module
from courseware.quality.assurer_sheet import assurer_sheet
from courseware.quality.criteria import Criterion, PartEvidence
from courseware.settings.settings import Settings

CENTRE = Settings(name="Brookfield College")  # invented


@pytest.fixture(scope="module")
def sitting(dealt):
    return dealt("opening_sizes", exercises=3)


def sheet_of(sitting, *criteria: Criterion):
    return assurer_sheet(sitting, read_sources(sitting), criteria, CENTRE)


def texts(report) -> str:
    return "\n".join(
        line
        for block in report.blocks
        for line in (
            block.heading,
            *block.text,
            *(cell for row in (block.table.rows if block.table else ()) for cell in row),
        )
    )


def test_each_exercise_has_its_variants_answers_and_slips_as_the_keys_have_them(sitting) -> None:
    report = sheet_of(sitting)
    tables = [block.table for block in report.blocks if block.table]
    sources = read_sources(sitting)
    for place in range(len(sitting.papers)):
        for exercise in compose_key(sitting, place, sources).exercises:
            for answer in (one for answers in exercise.answers for one in answers):
                columns = [table for table in tables if answer.label in table.headings]
                assert any(
                    row[columns[0].headings.index(answer.label)].startswith(answer.answer or "by eye")
                    for row in columns[0].rows
                )
                for slip in answer.slips if place == 0 else ():
                    [row] = [row for table in tables for row in table.rows if row[:2] == (answer.label, slip.says)]
                    assert row[2] == str(slip.earns)
                    assert row[3].split("; ")[0] == slip.figure
    assert all(paper.code not in texts(report) for paper in sitting.papers)
    assert all(paper.learner.name not in texts(report) for paper in sitting.papers)


def test_a_variant_that_two_have_stands_once_with_both_counted(sitting) -> None:
    first, second, third = sitting.papers
    alike = replace(sitting, papers=(first, replace(second, exercises=first.exercises), third))
    table = next(block.table for block in sheet_of(alike).blocks if block.table)
    assert [row[:2] for row in table.rows] == [("1", "2"), ("2", "1")]


def test_level_marks_time_and_the_criteria_served_are_told(sitting) -> None:
    issued = sitting.papers[0].exercises[0]
    part = issued.parts[0]
    serves = Criterion(
        code="BRK-1", says="Sets out", jobs=(),
        parts=(PartEvidence(topic=issued.topic, exercise=issued.exercise, part=part.name, marked_as=(part.name,)),),
    )  # fmt: skip
    report = sheet_of(sitting, serves)
    says = [block.text[0] for block in report.blocks[1:] if block.heading]
    assert says[0].endswith(f"3 variants. Criteria: BRK-1 by {part.label}.")
    assert says[1].endswith("It serves none of the centre's criteria.")
    level = read_sources(sitting).exercises[issued.topic, issued.exercise][1].level
    assert says[0].startswith(f"Level {level}, ")
    assert "minute" in says[0]
    assert "criteria" not in texts(sheet_of(sitting))  # where the centre has none, none is missed


def test_there_is_a_line_to_sign_until_it_is_known_who_approved(sitting) -> None:
    assert "Assurer: ____" in sheet_of(sitting).blocks[0].text[-1]
    approved = sheet_of(replace(sitting, approved_by="Q. Adeyemi")).blocks[0].text
    assert approved[1:] == ("Approved by Q. Adeyemi.",)


@pytest.mark.parametrize(("most", "rows", "told"), [(4, 3, ""), (3, 3, ""), (2, 2, "1 more variant, proved alike")])
def test_of_a_large_class_so_many_variants_are_shown(sitting, monkeypatch, most: int, rows: int, told: str) -> None:
    monkeypatch.setattr(sheet_module, "MOST_VARIANTS", most)
    report = sheet_of(sitting)
    assert len(next(block.table for block in report.blocks if block.table).rows) == rows
    assert ("more variant" in texts(report)) == bool(told)
    assert told in texts(report)


def test_the_drawing_of_variant_1_stands_as_the_key_has_it(dealt) -> None:
    """Beside the words where it fits there; one to draw in at true size below them, whole."""
    for topic in ("opening_sizes", "mitre_template"):
        sitting = dealt(topic)
        report, key = sheet_of(sitting), compose_key(sitting, 0, read_sources(sitting))
        heads = [block for block in report.blocks[1:] if block.heading]
        for block, exercise in zip(heads, key.exercises, strict=True):
            assert (block.picture is None) == (exercise.drawing is None), block.heading
            if block.picture and exercise.drawing:
                assert block.picture.width <= (84 if block.beside else 170)
                shown = " ".join(mark.text for mark in block.picture.marks if isinstance(mark, Label))
                assert all(text in shown for text in exercise.drawing.labels.values() if text), shown
            if exercise.drawing and exercise.drawing.to_draw_in:
                assert not block.beside


def test_words_get_the_width_that_figures_leave() -> None:
    widths = list(sheet_module._widths([11, 12, 60]))
    assert widths == [20, 40, 40]
    assert list(sheet_module._widths([12])) == [50]
    assert list(sheet_module._widths([3] * 5)) == [20] * 5
