"""Who is the same learner over several sittings, and who is never taken for one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.papers.group import Learner
from courseware.papers.people import learner_key, people_of
from courseware.papers.sitting import Sitting


@pytest.fixture
def sitting(dealt) -> Sitting:
    return dealt("opening_sizes", exercises=1)


def group(sitting: Sitting, code: str, *learners: Learner) -> Sitting:
    papers = tuple(
        replace(sitting.papers[0], code=f"{code}{number}", learner=who) for number, who in enumerate(learners)
    )
    return replace(sitting, code=code, papers=papers)


def test_the_same_reference_is_the_same_learner_under_any_name(sitting) -> None:
    one, other = (group(sitting, code, Learner(name=name, reference="12")) for code, name in (("A", "Jo"), ("B", "J.")))
    assert [person.codes for person in people_of([one, other])] == [("A0", "B0")]


def test_the_same_name_in_another_group_is_another_learner(sitting) -> None:
    one = group(sitting, "A", Learner(name="Jo Reed"))
    assert len(people_of([one, replace(group(sitting, "B", Learner(name="jo reed")), group="Other")])) == 2
    assert len(people_of([one, group(sitting, "B", Learner(name="jo reed"))])) == 1


def test_namesakes_and_papers_without_names_are_never_joined(sitting) -> None:
    twice = group(sitting, "A", Learner(name="Jo Reed"), Learner(name="Jo Reed"), Learner(name=""))
    once = group(sitting, "B", Learner(name="Jo Reed"), Learner(name=""))
    assert [person.codes for person in people_of([twice, once])] == [("A0",), ("A1",), ("A2",), ("B0",), ("B1",)]


def test_a_learner_who_is_not_known_has_no_key(sitting) -> None:
    assert learner_key(Learner(name=""), sitting) is None
    assert learner_key(Learner(name="", reference="12"), sitting) == learner_key(
        Learner(name="Jo", reference="12"), sitting
    )
