"""An order on a paper: never printed in a right order, its pairs told by letters, its marks as marking gives them."""

from __future__ import annotations

import re
from itertools import permutations

import pytest

from courseware.papers.compose import compose_key
from courseware.part_kinds.order.marking import mark_order
from courseware.part_kinds.order.paper import one_order, shuffled_out_of_order


def order(names: str, *before: tuple[str, str], marks: int = 2) -> dict[str, object]:
    steps = [{"name": name, "say": f"Step {name}"} for name in names.split()]
    pairs = [list(pair) for pair in before]
    return {"name": "sequence", "kind": "order", "ask": "In order?", "marks": marks, "steps": steps, "before": pairs}


CHAIN = order("p q r s", ("p", "q"), ("q", "r"), ("r", "s"))
OPEN = order("p q r s", ("p", "s"))
SEEDS = [f"seed {n}" for n in range(60)]


@pytest.mark.parametrize("part", [CHAIN, OPEN, order("p q r", ("r", "p"))])
def test_it_is_printed_out_of_order_and_its_key_puts_it_right(on_paper, part) -> None:
    for seed in SEEDS:
        on = on_paper(part, seed, bricks=4)
        [entry], shown = on.entries, [letter for letter, _ in on.asked.options]
        assert shown == sorted(shown)
        assert any(shown.index(earlier) > shown.index(later) for earlier, later in entry.before)
        letters = entry.answer.split(",")
        assert sorted(letters) == shown
        assert all(letters.index(earlier) < letters.index(later) for earlier, later in entry.before)


def test_letters_go_with_the_words_shown(on_paper) -> None:
    for seed in SEEDS[:10]:
        on = on_paper(CHAIN, seed, bricks=4)
        said = dict(on.asked.options)
        assert [said[letter] for letter in on.entries[0].answer.split(",")] == ["Step p", "Step q", "Step r", "Step s"]
        assert [(said[a], said[b]) for a, b in on.entries[0].before] == [
            ("Step p", "Step q"), ("Step q", "Step r"), ("Step r", "Step s"),
        ]  # fmt: skip


@pytest.mark.parametrize(
    ("part", "right"),
    [
        (CHAIN, "p q r s"),
        (OPEN, "p q r s"),  # the bank's own, where it keeps every pair
        (order("p q r s", ("s", "p")), "q r s p"),  # else nearest to it
        (order("p q r", ("r", "q"), ("q", "p")), "r q p"),
    ],
)
def test_one_right_order_is_the_banks_own_as_far_as_it_keeps_the_pairs(exercise, part, right: str) -> None:
    assert one_order(exercise(parts=[part]).parts[0]) == right.split()


def test_the_same_seed_gives_the_same_order(exercise) -> None:
    [part] = exercise(parts=[CHAIN]).parts
    orders = {tuple(shuffled_out_of_order(part, seed)) for seed in SEEDS}
    assert len(orders) > 10  # of the 23 that are not right
    assert shuffled_out_of_order(part, "x", "y") == shuffled_out_of_order(part, "x", "y")


@pytest.mark.parametrize(
    ("part", "several", "keeps"), [(CHAIN, False, "Kept by: "), (OPEN, True, "Right in any sequence")]
)
def test_a_key_says_whether_other_sequences_are_right(on_paper, part, several: bool, keeps: str) -> None:
    [key] = on_paper(part, bricks=4).key
    assert key.open_order is several
    assert key.notes[0].startswith(keeps)
    assert key.answer == ", ".join(on_paper(part, bricks=4).entries[0].answer.split(","))


@pytest.mark.parametrize(
    ("marks", "says"), [(1, "1 for 3."), (2, "1 for 2, 2 for 3."), (3, "1 for 1, 2 for 2, 3 for 3."), (4, "1 for 1, 2 for 2, 3 for 3, 4 for 3.")]
)  # fmt: skip
def test_a_key_says_what_so_many_pairs_earn(on_paper, marks: int, says: str) -> None:
    part = order("p q r s", ("p", "q"), ("q", "r"), ("r", "s"), marks=marks)
    assert on_paper(part, bricks=4).key[0].notes[1] == f"Marks for pairs kept: {says}"


def test_the_key_of_an_order_says_what_so_many_pairs_kept_earn_in_marking(composed) -> None:
    sitting, sources = composed("sequence_of_work")
    parts = [row for exercise in compose_key(sitting, 0, sources).exercises for row in exercise.by_part]
    orders = [(asked, answers[0]) for asked, answers in parts if asked.kind == "order" and len(asked.options) <= 6]
    assert orders
    for asked, answer in orders:
        keeps, earns = answer.notes
        pairs = re.findall(r"\b([A-G]) before ([A-G])\b", keeps)
        fewest = {int(mark): int(kept) for mark, kept in re.findall(r"(\d+) for (\d+)", earns)}
        assert list(fewest) == list(range(1, asked.marks + 1))
        for written in permutations([letter for letter, _ in asked.options]):
            kept = sum(written.index(earlier) < written.index(later) for earlier, later in pairs)
            said = max((mark for mark, least in fewest.items() if kept >= least), default=0)
            assert mark_order(written, pairs, len(written), asked.marks).marks == said
