"""A part whose working shows an earlier answer must be carried from it, or say that it stands apart."""

from __future__ import annotations

import pytest

from courseware.banks import prove


def area(number, answer: str, line: str, **keys: object):
    working = [{"say": "From the length", "value": line}, {"say": "So", "value": keys.pop("last", answer)}]
    return number("area", answer, working=working, **keys)


@pytest.mark.parametrize(
    ("answer", "line", "carried"),
    [
        ("length * 75", "length", True),
        ("pier(bricks) * 75", "length", False),
        ("pier(bricks) * 75", "bricks * module - joint", False),
        ("bricks * 75", "bricks * 3", True),  # shows nothing of the length
    ],
)
def test_a_line_that_shows_an_earlier_answer(exercise, number, answer: str, line: str, carried: bool) -> None:
    failure = prove(exercise(parts=[number(), area(number, answer, line)])).failure
    assert (failure is None) is carried
    if failure:
        assert failure.why == (
            f"the working of area shows `{line}`, which is the answer to length, yet another answer there changes "
            "nothing here: write length in the formula, so that it is carried, or say `apart_from: [length]`"
        )


def test_the_words_of_a_line_lean_as_its_figure_does(exercise, number) -> None:
    lines = [{"say": "{{ length }} × 75", "value": "(bricks * module - joint) * 75"}]
    failure = prove(exercise(parts=[number(), number("area", "pier(bricks) * 75", working=lines)])).failure
    assert "the working of area shows `length`" in failure.why


def test_the_whole_rule_of_an_earlier_part_leans_on_it(exercise, number) -> None:
    lines = [{"say": "At once", "value": "75 * pier(bricks) + 5"}]
    failure = prove(exercise(parts=[number(), number("area", "pier(bricks) * 75 + 5", working=lines)])).failure
    assert "the working of area is worked out with `pier(bricks)`, which is the answer to length" in failure.why


def test_the_last_line_may_carry_where_the_answer_goes_by_the_givens(exercise, number) -> None:
    lines = [{"say": "The length again", "value": "length"}, {"say": "So", "value": "length * 75"}]
    assert prove(exercise(parts=[number(), number("area", "pier(bricks) * 75", working=lines)])).failure is None


def test_a_part_between_may_carry(exercise, number) -> None:
    between = number("twice", "length * 2")
    last = number("four_times", "twice * 2", working=[{"say": "{{ length }}, doubled twice", "value": "twice * 2"}])
    assert prove(exercise(parts=[number(), between, last])).failure is None


def test_a_part_may_say_that_it_stands_apart(exercise, number) -> None:
    apart = area(number, "pier(bricks) * 75", "bricks * module - joint", apart_from=["length"])
    assert prove(exercise(parts=[number(), apart])).failure is None


def test_an_answer_that_never_changes_may_be_met_by_chance(exercise, number) -> None:
    lines = [{"say": "Half a brick", "value": "112.5"}, {"say": "So", "value": "bricks * 112.5"}]
    parts = [number("half_one", "half", fixed=True), number("all", "bricks * 112.5", working=lines)]
    assert prove(exercise(parts=parts)).failure is None


def test_a_choice_is_carried_by_its_formulas(exercise, number) -> None:
    def choice(answer: str) -> dict[str, object]:
        return {"name": "fits", "kind": "choice", "ask": "Does a lintel of 1 m reach?", "marks": 1, "answer": answer,
                "working": [{"say": "{{ length }} against 1000", "value": answer}],
                "choices": [{"say": "It reaches", "value": "'yes'"}, {"say": "It is short", "value": "'no'"}]}  # fmt: skip

    assert prove(exercise(parts=[number(), choice("'yes' if length < 900 else 'no'")])).failure is None
    failure = prove(exercise(parts=[number(), choice("'yes' if bricks < 5 else 'no'")])).failure
    assert "the working of fits shows `length`" in failure.why


