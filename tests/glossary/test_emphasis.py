"""What is named is darker than all else, so that it shows on a photocopy too."""

from __future__ import annotations

from courseware.glossary.emphasis import dark, hollow, light, line, span, thin

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


def test_what_is_named_is_darker_by_fill_and_pen() -> None:
    [named], [other] = dark(SQUARE), light(SQUARE)
    assert other.fill - named.fill > 0.5
    assert named.weight > 2 * other.weight
    assert named.grey < other.grey


def test_a_line_that_is_named_is_heavier_than_one_that_helps() -> None:
    [named], [other] = line(SQUARE[:2]), thin(SQUARE[:2])
    assert named.weight > 3 * other.weight  # extra wide to narrow: 0.7 to 0.18 (iso-128, part 23)


def test_a_gap_is_hatched_in_a_frame() -> None:
    frame, hatched = hollow(SQUARE)
    assert frame.fill == 1.0
    assert len(hatched.outlines) > 3


def test_a_length_has_a_stroke_across_each_end() -> None:
    [level] = span((0.0, 5.0), (20.0, 5.0), 1.0)
    assert level.outlines == (((0.0, 5.0), (20.0, 5.0)), ((0.0, 4.0), (0.0, 6.0)), ((20.0, 4.0), (20.0, 6.0)))
    [plumb] = span((5.0, 0.0), (5.0, 20.0), 1.0)
    assert plumb.outlines[1] == ((4.0, 0.0), (6.0, 0.0))


def test_nothing_light_is_no_stroke() -> None:
    assert light() == ()
