"""Ticks fed back in the order of the paper: what fits, what does not and why, what fits as well."""

from __future__ import annotations

from courseware.feedback.feedback_text import HERE, PLAIN, STANDS
from courseware.part_kinds.choice.feedback import KIND

ONE = {
    "name": "which", "kind": "choice", "ask": "Which?", "marks": 1, "answer": "bricks",
    "working": [{"say": "Count them", "value": "bricks"}],
    "choices": [{"say": f"It is {n}", "value": str(n), "says": f"Counted {n}"} for n in (2, 3, 4)],
}  # fmt: skip
SEVERAL = {
    "name": "which", "kind": "choice", "ask": "Which?", "marks": 2, "several": True,
    "choices": [{"say": f"More than {n}", "right": f"bricks > {n}", "check": f"{n} < bricks"} for n in (2, 3, 4, 5)],
}  # fmt: skip


def letter_of(on, said: str) -> str:
    return next(letter for letter, words in on.asked.options if words == said)


def test_of_one_tick_the_wrong_one_has_its_reason_and_the_right_one_is_named(on_paper, marked) -> None:
    on = on_paper(ONE, bricks=4)
    lead, lines = KIND.lines(marked(on, "slip", written=letter_of(on, "It is 3")))
    assert lead == "The choices:"
    by_words = {line.say.partition(": ")[2]: (line.sign, line.word) for line in lines if ": " in line.say}
    assert by_words == {"It is 3": (HERE, "this one does not fit. Counted 3"), "It is 4": (PLAIN, "this one fits")}
    assert (lines[-1].say, lines[-1].figure) == ("Count them", "4")


def test_of_several_ticks_each_is_told_and_those_left_out_fit_as_well(on_paper, marked) -> None:
    on = on_paper(SEVERAL, bricks=4)
    typed = letter_of(on, "More than 2") + letter_of(on, "More than 5")
    _, lines = KIND.lines(marked(on, "partly", written=typed))
    assert {line.say.partition(": ")[2]: (line.sign, line.word) for line in lines} == {
        "More than 2": (STANDS, ""),
        "More than 5": (HERE, "this one does not fit"),
        "More than 3": (HERE, "this one fits as well"),
    }


def test_where_nothing_was_ticked_what_fits_is_told_without_a_sign(on_paper, marked) -> None:
    _, lines = KIND.lines(marked(on_paper(SEVERAL, bricks=4), "blank"))
    assert {(line.sign, line.word) for line in lines} == {(PLAIN, "this one fits")}


def test_a_cell_that_cannot_be_read_ticks_nothing(on_paper, marked) -> None:
    _, lines = KIND.lines(marked(on_paper(SEVERAL, bricks=4), "asked", written="all of them"))
    assert STANDS not in {line.sign for line in lines}


def test_what_is_said_of_it_and_its_slip_stands_beside_the_choice_alone(on_paper, marked) -> None:
    on = on_paper(ONE, bricks=4)
    assert KIND.sentences(marked(on, "wrong")) == ("What was ticked does not fit.",)
    assert KIND.sentences(marked(on, "blank")) == ("Nothing is written here.",)
    assert KIND.slips(marked(on, "slip", slips=(1,))) == ()
