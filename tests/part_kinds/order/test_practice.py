"""An order on the practice page: its steps as shown, one right order, the pairs that bind."""

from __future__ import annotations

import pytest

from courseware.part_kinds.order.practice import KIND

STEPS = [{"name": name, "say": f"Step {name}"} for name in "pqr"]


@pytest.mark.parametrize(("before", "open_"), [([["p", "q"], ["q", "r"]], False), ([["p", "r"]], True)])
def test_pairs_and_the_right_order_go_by_letters_as_shown(on_paper, before, open_: bool) -> None:
    part = {"name": "sequence", "kind": "order", "ask": "In order?", "marks": 1, "steps": STEPS, "before": before}
    on = on_paper(part, bricks=4)
    found = KIND.data(on.asked, on.key, on.solved, on.entries, {})
    said = dict(found["options"])
    assert [said[letter] for letter in found["right"].split(",")] == ["Step p", "Step q", "Step r"]
    assert [[said[a][-1], said[b][-1]] for a, b in found["before"]] == before
    assert found["open"] is open_
