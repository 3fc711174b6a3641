"""Prompts for the risk assessment: what can hurt on this job, and nothing that it does not have."""

from __future__ import annotations

import pytest

from courseware.jobs.risks import out_of_reach, risk_prompts
from tests.jobs.a_panel import job

HEIGHT = "Working above the ground"


def low(courses: int, *changes: tuple[str, str]):
    """The panel in a wall of few enough courses to be reached from the floor, or nearly."""
    return job(("courses: 24, below: 4", f"courses: {courses}, below: 1"), *changes)


@pytest.mark.parametrize(("courses", "above"), [(19, False), (20, False), (21, True)])
def test_work_above_the_ground_starts_over_1500_mm(courses: int, above: bool) -> None:
    """Common practice, no source. Nineteen courses are 1425 mm, twenty 1500 and twenty-one 1575."""
    plan = low(courses)
    assert out_of_reach(plan) is above
    assert (HEIGHT in {operation for operation, *_ in risk_prompts(plan)}) is above


@pytest.mark.parametrize(("support", "asked"), [("returns", False), ("piers", False), ("props", True)])
def test_props_are_asked_about_where_there_are_some(support: str, asked: bool) -> None:
    prompts = risk_prompts(job(("support: returns", f"support: {support}")))
    assert ("Props" in {operation for operation, *_ in prompts}) is asked
    [green] = [think for operation, _, think in prompts if operation == "The wall while green"]
    assert green.startswith(f"{support} as drawn; no more than 1500 mm up in a day;")


def test_a_wall_that_needs_no_support_is_not_told_of_one() -> None:
    """Free height is the centre's to set; here the wall may stand up to 1800 mm alone."""
    plan = job(("support: returns\n", "free_height: 1800\nday_height: 1200\n"))
    [green] = [think for operation, _, think in risk_prompts(plan) if operation == "The wall while green"]
    assert green.startswith("no more than 1200 mm up in a day;")


def test_every_prompt_names_an_operation_a_harm_and_what_to_think_of() -> None:
    """Cutting, wet cement, carrying and projecting work are on every job of this kind; no blank is left in the words."""
    prompts = risk_prompts(job())
    assert all(operation and hurts and think for operation, hurts, think in prompts)
    assert not any("{" in word for prompt in prompts for word in prompt)
    operations = [operation for operation, *_ in prompts]
    assert operations.count("Cutting") == 3
    assert {"Mixing and laying", "Carrying", "Projecting work", HEIGHT} <= set(operations)
