"""A choice on a paper: its choices shuffled for each paper, and a key whose letters go with that order."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.papers.part_kind import PAPER_KINDS
from courseware.papers.sitting_file import SittingFaulty
from courseware.part_kinds.choice.paper import why_wrong

ONE = {
    "name": "which", "kind": "choice", "ask": "Which is {{ bricks }}?", "marks": 1, "answer": "bricks",
    "working": [{"say": "Count them", "value": "bricks"}],
    "choices": [{"say": f"It is {n}", "value": str(n), **({"says": f"Why not {n}: counted {n}"} if n == 3 else {})} for n in (2, 3, 4, 5)],
}  # fmt: skip
SEVERAL = {
    "name": "which", "kind": "choice", "ask": "Which?", "marks": 2, "several": True,
    "choices": [{"say": f"More than {n}", "right": f"bricks > {n}", "check": f"{n} < bricks"} for n in (2, 3, 4, 5)],
}  # fmt: skip
SEEDS = [f"seed {n}" for n in range(40)]


def test_the_words_keep_their_letters_whatever_the_order(on_paper) -> None:
    orders = set()
    for seed in SEEDS:
        on = on_paper(ONE, seed, bricks=4)
        orders.add(on.entries[0].shown)
        said = dict(on.asked.options)
        assert list(said) == ["A", "B", "C", "D"]
        assert said[on.entries[0].answer] == "It is 4"
        assert on.key[0].chosen == ("It is 4",)
        assert on.key[0].answer == on.entries[0].answer
    assert len(orders) > 10  # of 24 that there are


def test_the_same_seed_gives_the_same_order(on_paper) -> None:
    assert on_paper(ONE, "x", bricks=4).entries == on_paper(ONE, "x", bricks=4).entries


def test_several_right_ones_are_all_named(on_paper) -> None:
    for seed in SEEDS[:10]:
        on = on_paper(SEVERAL, seed, bricks=4)
        said = dict(on.asked.options)
        letters = on.entries[0].answer.split(",")
        assert {said[letter] for letter in letters} == {"More than 2", "More than 3"}
        assert letters == sorted(letters)
        assert on.key[0].answer == " and ".join(letters)


@pytest.mark.parametrize(("part", "note"), [(ONE, "Tick one."), (SEVERAL, "Tick every one that is right.")])
def test_a_paper_says_how_many_to_tick(on_paper, part, note: str) -> None:
    assert on_paper(part, bricks=4).asked.note == note


def test_a_key_says_why_a_wrong_one_is_wrong_by_its_letter(on_paper) -> None:
    on = on_paper(ONE, bricks=4)
    letter = next(letter for letter, said in on.asked.options if said == "It is 3")
    assert on.key[0].notes == (f"{letter}: Why not 3: counted 3",)
    assert why_wrong(on.key[0]) == {letter: "Why not 3: counted 3"}
    assert [(line.say, line.figure) for line in on.key[0].working] == [("Count them", "4")]


def test_another_letter_in_the_sitting_than_is_found_is_no_key(on_paper) -> None:
    on = on_paper(ONE, bricks=4)
    other = next(letter for letter in "ABCD" if letter != on.entries[0].answer)
    with pytest.raises(SittingFaulty, match=f"part 1a: the sitting says {other}, this program finds"):
        PAPER_KINDS["choice"].key(on.solved, (replace(on.entries[0], answer=other),), on.scope, {})
