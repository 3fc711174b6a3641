"""Values changed in a file's text: what is read then is what was asked, and not a sign else has changed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.text_files.faults import BankFaulty
from courseware.text_files.yaml_edit import with_values
from courseware.text_files.yaml_text import read_yaml
from courseware.text_files.yaml_tree import plain_data

FILE = """\
# A tutor's own remark.
job: A panel  # for the second years
bays: 3
opening: {bricks: 4, courses: 15}   # as drawn
wall:
  bricks: 8
  # a remark within
  courses: 24
mix: "1:5"
notes:
  - keep the offcuts
  - {who: tutor}
# the end
"""


@pytest.mark.parametrize(
    ("changes", "old", "new"),
    [
        ({("bays",): "4"}, "bays: 3", "bays: 4"),
        ({("bays",): "3"}, "", ""),
        ({("job",): "A low panel"}, "job: A panel  #", 'job: "A low panel"  #'),
        ({("mix",): "1:1:6"}, '"1:5"', '"1:1:6"'),
        ({("opening", "courses"): "18"}, "courses: 15}", "courses: 18}"),
        ({("opening", "bricks"): None}, "{bricks: 4, courses: 15}", "{courses: 15}"),
        ({("opening", "courses"): None}, "{bricks: 4, courses: 15}", "{bricks: 4}"),
        ({("opening", "format"): "x"}, "courses: 15}", "courses: 15, format: x}"),
        ({("wall", "courses"): "21"}, "courses: 24", "courses: 21"),
        ({("wall", "below"): "4"}, "courses: 24\n", "courses: 24\n  below: 4\n"),
        ({("wall", "courses"): None}, "  courses: 24\n", ""),
        ({("mix",): None}, 'mix: "1:5"\n', ""),
        ({("waste",): "10"}, "  - {who: tutor}\n", "  - {who: tutor}\nwaste: 10\n"),
        ({("frame", "deep"): "5"}, "  - {who: tutor}\n", "  - {who: tutor}\nframe: {deep: 5}\n"),
        ({("notes",): "none"}, "notes:\n  - keep the offcuts\n  - {who: tutor}\n", "notes: none\n"),
        ({("wall",): "none"}, "wall:\n  bricks: 8\n  # a remark within\n  courses: 24\n", "wall: none\n"),
        ({("bays", "deep"): "5"}, "bays: 3", "bays: {deep: 5}"),
    ],
)
def test_only_the_value_asked_for_changes(changes: dict, old: str, new: str) -> None:
    assert old in FILE
    assert with_values(FILE, changes, "job.yaml") == FILE.replace(old, new, 1)


@pytest.mark.parametrize(
    ("text", "changes", "result"),
    [
        ("{a: 1}", {("b",): "2"}, "{a: 1, b: 2}"),
        ("{a: 1, }", {("b",): "2"}, "{a: 1, b: 2}"),
        ("{a: {}}", {("a", "b"): "2"}, "{a: {b: 2}}"),
        ("a:\nb: 1\n", {("a",): "2"}, "a: 2\nb: 1\n"),
        ("a:\nb: 1\n", {("a", "c"): "2"}, "a: {c: 2}\nb: 1\n"),
        ("a: 1", {("b",): "2"}, "a: 1\nb: 2\n"),
        ("a: |\n  words\n  more\nb: 1\n", {("a",): "2"}, "a: 2\nb: 1\n"),
        ("a:\n- 1\nb: 1\n", {("a",): "2"}, "a: 2\nb: 1\n"),
    ],
)
def test_however_the_file_is_written(text: str, changes: dict, result: str) -> None:
    made = with_values(text, changes, "x.yaml")
    assert plain_data(read_yaml(made.encode(), "x.yaml")) == plain_data(read_yaml(result.encode(), "x.yaml")), made


VALUES = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Zl", "Zp"))).filter(
    lambda text: "\x85" not in text
)


@given(VALUES, VALUES, VALUES)
def test_whatever_is_written_is_read_again(job: str, bricks: str, waste: str) -> None:
    made = with_values(FILE, {("job",): job, ("opening", "bricks"): bricks, ("waste",): waste}, "job.yaml")
    data = plain_data(read_yaml(made.encode(), "job.yaml"))
    assert (data["job"], data["opening"]["bricks"], data["waste"]) == (job, bricks, waste)
    assert with_values(made, {("job",): "A panel"}, "job.yaml").splitlines()[2:] == made.splitlines()[2:]


def test_a_text_that_does_not_read_is_refused_with_its_line() -> None:
    with pytest.raises(BankFaulty, match=r"^job.yaml:2:"):
        with_values("a: 1\na: 2\n", {("a",): "3"}, "job.yaml")


def test_a_file_that_holds_nothing_yet_gets_its_keys_and_keeps_its_remarks() -> None:
    assert with_values("", {("a", "b"): "1"}, "centre.yaml") == "a: {b: 1}\n"
    assert with_values("# ours", {("a",): "1", ("b",): "2"}, "centre.yaml") == "# ours\na: 1\nb: 2\n"


def test_a_map_goes_with_its_last_key_and_neighbours_are_taken_away_together() -> None:
    text = "a: {b: 1, c: 2}\nd: 3\n"
    assert with_values(text, {("a", "b"): None, ("a", "c"): None}, "centre.yaml") == "d: 3\n"
