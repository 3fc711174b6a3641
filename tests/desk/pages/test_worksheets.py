"""Worksheets on a job at the desk: an ordinary sitting, whose figures are the job's."""

from __future__ import annotations

import pytest

from courseware.files.sitting_folders import find_folders
from courseware.workflows.class_lists import keep_list
from tests.desk.conftest import Sitter, finished, words

PORCH = "/jobs/examples/porch-panel"


def test_worksheets_are_issued_for_a_class_list(client: Sitter) -> None:
    """The porch's opening is 3 bricks by 12 courses, on every paper of the sitting."""
    kept, _ = keep_list(client.desk.folder, b"Name,Reference\nAmara Okafor,A1\nZo\xc3\xab O'Brien,A3\n", "Masons.csv")
    assert f'value="{kept.key}"' in client.get(PORCH).text
    said = finished(client, client.fill(f"{PORCH}/worksheets", {"list": kept.key}))
    assert "2 papers made, each with its key." in said
    found, _ = find_folders([client.desk.out])
    [sitting] = [one.sitting for one in found if one.sitting.title.startswith("Worksheet")]
    assert [paper.learner.name for paper in sitting.papers] == ["Amara Okafor", "Zo\u00eb O'Brien"]
    assert {one.given["courses"] for paper in sitting.papers for one in paper.exercises if "courses" in one.given} == {
        "12"
    }


@pytest.mark.parametrize(
    "asked", [{"list": "../x"}, {"learners": "0"}, {"learners": "1001"}, {"learners": "\u00b2"}, {}]
)
def test_what_cannot_be_is_told_and_issues_nothing(client: Sitter, asked: dict[str, str]) -> None:
    assert "Nothing was issued." in client.done(f"{PORCH}/worksheets", asked)
    assert client.desk.jobs.all() == ()


def test_bricks_that_have_no_worksheets_are_not_asked_about(client: Sitter) -> None:
    assert "Issue worksheets" in words(client.get(PORCH).text)
    assert "Issue worksheets" not in words(client.get(f"{PORCH}?format=US_MODULAR").text)
