"""An order in a bank: steps by name, and pairs of them that bind; nothing in it is worked out."""

from __future__ import annotations

import pytest

from courseware.banks import solve
from courseware.banks.part import Solved


def order(names: str, *before: tuple[str, ...], **keys: object) -> dict[str, object]:
    steps = [{"name": name, "say": f"{name} {{{{ bricks }}}}"} for name in names.split()]
    pairs = [list(pair) for pair in before]
    return {
        "name": "sequence",
        "kind": "order",
        "ask": "In order?",
        "marks": 1,
        "steps": steps,
        "before": pairs,
        **keys,
    }


def test_an_order_has_nothing_to_work_out(exercise) -> None:
    [solved] = solve(exercise(parts=[order("mark lay point", ("mark", "lay"))]), {"bricks": 4})
    assert type(solved) is Solved
    assert [say.render({"bricks": 4}, {}) for _, say in solved.part.steps] == ["mark 4", "lay 4", "point 4"]
    assert solved.part.before == (("mark", "lay"),)


def test_it_offers_its_steps(exercise) -> None:
    [part] = exercise(parts=[order("mark lay point", ("mark", "lay"))]).parts
    what, steps = part.offers
    assert (what, len(steps)) == ("steps", 3)
    assert len(part.wordings) == 4


@pytest.mark.parametrize(
    ("count", "told"),
    [(2, ["2 steps; expected 3 to 10"]), (3, []), (10, []), (11, ["11 steps; expected 3 to 10"])],
)
def test_there_are_three_to_ten_steps(faults, count: int, told: list[str]) -> None:
    assert faults(order(" ".join(f"step_{n}" for n in range(count)), ("step_0", "step_1"))) == told


@pytest.mark.parametrize(
    ("part", "told"),
    [
        (order("a b c", ("a", "b"), ("b", "c"), ("a", "c")), []),
        (order("a b c", ("a", "b"), ("b", "a")), ["the pairs go round in a circle"]),
        (order("a b c", ("a", "b"), ("b", "c"), ("c", "a")), ["the pairs go round in a circle"]),
        (order("a b c", ("a", "a")), ["the pairs go round in a circle"]),
        (order("mark lay line", ("mark", "lie")), ["`lie` is not a step; did you mean `line`?"]),
        (order("a b c", ("a", "b", "c"), ("a", "b")), ["an entry is not a pair; expected pairs [earlier, later]"]),
        (order("a b a", ("a", "b")), ["a step's name stands twice; expected each name once"]),
        (order("a b c"), ["`before` is empty; a part of kind order needs steps, before, marks"]),
    ],
)
def test_pairs_that_bind_nothing_or_go_in_a_circle_are_told(faults, part, told: list[str]) -> None:
    found = faults(part)
    assert [one[: len(start)] for one, start in zip(found, told, strict=True)] == told
