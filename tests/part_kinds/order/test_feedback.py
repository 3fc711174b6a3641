"""An order fed back: the learner's own, up to the first step that stands too early, or what is left out of it."""

from __future__ import annotations

import pytest

from courseware.feedback.feedback_text import HERE, PLAIN, STANDS
from courseware.part_kinds.order.feedback import KIND

STEPS = [{"name": name, "say": f"Step {name}"} for name in "pqrs"]
CHAIN = {"name": "sequence", "kind": "order", "ask": "In order?", "marks": 2, "steps": STEPS,
         "before": [["p", "q"], ["q", "r"], ["r", "s"]]}  # fmt: skip


@pytest.fixture
def on(on_paper):
    return on_paper(CHAIN, bricks=4)


def typed(on, names: str) -> str:
    letters = {said: letter for letter, said in on.asked.options}
    return "".join(letters[f"Step {name}"] for name in names)


def told(on, marked, names: str) -> list[tuple[str, str, str]]:
    _, lines = KIND.lines(marked(on, "partly", 1, written=typed(on, names)))
    said = dict(on.asked.options)
    return [(line.sign, line.say.partition(": ")[2], line.word.partition(":")[0]) for line in lines if said]


@pytest.mark.parametrize(
    ("names", "lines"),
    [
        ("qprs", [(HERE, "Step q", "too early here")]),
        ("prqs", [(STANDS, "Step p", ""), (HERE, "Step r", "too early here")]),
        ("pqsr", [(STANDS, "Step p", ""), (STANDS, "Step q", ""), (HERE, "Step s", "too early here")]),
        ("pqr", [(STANDS, "Step p", ""), (STANDS, "Step q", ""), (STANDS, "Step r", ""), (HERE, "Step s", "left out")]),
    ],
)
def test_lines_go_up_to_the_first_that_stands_too_early(on, marked, names, lines) -> None:
    assert told(on, marked, names) == lines


def test_the_step_that_comes_before_is_named(on, marked) -> None:
    lead, lines = KIND.lines(marked(on, "partly", written=typed(on, "prqs")))
    letter = typed(on, "q")
    assert lead == "Your order, up to the first step that stands too early:"
    assert lines[-1].word == f"too early here: {letter}, Step q, comes before it"


def test_where_nothing_can_be_read_a_first_step_is_given(on, marked) -> None:
    for written in ("", "first the p"):
        lead, [line] = KIND.lines(marked(on, "blank", written=written))
        assert (lead, line.sign) == ("A first step to start from:", PLAIN)
        assert line.say.endswith("Step p")


def test_what_is_said_is_about_the_wall(on, marked) -> None:
    assert KIND.sentences(marked(on, "wrong")) == ("This order does not work on the wall yet.",)
    assert KIND.sentences(marked(on, "unreached")) == ("This part was not reached.",)
