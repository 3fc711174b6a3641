"""Invented people and places: of all shapes that sheets must hold, the same for the same number in one process."""

from __future__ import annotations

import re

from courseware.papers.invented import invented_group, invented_site


def test_a_site_has_the_three_words_that_settings_may_use() -> None:
    site = invented_site(7)
    assert set(site) == {"place", "street", "client"}
    assert all(re.fullmatch(r"[A-Z][\w'’. -]+", word) for word in site.values())
    assert len(site["street"].split()) >= 2


def test_the_same_number_gives_the_same_and_another_another() -> None:
    assert invented_site(7) == invented_site(7)
    assert len({tuple(invented_site(number).values()) for number in range(20)}) == 20
    assert invented_group(3, 1) == invented_group(3, 1)
    assert invented_group(3, 1) != invented_group(3, 2)


def test_what_was_drawn_before_changes_nothing() -> None:
    first = invented_site(7)
    invented_group(5, 3)
    assert invented_site(7) == first


def test_a_group_has_so_many_learners_with_names_of_two_words_and_references() -> None:
    group = invented_group(12, 5)
    assert group.name
    assert len(group.learners) == 12
    for learner in group.learners:
        assert len(learner.name.split()) >= 2
        assert re.fullmatch(r"BL-\d{4}", learner.reference)
