"""The centre's settings as a text."""

from __future__ import annotations

from pathlib import Path

from courseware.settings.shapes import CentreShape
from courseware.workflows.centre import (
    FIELDS,
    centre_text,
    faults_of,
    field_values,
    keys_of_centre,
    save_centre,
    with_fields,
)


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


def test_what_is_not_filled_in_leaves_a_text_as_it_is() -> None:
    text = 'name: >-\n  Brookfield\n  College\ncourse: {starts: "2026-09-07", weeks: 9}  # the first year\n'
    assert with_fields(text, field_values(text)) == text
    assert field_values(text)["name"] == "Brookfield College"


def test_every_field_stands_where_the_file_has_a_key_and_its_choices_are_taken() -> None:
    blank = {field.name: "" for field in FIELDS}
    right = {"day_height": "1200", "course.starts": "2026-09-07", "course.weeks": "9"}
    typed = {field.name: right.get(field.name, field.choices[0] if field.choices else "12") for field in FIELDS}
    typed |= {"name": "A college", "upright_joint": "perp"}
    text = with_fields("", typed)
    assert faults_of(text) == ()
    assert field_values(text) == typed
    assert with_fields(text, blank) == ""
