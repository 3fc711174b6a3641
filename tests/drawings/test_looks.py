"""Kinds of brick told apart on a photocopy: by a grey that stays apart, or by a mark, or by how the brick stands."""

from __future__ import annotations

from itertools import combinations

import pytest
from shapely.geometry import LineString, box

from courseware.drawings import dimension
from courseware.drawings.looks import LOOKS, bricks_of

STANDS = {"soldier"}  # on end: seen without a mark
COPIED = 0.1  # greys nearer than this run together in a copier: common practice, no source


@pytest.mark.parametrize(("one", "other"), list(combinations(LOOKS, 2)))
def test_two_kinds_differ_without_their_greys(one, other) -> None:
    a, b = LOOKS[one], LOOKS[other]
    if {one, other} & STANDS or {one, other} in ({"special", "corner piece"}, {"old", "out"}, {"whole", "plain"}):
        return  # a corner piece is a special; old work and what stands out are never in one drawing
    assert a.mark != b.mark or abs(a.fill - b.fill) >= COPIED
    assert a.says != b.says


@pytest.mark.parametrize("kind", LOOKS)
def test_a_mark_lies_within_its_brick_and_an_outline_is_in_its_grey(kind) -> None:
    brick = dimension.box(10, 10, 20, 13)
    first, *marks = bricks_of(kind, (brick,))
    assert first.outlines == (brick,)
    assert first.fill == LOOKS[kind].fill
    runs = [LineString(run) for mark in marks for run in mark.outlines]
    assert len(runs) == 0 if not LOOKS[kind].mark else len(runs) > 0
    assert all(box(10, 10, 20, 13).buffer(1e-6).covers(run) for run in runs)
    count = {"": 0, "stroke": 1, "cross": 2}.get(LOOKS[kind].mark)
    assert count in (None, len(runs))


def test_a_kind_without_bricks_draws_nothing_and_narrow_joints_want_a_fine_pen() -> None:
    assert bricks_of("half", ()) == ()
    brick = dimension.box(0, 0, 4, 1)
    assert bricks_of("whole", (brick,))[0].weight == 0.18
    assert bricks_of("whole", (brick,), fine=True)[0].weight == 0.13


def test_what_the_legend_says_has_no_figure_in_it() -> None:
    assert not any(letter.isdigit() for look in LOOKS.values() for letter in look.says)
