"""The centre's settings as a text."""

from __future__ import annotations

from pathlib import Path

from courseware.settings.shapes import CentreShape
from courseware.workflows.centre import centre_text, faults_of, keys_of_centre, save_centre


def test_a_text_without_faults_is_written_and_read_back(tmp_path: Path) -> None:
    file = tmp_path / "centre.yaml"
    assert centre_text(file).text == ""
    saved = save_centre(file, "name: Brookfield Trades College")
    assert saved.faults == ()
    assert centre_text(file) == saved


def test_a_text_with_faults_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    file = tmp_path / "centre.yaml"
    save_centre(file, "name: A")
    [fault] = save_centre(file, "name: A\nmortar: mud").faults
    assert fault.line == 2
    assert faults_of("name: A\nmortar: mud") == (fault,)
    assert centre_text(file).text == "name: A\n"


def test_letters_that_no_file_can_hold_are_a_fault(tmp_path: Path) -> None:
    assert faults_of("name: \ud800") != ()


def test_every_key_is_listed_with_what_it_settles() -> None:
    assert [key for key, _ in keys_of_centre()] == list(CentreShape.model_fields)
    assert all(says for _, says in keys_of_centre())