@pytest.mark.parametrize(("rule", "leans"), [("bricks * 3", False), ("bricks * wide", True), ("pier(bricks)", True)])
def test_a_rule_of_one_name_and_a_figure_may_be_shared_by_chance(exercise, number, rule: str, leans: bool) -> None:
    second = number("other", f"{rule} * 2 + 1", working=[{"say": "So", "value": f"{rule} * 2 + 1"}])
    failure = prove(
        exercise(given={"bricks": "5 to 9", "wide": "11 to 13"}, parts=[number(answer=rule), second])
    ).failure
    assert (failure is not None) is leans


@pytest.mark.parametrize(
    ("answer", "why"),
    [
        ("amount % 5 + 3", "one more is no multiple of five"),
        ("most(100, amount)", "twice 90 is over a hundred"),
        ("least(11, amount)", "half of 20 is under eleven"),
        ("100 / (bricks * 10 + 1 - amount)", "one more divides by nothing"),
        ("100 * courses_in(75 + amount - bricks * 10)", "one more is no whole course, which the trade core refuses"),
    ],
)
def test_an_answer_is_carried_where_one_more_twice_or_half_changes_what_follows(
    exercise, number, answer: str, why: str
) -> None:
    """The first part is 20 to 90 in tens; what follows is the same for all of them, and goes by it all the same."""
    lines = [{"say": "From the amount", "value": "amount"}, {"say": "So", "value": answer}]
    follows = number("follows", answer, fixed=True, working=lines)
    assert prove(exercise(parts=[number("amount", "bricks * 10"), follows])).failure is None, why


@pytest.mark.parametrize(("where", "carried"), [(2, True), (3, False), (5, True), (7, False), (8, True)])
def test_the_first_the_middle_and_the_last_variant_are_tried(exercise, number, where: int, carried: bool) -> None:
    """Of 2 to 8 bricks; what follows goes by the amount in one variant alone."""
    answer = f"amount + 1 if bricks == {where} else bricks * 10 + 1"
    lines = [{"say": "From the amount", "value": "amount"}, {"say": "So", "value": answer}]
    parts = [number("amount", "bricks * 10"), number("follows", answer, working=lines)]
    failure = prove(exercise(given={"bricks": "2 to 8"}, parts=parts)).failure
    assert (failure is None) is carried


def test_what_no_other_answer_changes_is_not_carried(exercise, number) -> None:
    lines = [{"say": "From the amount", "value": "amount"}, {"say": "So", "value": "least(9, amount)"}]
    follows = number("follows", "least(9, amount)", fixed=True, working=lines)  # half of 20 is ten
    assert (
        "yet another answer there changes nothing"
        in prove(exercise(parts=[number("amount", "bricks * 10"), follows])).failure.why
    )


def test_a_choice_may_be_carried_by_a_part_between(exercise, number) -> None:
    answer = "'yes' if twice < 1800 else 'no'"
    fits = {"name": "fits", "kind": "choice", "ask": "Do two lintels of 900 mm reach?", "marks": 1, "answer": answer,
            "working": [{"say": "{{ length }} twice", "value": answer}],
            "choices": [{"say": "They reach", "value": "'yes'"}, {"say": "They are short", "value": "'no'"}]}  # fmt: skip
    assert prove(exercise(parts=[number(), number("twice", "length * 2"), fits])).failure is None


@pytest.mark.parametrize(("answer", "leans"), [("pier(bricks) * 75", True), ("length * 75", False)])
def test_a_row_leans_on_the_row_above_it(exercise, number, answer: str, leans: bool) -> None:
    first, second = number(), area(number, answer, "bricks * module - joint")
    rows = [
        {key: value for key, value in row.items() if key != "ask"} | {"say": "How much?"} for row in (first, second)
    ]
    failure = prove(exercise(parts=[{"name": "both", "kind": "table", "ask": "Fill in.", "rows": rows}])).failure
    assert (failure is not None) is leans
