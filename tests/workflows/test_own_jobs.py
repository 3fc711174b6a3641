"""A tutor's own jobs: begun from a shipped one, changed in a form, saved with all that no form shows."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.bank_files import NotFound
from courseware.files.own_files import ChangedMeanwhile
from courseware.settings.settings import DEFAULTS
from courseware.workflows.jobs import find_job
from courseware.workflows.own_jobs import (
    JOBS,
    JobCannotBe,
    changed,
    examples,
    open_example,
    open_own,
    own_jobs,
    save_changed,
    save_job,
    task_of,
    tried,
)

OPENING = ("opening", "courses")


def test_a_job_begun_from_a_shipped_one_is_the_tutors_own_with_its_remarks(tmp_path: Path) -> None:
    example = open_example("porch-panel")
    text = changed(example, {("job",): "A panel by the gate", ("bays",): "6", ("learners",): "12"})
    name = save_job(tmp_path, "A panel by the gate", text, DEFAULTS)
    assert name == "a-panel-by-the-gate"
    own = open_own(tmp_path, name)
    assert own.text.splitlines()[0] == example.text.splitlines()[0]  # the remark
    assert [job.title for job in own_jobs(tmp_path)] == ["A panel by the gate"]
    assert find_job(str(tmp_path / JOBS / f"{name}.yaml")) == task_of(own, DEFAULTS)
    assert task_of(own, DEFAULTS).shape.bays == 6


def test_what_the_form_does_not_show_stays(tmp_path: Path) -> None:
    text = open_example("gable-panel").text + "frog: 20  # deep frogs here\nbricks_vary: 4\n"
    own = open_own(tmp_path, save_job(tmp_path, "gable", text, DEFAULTS))
    save_changed(own, changed(own, {OPENING: "18"}), own.mark, DEFAULTS)
    after = open_own(tmp_path, own.name)
    assert after.text == text.replace("courses: 21}", "courses: 18}")
    assert task_of(after, DEFAULTS).shape.frog == 20


def test_a_job_that_cannot_be_built_is_not_saved(tmp_path: Path) -> None:
    own = open_own(tmp_path, save_job(tmp_path, "gable", open_example("gable-panel").text, DEFAULTS))
    wrong = changed(own, {OPENING: "20"})
    with pytest.raises(JobCannotBe) as cannot:
        save_changed(own, wrong, own.mark, DEFAULTS)
    assert [one.value for one in cannot.value.tried.instead if one.key == OPENING] == ["18", "21"]
    assert open_own(tmp_path, "gable").text == own.text
    with pytest.raises(JobCannotBe, match="courses go in threes"):
        save_job(tmp_path, "another", wrong, DEFAULTS)
    assert [job.name for job in own_jobs(tmp_path)] == ["gable"]


def test_two_windows_do_not_write_over_one_another(tmp_path: Path) -> None:
    own = open_own(tmp_path, save_job(tmp_path, "gable", open_example("gable-panel").text, DEFAULTS))
    save_changed(own, changed(own, {("bays",): "3"}), own.mark, DEFAULTS)
    with pytest.raises(ChangedMeanwhile):
        save_changed(own, changed(own, {("bays",): "4"}), own.mark, DEFAULTS)
    assert task_of(open_own(tmp_path, "gable"), DEFAULTS).shape.bays == 3


def test_own_tolerances_stand_before_the_shipped_ones_and_are_no_job(tmp_path: Path) -> None:
    (tmp_path / JOBS).mkdir()
    (tmp_path / JOBS / "tolerances.yaml").write_text(
        "profiles:\n  - name: Our bench\n    level: {mm: 4, over: 1000, pro_rata: false}\n"
        "    size: {mm: 4, over: 1000, pro_rata: false}\n    source: ours\n",
        encoding="utf-8",
    )
    assert own_jobs(tmp_path) == ()
    example = open_example("porch-panel")
    own = changed(example, {("tolerances",): "Our bench"})
    found = tried(example, own, tmp_path, DEFAULTS)
    assert found.task
    assert found.task.profile.name == "Our bench"
    assert "no tolerance profile is named `NHBC" in tried(example, example.text, tmp_path, DEFAULTS).told[0].says


def test_a_file_that_is_no_text_stands_in_the_list_by_its_name(tmp_path: Path) -> None:
    (tmp_path / JOBS).mkdir()
    (tmp_path / JOBS / "strange.yaml").write_bytes(b"\xff\xfe\x00j")
    [job] = own_jobs(tmp_path)
    assert (job.name, job.title, job.text) == ("strange", "strange", "")


def test_a_name_that_nothing_has_is_told(tmp_path: Path) -> None:
    assert {job.name for job in examples()} >= {"porch-panel", "gable-panel"}
    for find in (open_example, lambda name: open_own(tmp_path, name)):
        with pytest.raises(NotFound):
            find("../tolerances")
