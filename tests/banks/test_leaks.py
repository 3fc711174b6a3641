"""An answer must not stand in what a learner reads elsewhere in the exercise: refused where it does in many variants."""

from __future__ import annotations

from fractions import Fraction

import pytest

from courseware.banks import prove
from courseware.banks.leaks import LARGE_SHARE, figures_in

EVERY = "in every variant: leave it out there, as `your answer to {{ label(length) }}`, or say `told: true` in length where the learner is to show how it comes"


def choice(*says: str, **keys: object) -> dict[str, object]:
    choices = [{"say": say, "value": f"'{n}'"} for n, say in enumerate(says)]
    return {"name": "which", "kind": "choice", "ask": "Which?", "marks": 1, "answer": "'0'", "choices": choices,
            "working": [{"say": "So", "value": "'0'"}], **keys}  # fmt: skip


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("Use 159.1 mm.", {Fraction("159.1")}),
        ("A mix of 1:5, on A4, by 3-4-5 and 2nd", {3, 4, 5, 2}),
        ("225 × 75, then 10mm", {225, 75, 10}),
        ("A batten of 7⅝ in and 12½", set()),
        ("none", set()),
    ],
)
def test_the_figures_a_text_shows(text: str, figures: set[object]) -> None:
    assert figures_in(text) == figures


@pytest.mark.parametrize(("says", "told"), [("all", True), ("sizes", False), ("none", False)])
def test_the_line_of_the_brick_tells_only_what_it_says(exercise, number, says: str, told: bool) -> None:
    asked = exercise(parts=[number("bed_thick", "bed", fixed=True)], brick_line=says)
    why = "the line that gives the brick and its joints gives the answer to bed_thick"
    failure = prove(asked).failure
    assert (failure is not None and failure.why.startswith(why)) is told


@pytest.mark.parametrize(
    ("keys", "later", "where"),
    [
        ({"pose": "It is {{ bricks * module - joint }} mm long."}, {}, "the question"),
        ({"setting": "It is {{ bricks * module - joint }} mm long."}, {}, "the question"),
        ({"drawing": {"kind": "pier", "shows": ["width"]}}, {}, "the drawing"),
        ({}, {"ask": "It is {{ pier(bricks) }} mm. How many courses of 75 are 900 mm?"}, "part b"),
    ],
    ids=["pose", "setting", "drawing", "a later part"],
)
def test_a_figure_that_stands_elsewhere(
    exercise, number, keys: dict[str, object], later: dict[str, str], where: str
) -> None:
    second = number("courses", "12", fixed=True, **later)
    failure = prove(exercise(parts=[number(unit="mm"), second], **keys)).failure
    assert (failure.raw, failure.given) == (0, "all variants")
    assert failure.why == f"{where} gives the answer to length {EVERY}"


def test_a_figure_written_out_by_the_author_gives_away_as_a_formula_does(exercise, number) -> None:
    first = number("half_one", "half", fixed=True)
    second = number(
        "all",
        "bricks * 112.5",
        ask="Use 112.5 mm for half a brick. How long are they?",
        working=[{"say": "So", "value": "half_one * bricks"}],
    )
    assert prove(exercise(parts=[first, second])).failure.why.startswith("part b gives the answer to half_one in every")


@pytest.mark.parametrize(("off", "leaks"), [("0.7", True), ("0.8", True), ("0.9", False)])
def test_a_figure_within_the_band_is_as_good_as_the_answer(exercise, number, off: str, leaks: bool) -> None:
    first = number("twice", "bricks * 2", within="0.8")
    second = number("other", "bricks", ask=f"Say it is {{{{ bricks * 2 - {off} }}}}. What then?")
    failure = prove(exercise(given={"bricks": "60 to 68"}, parts=[first, second])).failure
    assert (failure is not None) is leaks
    if failure:
        assert failure.why.startswith("part b gives the answer to twice in every variant")


def test_the_line_of_the_brick_is_read_too(exercise, number) -> None:
    joint = number("joint_wide", "perpend", fixed=True)
    assert prove(exercise(parts=[joint])).failure.why.startswith(
        "the line that gives the brick and its joints gives the answer to joint_wide in every variant"
    )


def test_choices_of_another_part_are_read(exercise, number) -> None:
    says = ("{{ bricks * 225 - 10 }} by 3", "{{ bricks * 225 - 10 }} by 4")
    failure = prove(exercise(parts=[number(), choice(*says)])).failure
    assert failure.why.startswith("the choices of part b gives the answer to length")


