"""A choice on the practice page: its letters as shown, which are right, and why the others are not."""

from __future__ import annotations

from courseware.part_kinds.choice.practice import KIND

CHOICES = [{"say": f"It is {n}", "value": str(n), "says": f"Counted {n}"} for n in (2, 3, 4)]
ONE = {
    "name": "which", "kind": "choice", "ask": "Which?", "marks": 1, "answer": "bricks",
    "working": [{"say": "Count them", "value": "bricks"}], "choices": CHOICES,
}  # fmt: skip


def test_letters_go_with_what_stands_on_the_page(on_paper) -> None:
    on = on_paper(ONE, bricks=4)
    found = KIND.data(on.asked, on.key, on.solved, on.entries, {})
    said = dict(found["options"])
    assert said[found["right"]] == "It is 4"
    assert found["several"] is False
    assert {said[letter]: why for letter, why in found["wrong"].items()} == {
        "It is 2": "Counted 2",
        "It is 3": "Counted 3",
    }
    assert found["working"] == [{"say": "Count them", "figure": "4", "right": "4"}]


def test_several_right_ones_are_letters_with_commas(on_paper) -> None:
    choices = [{"say": f"More than {n}", "right": f"bricks > {n}", "check": f"{n} < bricks"} for n in (2, 3, 4)]
    part = {"name": "which", "kind": "choice", "ask": "Which?", "marks": 2, "several": True, "choices": choices}
    on = on_paper(part, bricks=4)
    found = KIND.data(on.asked, on.key, on.solved, on.entries, {})
    said = dict(found["options"])
    assert {said[letter] for letter in found["right"].split(",")} == {"More than 2", "More than 3"}
    assert (found["several"], found["working"]) == (True, [])
