"""A scheme of work written for a centre, and a week of it read again."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.course.scheme import CannotPlan
from courseware.files.bank_files import NotFound, shipped_banks
from courseware.settings.settings import Course, Settings
from courseware.workflows.scheme import bank_of_each, lessons_of_week, plan

CENTRE = Settings(course=Course(starts="2026-09-07", weeks=12, topics=("course_gauge", "opening_sizes")))


def test_the_weeks_of_the_table_are_those_that_papers_are_made_from(tmp_path: Path) -> None:
    made = plan(CENTRE, tmp_path, "2026-09-01", anew=False)
    assert [file.name for file in made.files] == ["scheme-of-work.xlsx", "scheme-of-work.pdf"]
    for week in {lesson.week for lesson in made.lessons}:
        assert lessons_of_week(week, made.files[0]) == tuple(one for one in made.lessons if one.week == week)


def test_a_table_that_may_hold_changes_is_written_over_only_when_asked(tmp_path: Path) -> None:
    plan(CENTRE, tmp_path, "2026-09-01", anew=False)
    (tmp_path / "scheme-of-work.xlsx").write_bytes(b"changed")
    with pytest.raises(NotFound, match="may hold your changes"):
        plan(CENTRE, tmp_path, "2026-09-01", anew=False)
    assert (tmp_path / "scheme-of-work.xlsx").read_bytes() == b"changed"
    plan(CENTRE, tmp_path, "2026-09-01", anew=True)
    assert lessons_of_week(1, tmp_path / "scheme-of-work.xlsx")


def test_all_shipped_topics_are_laid_out_where_none_is_named(tmp_path: Path) -> None:
    made = plan(Settings(course=Course(starts="2026-09-07", weeks=30)), tmp_path, "2026-09-01", anew=False)
    assert {lesson.topic for lesson in made.lessons} == {path.stem for path in shipped_banks()}


def test_what_cannot_be_planned_is_told(tmp_path: Path) -> None:
    with pytest.raises(CannotPlan, match="says nothing of your course"):
        plan(Settings(), tmp_path, "2026-09-01", anew=False)
    with pytest.raises(NotFound, match="make one with `courseware plan`"):
        lessons_of_week(1, tmp_path / "scheme-of-work.xlsx")
    made = plan(CENTRE, tmp_path, "2026-09-01", anew=False)
    with pytest.raises(NotFound, match="has nothing in week 13; it has weeks 1"):
        lessons_of_week(13, made.files[0])


def test_a_file_of_safety_notes_is_no_topic() -> None:
    notes = shipped_banks()[0].parent / "safety_notes.yaml"
    with pytest.raises(NotFound, match="holds no exercises"):
        bank_of_each(["course_gauge", str(notes)], Settings())
