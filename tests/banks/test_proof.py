"""Every variant walked: which are left out of the space and why, and which difficulty is kept."""

from __future__ import annotations

import pytest

from courseware.banks import prove

OTHER = "of another difficulty (digits, halves or rounding)"


def slips(*values: str) -> list[dict[str, str]]:
    return [{"value": value, "says": f"Slip {n}"} for n, value in enumerate(values, 1)]


@pytest.mark.parametrize(
    ("keys", "kept", "left_out"),
    [
        ({}, [5, 6, 7, 8, 9], {OTHER: 3}),  # 2 to 4 bricks are piers of three figures: Sheet 9, Table 1
        ({"where": "bricks != 6"}, [5, 7, 8, 9], {"by `where`": 1, OTHER: 3}),
        ({"where": "is_opening(bricks * 100 + 10) or bricks > 4"}, [5, 6, 7, 8, 9], {"by `where`": 3}),
        ({"where": "bricks_in_opening(bricks * module + joint) > 5"}, [6, 7, 8, 9], {"by `where`": 4}),
        ({"where": "courses_in(bricks * 25) > 0"}, [3, 6, 9], {"by `where`": 5}),  # an impossible size is not in the space
        ({"where": "1 / (bricks - 5) != 0"}, [6, 7, 8, 9], {"by `where`": 1, OTHER: 3}),
    ],
)  # fmt: skip
def test_where_says_which_variants_there_are(
    exercise, number, keys: dict[str, str], kept: list[int], left_out: dict[str, int]
) -> None:
    answer = "100" if "courses_in" in keys.get("where", "") else "pier(bricks)"
    proof = prove(exercise(parts=[number(answer=answer, fixed=answer == "100")], **keys))
    assert proof.failure is None
    assert [proof.space.variant(index)["bricks"] for index in range(len(proof.space))] == kept
    assert (proof.walked, proof.left_out) == (8, left_out)


@pytest.mark.parametrize(
    ("part", "kept", "reason"),
    [
        ({"slips": slips("bricks * 2", "10")}, [6, 7, 8, 9], "where slip 2 of amount gives the figure of slip 1"),
        ({"slips": slips("bricks * 2", "20 - bricks")}, [5, 6, 7, 8, 9], None),
        ({"slips": slips("10 - bricks")}, [6, 7, 8, 9], "where slip 1 of amount gives the answer"),
        ({"slips": slips("10 - bricks"), "within": "2"}, [7, 8, 9], "where slip 1 of amount gives the answer"),
        ({"slips": slips("9"), "accept": slips("bricks + 1")}, [5, 6, 7], None),  # 8 + 1 is accepted, 9 the answer
        ({"slips": slips("14 - bricks"), "accept": slips("bricks + 2")}, [5, 8, 9], None),
        ({"slips": slips("bricks + 0.4"), "round": 0}, [], None),  # rounded as the answer is, it is the answer
        ({"accept": slips("bricks")}, [5, 6, 7, 8, 9], None),
    ],
)  # fmt: skip
def test_a_variant_whose_slips_do_not_stand_apart_is_left_out(
    exercise, number, part: dict[str, object], kept: list[int], reason: str | None
) -> None:
    sound = exercise(given={"bricks": "5 to 9"}, parts=[number("amount", "bricks", **part)])
    proof = prove(sound)
    assert [proof.space.variant(index)["bricks"] for index in range(len(proof.space))] == kept
    assert sum(proof.left_out.values()) == 5 - len(kept)
    if reason is not None:
        assert list(proof.left_out) == [reason]


@pytest.mark.parametrize(
    ("given", "part", "kept"),
    [
        ("8 to 14", {"answer": "bricks"}, [10, 11, 12, 13, 14]),  # two figures are commoner than one
        ("9 to 10", {"answer": "bricks"}, [9]),  # on a tie, the one met first
        ("10 to 12 by 0.5", {"answer": "bricks"}, [10, 11, 12]),  # whole numbers apart from halves
        ("10 to 11 by 0.25", {"answer": "bricks"}, [10, 11]),  # and from quarters
        ("10 to 16", {"answer": "bricks / 4", "round": 1}, [10, 12, 14, 16]),  # exact apart from rounded
        ("10 to 15", {"answer": "bricks / 4", "round": 2}, [10, 11, 12, 13, 14, 15]),
        ("10 to 15", {"answer": "bricks / 7", "round": 0, "working": [{"say": "So", "value": "nearest(bricks / 7, 1)"}]}, [10, 11, 12, 13, 15]),
        ("995 to 1002", {"answer": "bricks"}, [995, 996, 997, 998, 999]),
    ],
)  # fmt: skip
def test_the_commonest_difficulty_is_kept(
    exercise, number, given: str, part: dict[str, object], kept: list[int]
) -> None:
    proof = prove(exercise(given={"bricks": given}, parts=[number(**part)]))
    assert proof.failure is None
    assert [proof.space.variant(index)["bricks"] for index in range(len(proof.space))] == kept


def test_a_choice_with_more_right_is_another_difficulty(exercise) -> None:
    truths = ["bricks > 2", "bricks > 5", "bricks > 9"]
    several = {"name": "which", "kind": "choice", "several": True, "ask": "Which?", "marks": 1,
               "choices": [{"say": truth, "right": truth, "check": truth} for truth in truths]}  # fmt: skip
    proof = prove(exercise(given={"bricks": "3 to 9"}, parts=[several]))
    assert [proof.space.variant(index)["bricks"] for index in range(len(proof.space))] == [6, 7, 8, 9]


def test_the_range_of_each_answer_is_told(exercise, number) -> None:
    table = {"name": "sizes", "kind": "table", "ask": "Fill in.",
             "rows": [{"name": "half_of_it", "say": "Half?", "answer": "length / 2", "marks": 1,
                       "working": [{"say": "Halve", "value": "length / 2"}]}]}  # fmt: skip
    proof = prove(exercise(given={"bricks": "4 to 8 by 2"}, parts=[number(), table]))
    assert proof.left_out == {OTHER: 1}
    assert proof.ranges == {"length": (1340, 1790), "half_of_it": (670, 895)}  # Sheet 9, Table 1: 6 and 8 bricks


def test_the_walk_is_told_as_it_goes(exercise, number) -> None:
    told: list[int] = []
    sound = exercise(given={"bricks": "1 to 1201"}, parts=[number(answer="bricks")])
    assert prove(sound, told.append).walked == 1201
    assert told == [500, 500, 201]


@pytest.mark.parametrize(
    ("keys", "why"),
    [
        ({"where": "bricks > 9"}, "no variant is left to issue: 8 left out by `where`."),
        (
            {"slips": slips("bricks * 2", "bricks + bricks")},
            "no variant is left to issue: 8 left out where slip 2 of length gives the figure of slip 1. "
            "Two that always give one figure are one slip: name them together.",
        ),
    ],
)
def test_a_space_with_nothing_in_it_fails(exercise, number, keys: dict[str, object], why: str) -> None:
    own = {"where": keys.pop("where")} if "where" in keys else {}
    proof = prove(exercise(parts=[number(**keys)], **own))
    failure = proof.failure
    assert (failure.raw, failure.given, failure.why, len(proof.space)) == (0, "all variants", why, 0)
