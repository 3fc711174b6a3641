"""Sections, read back: what stands out further and further, what is thicker below, and faces of joints."""

from __future__ import annotations

import pytest

from courseware.glossary import section_pictures as section


def lefts(outlines) -> list[float]:
    """The left edges of bricks, from the lowest up."""
    return [min(x for x, _ in o) for o in sorted(outlines, key=lambda o: -max(y for _, y in o))]


def test_a_corbel_steps_out_as_it_rises_and_a_plinth_steps_in(named) -> None:
    out, foot = lefts(named(section.corbel())), lefts(named(section.plinth()))
    assert out == sorted(out, reverse=True)
    assert len(set(out)) == 3
    assert foot == sorted(foot)
    assert foot[0] < foot[-1]


def test_an_oversailing_course_stands_out_from_the_one_below(named) -> None:
    [course] = named(section.oversail())
    assert min(x for x, _ in course) < 0


def test_a_foundation_is_wider_than_its_wall_and_below_it(named) -> None:
    [concrete] = named(section.foundation())
    assert min(x for x, _ in concrete) < 0 < max(x for x, _ in concrete) - 102.5 / 14
    assert min(y for _, y in concrete) >= 0


@pytest.mark.parametrize(
    ("drawn", "top", "middle", "foot"),
    [
        (section.flush_joint, 0, 0, 0),
        (section.recessed_joint, -6, -6, -6),
        (section.weather_struck_joint, -5, None, 0),  # in at the top: livery-glossary
        (section.bucket_handle_joint, 0, -3.5, 0),
    ],
)
def test_a_joint_is_finished_as_its_word_says(heavy, drawn, top, middle, foot) -> None:
    """In mm of wall behind the face, at 1 to 3; depths are for the picture alone."""
    [face] = heavy(drawn())
    assert face[0][0] * 3 == pytest.approx(foot, abs=0.01)
    assert face[-1][0] * 3 == pytest.approx(top, abs=0.01)
    if middle is not None:
        assert min(x for x, _ in face) * 3 == pytest.approx(middle, abs=0.01)
