"""Learners told from one another by name or reference; numbered papers by neither."""

from __future__ import annotations

import pytest

from courseware.papers.group import Learner, numbered


@pytest.mark.parametrize(
    ("learner", "known"),
    [
        (Learner(name="Amara Okafor"), True),  # invented
        (Learner(name="", reference="0012"), True),
        (Learner(name=""), False),
    ],
)
def test_a_learner_is_known_by_name_or_reference(learner: Learner, known: bool) -> None:
    assert learner.known is known


@pytest.mark.parametrize("count", [0, 1, 30])
def test_a_numbered_group_has_so_many_papers_and_no_names(count: int) -> None:
    group = numbered(count)
    assert (group.name, len(group.learners)) == ("", count)
    assert not any(learner.known for learner in group.learners)
