"""The proof of one variant: what makes it fail or leaves it out, told with its words and figures."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks import prove
from courseware.banks.formulas import FormulaImpossible
from courseware.banks.variant_proof import LeftOut, asked_once, formulas_in_words, prove_variant, shown

IMPOSSIBLE = "3.2 bricks cannot be set out: bricks go in halves; the nearest are 3 and 3½ bricks"
ROUND_IT = "it does not write out exactly: round it, as in nearest(x, 0.01)"


def working(*values: str) -> dict[str, object]:
    return {"working": [{"say": f"Line {n}", "value": value} for n, value in enumerate(values, 1)]}


@pytest.mark.parametrize(
    ("keys", "given", "why"),
    [
        (working("bricks * module"), "bricks = 2", "length: `answer` gives 440, the last line of the working 450"),
        (working("pier(bricks) if bricks < 5 else 0"), "bricks = 5", "length: `answer` gives 1115, the last line of the working 0"),
        (working("'long'"), "bricks = 2", "length: `answer` gives 440, the last line of the working long"),
        (working("bricks > 2"), "bricks = 2", "length: `answer` gives 440, the last line of the working false"),
        ({"round": 2, **working("'long'")}, "bricks = 2", "length: `answer` gives 440, the last line of the working long"),
        ({"answer": "1", **working("bricks > 1")}, "bricks = 2", "length: `answer` gives 1, the last line of the working true"),
        (working("bricks / 7", "pier(bricks)"), "bricks = 2", f"`length, line 1 of the working` gives about 0.2857: {ROUND_IT}"),
        ({"answer": "bricks / 7", **working("bricks / 7")}, "bricks = 2", f"`bricks / 7` gives about 0.2857: {ROUND_IT}"),
        ({"answer": "bricks - 4", **working("bricks - 4")}, "bricks = 2", "length: the answer is −2, below 0"),
        ({"answer": "bricks / 7", "round": 2, **working("1")}, "bricks = 2", "length: `answer` gives 2/7, the last line of the working 1"),
        ({"within": "bricks - 5"}, "bricks = 2", "length: the band is −3, below 0"),
        ({"answer": "1 / (bricks - 4)", **working("1")}, "bricks = 2", "length: the answer is −0.5, below 0"),
        ({"answer": "1 / (bricks - 2)"}, "bricks = 2", "`1 / (bricks - 2)` divides by nothing"),
        ({"answer": "pier(3.2)"}, "bricks = 2", IMPOSSIBLE),
        ({"slips": [{"value": "pier(3.2)", "says": "So"}]}, "bricks = 2", IMPOSSIBLE),
        ({"accept": [{"value": "2 ** bricks ** 2", "says": "So"}]}, "bricks = 4", "`2 ** bricks ** 2`: a power must be a whole number from -12 to 12"),
        ({"ask": "How long are {{ bricks / 7 }} walls?"}, "bricks = 2", f"`bricks / 7` gives about 0.2857: {ROUND_IT}"),
        ({"slips": [{"value": "1", "says": "Took {{ bricks / 7 }}"}]}, "bricks = 2", f"`bricks / 7` gives about 0.2857: {ROUND_IT}"),
        ({"slips": [{"value": "1", "says": "Took {{ in_inches(bricks) }}"}]}, "bricks = 2", f"in_inches gives no short fraction of an inch: {ROUND_IT}"),
    ],
)  # fmt: skip
def test_a_number_part_fails(exercise, number, keys: dict[str, object], given: str, why: str) -> None:
    failure = prove(exercise(parts=[{**number(), **working(keys.get("answer", "pier(bricks)")), **keys}])).failure
    assert (failure.given, failure.why) == (given, why)


def test_an_answer_and_a_band_of_nothing_are_sound(exercise, number) -> None:
    """Below nothing is what fails."""
    left_over = number(answer="bricks - 2", within="bricks - 2")
    assert prove(exercise(parts=[left_over])).failure is None


@pytest.mark.parametrize(
    ("courses", "fits"), [("bricks - 2", False), ("bricks - 1", True), ("bricks + 21", True), ("bricks + 22", False)]
)
def test_a_drawing_takes_its_least_and_its_most(exercise, number, courses: str, fits: bool) -> None:
    """A pier is drawn of 1 to 30 courses; here of 2 to 9 bricks."""
    failure = prove(exercise(drawing={"kind": "pier", "bricks": "4", "courses": courses}, parts=[number()])).failure
    assert (failure is None) is fits


def test_the_working_may_reach_the_answer_before_or_after_rounding(exercise, number) -> None:
    for line in ("bricks / 3", "nearest(bricks / 3, 0.01)"):
        assert prove(exercise(parts=[number(answer="bricks / 3", round=2, **working(line))])).failure is None
    failure = prove(
        exercise(parts=[number(answer="bricks / 3", round=2, **working("nearest(bricks / 3, 0.1)"))])
    ).failure
    assert failure.why == "length: `answer` gives ⅔, the last line of the working 0.7"


@pytest.mark.parametrize("key", ["pose", "setting"])
def test_wording_that_does_not_render_fails(exercise, key: str) -> None:
    failure = prove(exercise(**{key: "A pier of {{ bricks / 7 }} bricks."})).failure
    assert failure.why == f"`bricks / 7` gives about 0.2857: {ROUND_IT}"


@pytest.mark.parametrize(
    ("drawing", "given", "why"),
    [
        ({"kind": "pier", "courses": "bricks * 5"}, "bricks = 7", "the drawing does not fit its box: courses is 35, and it takes 1 to 30"),
        ({"kind": "pier", "bricks": "bricks / 4"}, "bricks = 2", "the drawing does not fit its box: bricks is 0.5, and it takes 1 to 12"),
        ({"kind": "gauge_rod", "courses": "4", "datum": "'face' if bricks < 4 else 'faces'"}, "bricks = 4", "the drawing's datum is faces; it can be clear, face, height"),
        ({"kind": "opening", "courses": "3", "asks": {"width": "length"}}, "bricks = 2", "the drawing's width is 460 mm, the answer to length 440 mm"),
        ({"kind": "mitred_corner", "corner": "90 + bricks", "asks": {"cut": "length"}}, "bricks = 2", "the drawing's cut is 46°, the answer to length 440 mm"),
        ({"kind": "lifts", "lifts": "bricks", "each": "6", "asks": {"courses": "length"}}, "bricks = 2", "the drawing's courses is 12 courses, the answer to length 440 mm"),
        ({"kind": "uprights", "infill": "bricks + 8", "ahead": "2"}, "bricks = 2", "the drawing cannot be made: a woven panel rises in bays of three courses: take a multiple of 3"),
        ({"kind": "wall", "length": "2000", "height": "1500", "opening_width": "bricks * 500"}, "bricks = 5", "the drawing cannot be made: the opening is larger than the wall: make the opening smaller or the wall larger"),
        ({"kind": "surround", "bricks": "bricks + 1 / 2", "courses": "9"}, "bricks = 2", "the drawing cannot be made: a run of a surround does not close on 2½ bricks: pieces stand three to a brick; the nearest are 2 and 3 bricks"),
        ({"kind": "herringbone", "bricks": "3", "courses": "9", "angle": "45 if bricks < 3 else 60"}, "bricks = 3", "the drawing cannot be made: herringbone at 60 degrees is not known: use 45 or 90"),
        ({"kind": "herringbone", "bricks": "3", "courses": "9", "angle": "45 if bricks < 3 else 45.5"}, "bricks = 3", "the drawing cannot be made: herringbone is laid at 45 or 90 degrees"),
        ({"kind": "stack_bond", "bricks": "bricks + 1 / 2", "courses": "9"}, "bricks = 2", "the drawing cannot be made: stack bond has no half bricks: 2.5 bricks cannot be stacked without a cut in every course"),
        ({"kind": "soldiers", "length": "bricks * module - joint + (37 if bricks == 3 else 0)"}, "bricks = 3", "the drawing cannot be made: pieces 65 mm wide do not run into 702 mm: 9 leave joints of 14.625 mm; with 10 mm joints 665 and 740 mm work"),
        ({"kind": "pier", "courses": "1 / (bricks - 3)"}, "bricks = 2", "the drawing does not fit its box: courses is −1, and it takes 1 to 30"),
    ],
)  # fmt: skip
def test_a_drawing_that_does_not_fit_or_agree_fails(
    exercise, number, drawing: dict[str, object], given: str, why: str
) -> None:
    failure = prove(exercise(drawing=drawing, parts=[number(unit="mm")])).failure
    assert (failure.given, failure.why) == (given, why)


def test_a_drawing_agrees_in_metres_and_rounded(exercise, number) -> None:
    in_metres = number(answer="pier(bricks) / 1000", unit="m", round=2)
    assert prove(exercise(drawing={"kind": "pier", "asks": {"width": "length"}}, parts=[in_metres])).failure is None


def test_the_first_variant_that_fails_is_told_with_its_words_and_figures(exercise, number) -> None:
    answer = "1 / (0 if side == 'right' and bricks == 2.5 else 1)"
    broken = exercise(given={"bricks": "2 to 3 by 0.5", "side": ["left", "right"]}, parts=[number(answer=answer)])
    proof = prove(broken)
    assert (proof.failure.raw, proof.failure.given, proof.walked) == (3, "bricks = 2.5, side = right", 4)
    assert (len(proof.space), proof.ranges) == (0, {})


@pytest.mark.parametrize("key", ["pose", "setting", "ask"])
def test_a_question_that_always_prints_an_answer_fails(exercise, number, key) -> None:
    told = "It is {{ bricks * module - joint }} mm long."
    part = number(ask=told) if key == "ask" else number()
    failure = prove(exercise(parts=[part], **({} if key == "ask" else {key: told}))).failure
    assert failure is not None
    where = "part a" if key == "ask" else "the question"
    assert failure.why.startswith(f"{where} gives the answer to length in every variant: leave it out there")


def test_the_last_line_is_shown_as_the_part_asks_for_it_so_that_it_need_not_write_out(exercise, number) -> None:
    """2/7 has no short decimal; a part to two places shows 0.29, and its last line with it."""
    sevenths = exercise(parts=[number(answer="bricks / 7", round=2, **working("bricks * 1", "bricks / 7"))])
    assert prove(sevenths).failure is None
    earlier = exercise(parts=[number(answer="bricks / 7", round=2, **working("bricks / 7", "bricks / 7"))])
    assert "length, line 1 of the working" in prove(earlier).failure.why


@pytest.mark.parametrize(("unit", "in_one"), [("m", "1000"), ("in", "25.4")])
def test_a_drawing_is_compared_in_the_unit_that_its_part_asks_for(exercise, number, unit, in_one) -> None:
    """A metre has 1000 mm, an inch 25.4 (the international inch)."""

    def of(length: str):
        answer = f"{length} / {in_one}"
        part = number(
            answer=f"nearest({answer}, 0.001)", unit=unit, round=3, working=[{"say": "Divide", "value": answer}]
        )
        return prove(exercise(drawing={"kind": "pier", "asks": {"width": "length"}}, parts=[part])).failure

    assert of("pier(bricks)") is None
    failed = of("(pier(bricks) + 10)")
    assert failed is not None
    assert "the drawing's width is 440 mm, the answer to length" in failed.why
    assert failed.why.endswith(f" {unit}")


@pytest.mark.parametrize(
    ("value", "says"),
    [(None, "nothing"), ("long", "long"), (True, "true"), (False, "false"), (910, "910"), (Fraction(37, 3), "12⅓"), (Fraction(2, 7), "2/7")],
)  # fmt: skip
def test_a_value_as_a_message_says_it(value, says: str) -> None:
    assert shown(value) == says


def test_a_variant_is_worked_out_with_its_names_or_left_out(exercise) -> None:
    made = exercise(where="bricks > 3")
    [solved], scope = prove_variant(made, {"bricks": 4}, formulas_in_words(made), asked_once())
    assert (solved.answer, scope) == (890, {"bricks": 4, "length": 890})
    with pytest.raises(LeftOut, match="by `where`"):
        prove_variant(made, {"bricks": 3}, formulas_in_words(made), asked_once())


def test_each_formula_in_words_is_asked_once(exercise, number) -> None:
    made = exercise(pose="{{ bricks }} or {{ bricks }}", parts=[number(ask="Of {{ bricks }}, {{ bricks * 2 }}?")])
    assert [formula.text for formula in formulas_in_words(made)] == ["bricks", "bricks * 2"]
    writes_out = asked_once()
    writes_out(910, "length")
    writes_out(910, "length")
    with pytest.raises(FormulaImpossible, match=r"`length` gives about 0\.2857"):
        writes_out(Fraction(2, 7), "length")


@pytest.mark.parametrize(
    ("kind", "left_out"),
    [
        ({"kind": "choice", "several": True, "choices": [
            {"say": "{{ bricks }} mm", "right": "true", "check": "true"},
            {"say": "{{ 6 - bricks }}  MM", "right": "false", "check": "false"},
        ]}, {"where two choices of pick read alike": 1}),
        ({"kind": "order", "before": [["a", "b"], ["b", "c"]], "steps": [
            {"name": "a", "say": "Lay {{ bricks }}"}, {"name": "b", "say": "Check"}, {"name": "c", "say": "Lay 4"},
        ]}, {"where two steps of pick read alike": 1}),
    ],
)  # fmt: skip
def test_what_a_learner_cannot_tell_apart_is_left_out(exercise, number, kind, left_out) -> None:
    pick = {"name": "pick", "ask": "Which?", "marks": 1, **kind}
    proof = prove(exercise(parts=[number(), pick]))
    assert proof.failure is None
    assert left_out.items() <= proof.left_out.items()
