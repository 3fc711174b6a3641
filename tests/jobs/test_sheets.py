"""What the sheets of a job say, and that each prints as an accessible PDF, the same bytes each time."""

from __future__ import annotations

import re
from fractions import Fraction

import page
import pytest

from courseware.jobs.plan import plan_of
from courseware.jobs.plan_view import plan_view
from courseware.jobs.sheets import job_sheets
from courseware.jobs.task import read_task
from courseware.printing.render import job_pdf
from courseware.workflows.jobs import find_job
from tests.jobs.a_panel import JOB, JOBS, PROFILES, job


@pytest.mark.parametrize("name", JOBS)
def test_every_job_sheet_draws_its_wall_from_above(name: str) -> None:
    plan = plan_of(find_job(name))
    sheet = next(sheet for sheet in job_sheets(plan, None, "2026-01-05") if sheet.file == "job-sheet")
    [drawn] = [block.picture for block in sheet.blocks if block.heading == "The wall from above"]
    assert drawn == plan_view(plan)
    says = {
        "returns": "the returns at both ends",
        "piers": "the piers at both ends",
        "props": "a prop and its board to each side",
    }
    assert says[plan.task.shape.support] in drawn.alt


def test_practice_mortar_has_lime_for_cement() -> None:
    """The sixth part of 0.3427 m³ is 57 litres; bricks in it are used again, those in cement mortar are not."""
    shown = {}
    for mortar in ("cement", "practice"):
        task = read_task(JOB.replace("mortar: cement", f"mortar: {mortar}").encode(), "job.yaml", PROFILES)
        plan = plan_of(task)
        shown[mortar] = str(next(s for s in job_sheets(plan, None, "") if s.file == "stores-order"))
    assert plan.stores.cement_bags == 0
    assert 57 <= plan.stores.lime_litres <= 58
    assert "Lime" in shown["practice"]
    assert "cleaned and stacked" in shown["practice"]
    assert "Cement" in shown["cement"]
    assert "not laid again" in shown["cement"]


def test_one_of_a_thing_is_written_as_one() -> None:
    plan = job(("bays: 3", "bays: 1"), ("ahead: 3", "ahead: 1"), ("hours: 6", "hours: 1"))
    words = " ".join(str(sheet) for sheet in job_sheets(plan, None, "2026-01-05"))
    assert "never more than 1 course above" in words
    assert "1 hour." in words
    assert "'1 bay'" in words
    for wrong in ("1 courses", "1 hours", "'1 bays'", "1 bays"):
        assert not re.search(rf"(?<![0-9.]){wrong}", words)


@pytest.mark.parametrize(("format", "apart", "top"), [("UK_METRIC", 4, "300"), ("GERMAN_NF", 3, "250")])
def test_the_rod_counts_as_the_trade_does(format: str, apart: int, top: str) -> None:
    """Four courses to 300 mm: a livery company's glossary. Three of German NF to 250 mm: DIN 4172."""
    plan = job(("job: A panel", f"job: A panel\nformat: {format}"))
    sheet = next(sheet for sheet in job_sheets(plan, None, "") if sheet.file == "job-sheet")
    rod = next(block.table for block in sheet.blocks if block.heading.startswith("Gauge rod"))
    tops = dict(pair for row in rod.rows for pair in zip(row[::2], row[1::2], strict=True))
    assert tops[str(apart)] == top
    gauge = next(line for line in plan.lines if line.what.startswith("Gauge, "))
    assert (gauge.what, str(gauge.target)) == (f"Gauge, {'four' if apart == 4 else 'three'} courses of the wall", top)
    assert {str(n) for n in range(apart, 25, apart)} <= set(tops)


@pytest.mark.parametrize("name", JOBS)
def test_every_shipped_job_is_safe_to_build(name: str) -> None:
    task = find_job(name)
    sheets = {sheet.file: str(sheet) for sheet in job_sheets(plan_of(task), None, "2026-01-05")}
    assert task.shape.support
    assert "Support: " in sheets["job-sheet"]
    assert "In a day the wall goes up 1200 mm at most, which is 16 courses" in sheets["job-sheet"]
    assert "a green wall can go over" in sheets["risk-prompts"]
    assert f"{task.shape.support} as drawn; no more than 1200 mm up in a day" in sheets["risk-prompts"]
    assert ("a prop knocked away" in sheets["risk-prompts"]) == (task.shape.support == "props")
    assert "5 January 2026" in sheets["job-sheet"]


def test_the_course_at_the_head_of_the_opening_is_the_same_course_on_the_rod(plan) -> None:
    """Both tables count courses from the floor."""
    of_wall = plan.task.shape.wall.below + plan.task.shape.opening.courses
    figures = dict(plan.figures)
    head = figures[f"Top of course {of_wall} of the wall, at the head of the opening"]
    sheet = next(sheet for sheet in job_sheets(plan, None, "2026-01-05") if sheet.file == "job-sheet")
    rod = next(block.table for block in sheet.blocks if block.heading.startswith("Gauge rod"))
    tops = dict(pair for row in rod.rows for pair in zip(row[::2], row[1::2], strict=True))
    assert f"{tops[str(of_wall)]} mm" == head
    assert tops["4"] == "300"  # four courses to 300 mm: a livery company's glossary


def test_bats_are_cut_as_many_of_each_hand() -> None:
    """A mitred corner has one of each hand, four corners to a bay."""
    assert "Cut 4 of each hand for a bay." in str(next(s for s in job_sheets(job(), None, "") if s.file == "templates"))


@pytest.mark.parametrize("name", JOBS)
def test_every_sheet_conforms_and_prints_the_same_bytes(name) -> None:
    plan = plan_of(find_job(name))
    for sheet in job_sheets(plan, None, "2026-01-05"):
        pdf = job_pdf(sheet)
        report = page.validate_pdf_bytes(pdf, profile="ua1")
        assert report.is_compliant, (sheet.file, [failure.message for failure in report.failures])
        assert job_pdf(sheet) == pdf


@pytest.mark.parametrize("format", ["GERMAN_NF", "US_MODULAR"])
def test_a_job_in_another_brick_is_worked_out_in_that_brick(format) -> None:
    """German NF: an opening of 4 bricks is 1010 mm (din-4172). US modular: brick and joint are 8 in (Technical Notes 10B)."""
    task = read_task(JOB.replace("job: A panel", f"job: A panel\nformat: {format}").encode(), "job.yaml", PROFILES)
    plan = plan_of(task)
    assert plan.width == {"GERMAN_NF": 1010, "US_MODULAR": Fraction("25.4") * (32 + Fraction(3, 8))}[format]
    for sheet in job_sheets(plan, None, "2026-01-05"):
        assert page.is_pdf_compliant_bytes(job_pdf(sheet), profile="ua1")


@pytest.mark.parametrize("name", JOBS)
def test_risk_prompts_say_first_what_comes_before_them_and_end_with_no_line_alone(name: str) -> None:
    sheet = next(
        sheet for sheet in job_sheets(plan_of(find_job(name)), None, "2026-01-05") if sheet.file == "risk-prompts"
    )
    assert any("come first" in line for line in sheet.blocks[0].text)
    assert sheet.blocks[-1].table or sheet.blocks[-1].heading
