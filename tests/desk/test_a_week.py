"""A week of a tutor and of an assessor at the desk: by keyboard alone and by mouse, on a phone's width and a wide screen,
and without JavaScript, which every page promises for reading and for plain forms.

From an empty home folder to a learner's data deleted, each page looked over by axe and for its width on the way.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.desk import assessors_week as assessor
from tests.desk import tutors_week as tutor
from tests.desk.hands import PATIENCE, AtTheDesk, Hand, Keyboard, Mouse

NARROW, WIDE = 360, 1280


@pytest.mark.parametrize(
    ("hand", "width", "scripts"),
    [(Keyboard, WIDE, True), (Mouse, NARROW, True), (Keyboard, NARROW, False), (Mouse, WIDE, False)],
    ids=["keyboard-wide", "mouse-narrow", "keyboard-narrow-without-scripts", "mouse-wide-without-scripts"],
)
def test_a_week(
    open_desk: Callable[..., Any], axe_finds: Callable[[Any], list[str]], tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch, hand: Callable[[Any], Hand], width: int, scripts: bool,
) -> None:  # fmt: skip
    files, home = tmp_path / "files", tmp_path / "home"
    files.mkdir()
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    page, desk = open_desk(None, viewport={"width": width, "height": 800}, java_script_enabled=scripts)
    page.set_default_timeout(PATIENCE * 1000)
    page.goto(f"{desk.address.origin}/")
    at = AtTheDesk(hand=hand(page), scripts=scripts, axe_finds=axe_finds, folder=home / "Year 1", faults=[])
    tutor.a_folder_is_made_and_settings_filled_in(at)
    tutor.a_bank_is_written_with_a_fault_and_proved(at)
    tutor.papers_are_made_from_a_messy_list(at, files)
    tutor.somebody_joins_late(at)
    tutor.answers_are_typed(at)
    tutor.what_waits_is_decided(at)
    tutor.the_class_is_seen(at)
    assessor.another_marks_and_takes_a_mark_back(at)
    assessor.what_two_gave_differently_is_settled(at)
    assessor.a_sample_is_drawn_and_its_action_closed(at)
    assessor.marks_are_confirmed_and_released(at)
    assessor.an_appeal_is_heard(at, files)
    tutor.a_job_is_made_with_an_impossible_choice_and_observed(at)
    tutor.practice_is_made_and_read(at, files)
    tutor.somebody_takes_it_again(at)
    assessor.register_criteria_and_times_are_kept(at)
    assessor.one_learners_data_is_given_out_and_deleted(at)
    assert at.faults == []