def test_the_words_of_the_right_choice_alone_give_it_away(exercise, number) -> None:
    says = ("Because joints stand between bricks", "Because a bed is laid first")
    told = choice(*says)
    after = number(ask="Because joints stand between bricks, how long is it?")
    assert prove(exercise(parts=[told, after])).failure.why.startswith(
        "part b gives the answer to which in every variant"
    )
    both = number(ask="Because joints stand between bricks, or because a bed is laid first: how long is it?")
    assert prove(exercise(parts=[told, both])).failure is None


@pytest.mark.parametrize(("word", "told"), [("above", False), ("behind", True)])
def test_words_of_fewer_than_six_letters_stand_in_any_question(exercise, number, word: str, told: bool) -> None:
    after = number(ask=f"The line stands {word} the wall. How long is it?")
    failure = prove(exercise(parts=[choice(word, "in front of it"), after])).failure
    assert (failure is not None) is told


@pytest.mark.parametrize(("most", "told"), [(2, 1), (3, 2), (5, 4), (9, 8)])
@pytest.mark.parametrize("asks", ["Where does the line stand?", "Where does the line of {{ bricks }} bricks stand?"])
def test_words_that_differ_from_variant_to_variant_are_read_in_each(exercise, most: int, told: int, asks: str) -> None:
    """Of the 8 variants of 2 to 9 bricks; 2 are chance, 4 are a large share."""
    pose = f"Of {{{{ bricks }}}} bricks, {{{{ 'above the gate' if bricks <= {most} else 'beside it' }}}}."
    parts = [choice("above the gate", "in front of it", ask=asks)]
    failure = prove(exercise(pose=pose, parts=parts, brick_line="none")).failure
    assert (failure is not None) is (told >= 3)
    if failure:
        often = "every variant" if told == 8 else f"{told} of 8 variants"
        assert failure.why.startswith(f"the question gives the answer to which in {often}")


@pytest.mark.parametrize(("bricks", "refused"), [("7", False), ("8", True), ("9", True)])
def test_a_large_share_is_two_in_five(exercise, number, bricks: str, refused: bool) -> None:
    """Of 20 variants, in 7 (under), 8 (at) and 9 (over) the question shows the answer; in the others another figure."""
    assert Fraction(2, 5) == LARGE_SHARE
    shown = exercise(
        given={"bricks": "21 to 40"},
        pose=f"It is {{{{ bricks if bricks < 21 + {bricks} else bricks + 50 }}}}.",
        parts=[number("amount", "bricks")],
    )
    failure = prove(shown).failure
    assert (failure is not None) is refused
    if refused:
        assert f"in {bricks} of 20 variants" in failure.why


@pytest.mark.parametrize(("variants", "refused"), [(1, True), (2, False), (3, True)])
def test_two_of_a_few_variants_are_chance_and_all_of_them_are_not(
    exercise, number, variants: int, refused: bool
) -> None:
    """The question shows the answer in so many variants of three; or in the one that there is."""
    pose = f"It is {{{{ bricks if bricks < 21 + {variants} else bricks + 50 }}}}."
    given = {"bricks": "21 to 23" if variants > 1 else "21 to 21"}
    failure = prove(exercise(given=given, pose=pose, parts=[number("amount", "bricks")])).failure
    assert (failure is not None) is refused


def test_a_figure_may_be_given_before_it_is_asked_for(exercise, number) -> None:
    pose = "Show that the pier is {{ bricks * module - joint }} mm long."
    assert prove(exercise(pose=pose, parts=[number(told=True)])).failure is None
    drawn = {"kind": "pier", "shows": ["width"]}
    assert prove(exercise(drawing=drawn, parts=[number(told=True, unit="mm")])).failure is None
    late = number("other", "bricks", ask="It is {{ bricks * module - joint }} mm. How many bricks?")
    assert prove(exercise(parts=[number(told=True), late])).failure.why == (
        "part b gives the answer to length in every variant, after it is asked: put length behind it"
    )
    assert prove(exercise(parts=[number(told=True)])).failure.why == (
        "length says `told: true`, and nothing that the learner reads gives its answer"
    )


def test_a_sketch_beside_a_drawing_says_what_it_adds(exercise, number) -> None:
    sketch = {"name": "sketch", "kind": "drawn", "ask": "Sketch it.", "points": ["Half bond"], "marks": 1}
    failure = prove(exercise(drawing="pier", parts=[number(), sketch])).failure
    assert failure.why.startswith("sketch asks for a sketch where the exercise prints a drawing: say in `adds`")
    assert prove(exercise(drawing="pier", parts=[number(), {**sketch, "adds": "the bond"}])).failure is None
    assert prove(exercise(parts=[number(), sketch])).failure is None
    assert prove(exercise(drawing="mitre", parts=[number(), sketch])).failure is None  # made to be drawn in
