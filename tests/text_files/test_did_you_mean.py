"""A name that is not known: the nearest known one first, all of them after."""

from __future__ import annotations

from courseware.text_files.did_you_mean import near

KNOWN = ["courses", "bricks"]


def test_a_near_miss_is_asked_about_and_all_names_are_told() -> None:
    assert near("brick", KNOWN, "expected one of") == "did you mean `bricks`? expected one of courses, bricks"


def test_a_name_that_is_like_none_is_not_guessed_at() -> None:
    assert near("mortar", KNOWN, "expected one of") == "expected one of courses, bricks"


def test_where_nothing_is_known_the_lead_stands_alone() -> None:
    assert near("mortar", [], "expected none: this is the first") == "expected none: this is the first"
