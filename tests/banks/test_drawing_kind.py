"""What a kind of drawing says of itself: its units, and the words that its arguments add."""

from fractions import Fraction

import pytest

from courseware.banks.drawing_kind import DrawingKind, built, own, span
from courseware.trade import UK_METRIC, opening

KIND = DrawingKind(
    arguments={"turn": span(1, 90), "stands": frozenset({"free", "tied"})},
    optional={},
    dimensions={"turn": own("turn"), "long": own("turn")},
    says="a wall",
    units={"turn": "°", "rows": "courses"},
    told={"stands": {"tied": ", tied back"}},
)


@pytest.mark.parametrize(
    ("dimension", "text"), [("turn", "45°"), ("rows", "45 courses"), ("long", "45")]
)  # a sign stands against its figure, a word apart, mm alone: ISO 80000-1, 7.1.4, has no space before ° alone
def test_a_size_in_mm_stands_bare_and_any_other_has_its_unit(dimension, text) -> None:
    assert KIND.labelled(dimension, "45") == text


@pytest.mark.parametrize(("stands", "says"), [("free", "a wall"), ("tied", "a wall, tied back")])
def test_its_words_go_by_the_words_it_is_given(stands, says) -> None:
    assert KIND.in_words({"turn": 45, "stands": stands}) == says


def test_measures_are_those_of_the_trade_core() -> None:
    assert span("1/2", 3) == (Fraction(1, 2), 3)
    assert own("turn")({"turn": 45}, UK_METRIC) == 45
    assert built(opening, "bricks")({"bricks": 4}, UK_METRIC) == 910  # sheet-9, Table 1, CO+
