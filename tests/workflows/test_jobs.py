"""A job found and its worksheet: the same numbers on paper and in the workshop."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from click.testing import CliRunner

from courseware.banks import solve
from courseware.banks.drawing_kinds import DRAWING_KINDS, drawn_figures
from courseware.banks.solve import scope_of
from courseware.banks.space import walk
from courseware.cli import main
from courseware.files.bank_files import shipped_folder
from courseware.jobs.plan import plan_of
from courseware.workflows.jobs import find_job, worksheet
from tests.jobs.a_panel import JOBS


@pytest.mark.parametrize("name", JOBS)
def test_the_worksheet_asks_for_the_figures_of_the_job_itself(name) -> None:
    """The same numbers on paper and in the workshop: the answers are those of the plan."""
    task = find_job(name)
    plan = plan_of(task)
    bank, exercises = worksheet(task)
    assert len(exercises) == len(bank.exercises) - (task.shape.corner == "butted")  # which has no bats
    answers = {}
    for exercise in exercises:
        [given] = list(walk(exercise))
        answers |= scope_of(given, solve(exercise, given))
    assert answers["width"] == plan.width
    assert answers["clear"] == plan.clear
    assert answers["panel_bricks"] == plan.stores.panel_bricks
    assert answers["pieces"] == len(plan.surround.pieces)
    assert answers["cut_bricks"] == plan.stores.surround_bricks
    assert (answers["bottom_top"], answers["top_top"]) == (plan.frame.bottom_height, plan.frame.top_height)


@pytest.mark.parametrize("name", JOBS)
def test_no_exercise_of_the_worksheet_prints_a_size_that_another_asks_for(name) -> None:
    """A worksheet is one paper: a width asked for in one exercise may not stand in another's words or drawing."""
    _, exercises = worksheet(find_job(name))
    for exercise in exercises:
        [given] = list(walk(exercise))
        sizes = [number for part in solve(exercise, given) for number in part.numbers if number.part.unit == "mm"]
        for other in exercises:
            if other is not exercise:
                told = figures_read(other)
                assert not [number.part.name for number in sizes if Fraction(number.answer) in told], other.name


@pytest.mark.parametrize("name", JOBS)
def test_the_order_of_the_worksheet_does_not_print_the_size_of_its_panel(name) -> None:
    _, exercises = worksheet(find_job(name))
    by_name = {exercise.name: exercise for exercise in exercises}
    [given] = list(walk(by_name["panel-of-the-job"]))
    inner = scope_of(given, solve(by_name["panel-of-the-job"], given))
    told = figures_read(by_name["order-of-the-job"])
    assert not {Fraction(inner["inner_bricks"]), Fraction(inner["inner_courses"])} <= told


def figures_read(exercise) -> set[Fraction]:
    """The figures that a learner reads in an exercise: in its words, and as sizes in its drawing."""
    [given] = list(walk(exercise))
    scope = scope_of(given, solve(exercise, given))
    site = {"place": "", "street": "", "client": ""}
    said = " ".join(wording.render(scope, site) for wording in (exercise.pose, *(part.ask for part in exercise.parts)))
    drawn = set()
    if exercise.drawing is not None:
        kind, figures = DRAWING_KINDS[exercise.drawing.kind], drawn_figures(exercise.drawing, scope)
        drawn = {Fraction(kind.dimensions[name](figures, exercise.format)) for name in exercise.drawing.shows}
    return drawn | {Fraction(figure) for figure in re.findall(r"\d+(?:\.\d+)?", said)}


def test_the_worksheets_bank_proves_over_all_that_a_job_may_have() -> None:
    done = CliRunner().invoke(main, ["check", str(shipped_folder() / "jobs" / "worksheet.yaml")])
    assert done.exit_code == 0, done.output
