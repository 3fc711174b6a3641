"""The fields of a job's form: what they ask of a job's file, and what is left as it stands."""

from __future__ import annotations

import pytest

from courseware.desk.job_fields import FIELDS, choices_of, label_of, offered, shown, typed
from courseware.jobs.task import JobShape
from courseware.jobs.tried import Instead

THERE = {("job",): "A panel", ("bays",): "3", ("support",): "returns"}


def asked(**fields: str) -> dict[tuple[str, ...], str | None]:
    return typed(lambda name: fields[name], fields.__contains__, THERE)


def test_every_field_is_a_key_of_a_jobs_file() -> None:
    inner = {
        f"{name}.{key}" for name in ("opening", "wall") for key in JobShape.model_fields[name].annotation.model_fields
    }
    assert set(FIELDS) <= {*JobShape.model_fields, *inner}
    needed = {name for name, field in JobShape.model_fields.items() if field.is_required()} - {"opening", "wall"}
    assert needed <= set(FIELDS)


@pytest.mark.parametrize(
    ("fields", "changes"),
    [
        ({"bays": "4"}, {("bays",): "4"}),
        ({"bays": ""}, {("bays",): ""}),  # needed: told as a fault, not taken out
        ({"support": ""}, {("support",): None}),  # not needed: taken out
        ({"learners": ""}, {}),  # left out, and left out still
        ({"format": "UK_METRIC"}, {}),  # what is meant where none is named
        ({"format": "US_MODULAR"}, {("format",): "US_MODULAR"}),
        ({"job": "  A  low\npanel "}, {("job",): "A low panel"}),
        ({"job": "x" * 300}, {("job",): "x" * 200}),
    ],
)
def test_a_form_changes_what_it_says_and_no_more(fields: dict[str, str], changes: dict) -> None:
    assert asked(**fields) == changes


def test_a_value_that_no_choice_has_can_still_be_chosen() -> None:
    field = FIELDS["tolerances"]
    assert [key for key, _ in choices_of(field, "", ["Our bench"])] == ["", "Our bench"]
    assert [key for key, _ in choices_of(field, "Theirs", ["Our bench"])] == ["Theirs", "", "Our bench"]


def test_keys_are_called_as_the_form_calls_them() -> None:
    assert label_of(("opening", "bricks")) == "Opening, wide"
    assert label_of(("opening",)) == "The opening"
    assert label_of(("frog",)) == "frog"
    assert offered(Instead(key=("opening", "courses"), value="12")) == ("Opening, high: 12 courses", "12")
    assert offered(Instead(key=("format",), value="UK_METRIC")) == ("Brick: UK metric", "UK_METRIC")
    assert shown(THERE)["format"] == "UK_METRIC"
