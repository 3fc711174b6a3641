"""The shipped banks on decorative courses, mitres, panels, cutting, orders of work and squaring, read as a tutor reads them.

A slip's figure is what its words say, corners and frames are such as are built, nothing says that more weight is safe,
and level 3 takes more than one step.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

import pytest

from courseware.banks import solve
from courseware.banks.formulas import Value
from courseware.banks.solve import scope_of
from courseware.part_kinds.choice.bank import SolvedChoice
from courseware.part_kinds.drawn.bank import DrawnPart
from tests.banks.shipped import EXERCISES, READ, SITE, numbers, slip_figures, variants

TOPICS = (
    "decorative_courses",
    "mitre_template",
    "panels_and_surrounds",
    "safe_cutting",
    "sequence_of_work",
    "squaring_and_datums",
)
OWN = {name: (bank, exercise) for name, (bank, exercise) in EXERCISES.items() if bank.file[: -len(".yaml")] in TOPICS}


# Worked by hand, each from the words of the slip and the givens alone. Derived, no source, from: a UK brick and its
# joint 225, a course 75 (Sheet 9, opening paragraph); a header and its joint 112.5.
SLIPS = [
    ("soldier-course", {"bricks": 9, "extra": 2}, "soldiers", "The end joint was not", 26),  # 2015 in 75s
    ("soldier-course", {"bricks": 16, "extra": 5}, "soldiers", "The end joint was not", 47),  # 3590
    ("sill-on-edge", {"bricks": 7, "over": 2, "sills": 6}, "on_edge", "The joints were left out", 26),  # 1715 in 65s
    ("sill-on-edge", {"bricks": 10, "over": 0, "sills": 9}, "on_edge", "The joints were left out", 34),  # 2240
    ("sill-on-edge", {"bricks": 7, "over": 2, "sills": 6}, "on_edge", "The missing joint", 22),  # 1715 in 75s
    ("dentil-course", {"pairs": 14, "stands": 20, "more": 5}, "headers", "Stretchers were counted", 14),  # 3262.5 in 225s
    ("dentil-course", {"pairs": 24, "stands": 25, "more": 10}, "headers", "The missing joint", 48),  # 5502.5 in 112.5s
    ("dog-tooth-course", {"laid": 20, "spare": 7, "gap": 8, "rows": 2}, "teeth", "A joint was counted", 19),  # 3122
    ("dog-tooth-course", {"laid": 33, "spare": 8, "gap": 12, "rows": 2}, "teeth", "A joint was counted", 32),  # 5335
    ("dog-tooth-course", {"laid": 20, "spare": 7, "gap": 8, "rows": 2}, "teeth", "Rounded up", 21),
    ("dog-tooth-course", {"laid": 33, "spare": 8, "gap": 12, "rows": 2}, "teeth", "Divided by the size", 46),
    ("herringbone-in-an-opening", {"bricks": 3, "courses": 18, "angle": 90}, "with_spare", "1 % was added", 63),  # of 62
    ("herringbone-in-an-opening", {"bricks": 6, "courses": 11, "angle": 90}, "with_spare", "1 % was added", 77),  # of 76
    ("half-the-corner", {"slope": 6, "windows": 3, "spare": 2}, "bevel", "45 was taken", 51),
    ("half-the-corner", {"slope": 12, "windows": 11, "spare": 4}, "bevel", "Taken from 180", 129),
    ("draw-the-template", {"cuts": 80}, "cutting_in_all", "Divided by 100", "39.2"),  # 80 × 49
    ("draw-the-template", {"cuts": 192}, "cutting_in_all", "The leg was taken", "6.72"),  # 192 × 35
    ("mitre-in-german-bricks", {"panels": 5, "spare": 2, "waste": 10}, "nf_bricks", "A brick was taken", 49),  # 44 × 1.1
    ("mitre-in-german-bricks", {"panels": 5, "spare": 2, "waste": 10}, "nf_leg", "The joint at the mitre", 32),
    ("mitred-corners", {"bricks": 5, "courses": 9, "openings": 3}, "total_pieces", "The half bricks of one", 68),
    ("butted-corners", {"bricks": 4, "courses": 10}, "all_halves", "One upright", 31),
    ("noise-figures", {"low": 75, "mid": 83, "high": 88}, "over_first", "The reading at the mixer", 8),
    ("noise-figures", {"low": 79, "mid": 84, "high": 91}, "over_first", "The second action value", 1),
    ("weight-of-a-stack", {"each": "2.2", "bricks": 8, "carrier": 2, "total": 170}, "trips", "Rounded down", 21),
    ("weight-of-a-stack", {"each": "2.5", "bricks": 8, "carrier": "2.5", "total": 140}, "all_day", "One carrier", "352.5"),
    ("vibration-in-a-day", {"cutters": 3, "minutes": 35, "cuts": 40, "each": 4}, "days", "Rounded down", 1),
    ("vibration-in-a-day", {"cutters": 3, "minutes": 35, "cuts": 40, "each": 4}, "in_one_day", "Learners were", 6),
    ("uprights-and-infill", {"ahead": 2, "infill": 24, "lift": 2}, "allowed_later", "Bays were counted", 28),
    ("two-gangs", {"courses": 18, "bricks": 20, "first": 40, "check": 5}, "laying_time", "That is hours", "4.8"),
    ("two-gangs", {"courses": 30, "bricks": 20, "first": 50, "check": 5}, "laying_time", "The first gang", 720),
    ("two-gangs", {"courses": 18, "bricks": 20, "first": 40, "check": 5}, "of_the_first", "Those are the second", 168),
    ("three-four-five", {"unit": 350, "corners": 4}, "small_three", "Half was taken", 280),
    ("fault-in-a-squaring", {"unit": 475, "amiss": 20, "way": "long"}, "right_across", "3-4-5 was taken", 2375),
    ("fault-in-a-squaring", {"unit": 475, "amiss": 20, "way": "short"}, "right_across", "The two lengths", 3425),
]  # fmt: skip


@pytest.mark.parametrize(("name", "given", "part", "words", "figure"), SLIPS)
def test_a_slip_gives_the_figure_that_its_words_say(
    name: str, given: dict[str, Value], part: str, words: str, figure: int | str
) -> None:
    assert slip_figures(name, given, part, words) == [Fraction(figure)]


def test_a_dog_tooth_course_has_all_the_teeth_that_stand_in_the_length_it_prints(space_of) -> None:
    """Set out by hand from the printed figures: teeth of 102.5 at 45°, one after another from one end."""
    _, exercise = EXERCISES["dog-tooth-course"]
    for given in variants("dog-tooth-course", space_of, 240):
        [long] = re.findall(r"course is (\d+) mm long", exercise.pose.render(given, SITE))
        wide, pitch = 102.5 * math.sqrt(2), (102.5 + float(str(given["gap"]))) * math.sqrt(2)
        ends = [wide + n * pitch for n in range(60)]
        assert numbers(exercise, given)["teeth"].answer == sum(end <= int(long) for end in ends)
        assert int(long) < 60 * pitch


def test_half_bond_is_not_called_broken_bond() -> None:
    """Broken bond is the make-up where a length does not work in whole bricks (livery glossary, word 88)."""
    said = " ".join(re.sub(r"(?m)#.*$", "", bank.text) for bank in map(READ.__getitem__, TOPICS)).casefold()
    assert "half bond" in said
    assert "broken bond" not in said


def test_the_four_corners_of_a_window_make_a_closed_opening(space_of) -> None:
    """The corners of any four-sided opening make 360 degrees together."""
    _, exercise = EXERCISES["half-the-corner"]
    for given in variants("half-the-corner", space_of):
        text = exercise.pose.render(given, SITE)
        low, high = (int(size) for size in re.findall(r"(\d+) degrees", text))
        assert "two at the sill are square" in " ".join(text.split())
        assert low + high + 2 * 90 == 360
        assert low != high


def test_no_question_says_that_a_weight_is_safe(space_of) -> None:
    """HSE, CIS37: 20 kg is guidance on blocks handled again and again by one person, not a limit for any load."""
    _, exercise = EXERCISES["weight-of-a-stack"]
    for given in variants("weight-of-a-stack", space_of):
        solved = solve(exercise, given)
        [choice] = [part for part in solved if isinstance(part, SolvedChoice)]
        says = [one.say.render(scope_of(given, solved), SITE) for one in choice.part.choices]
        assert says[choice.right.index(True)].startswith("The risk assessment")
        assert "names no weight that is safe" in exercise.pose.render(given, SITE)
    assert not [formula for one in choice.part.choices if one.value for formula in one.value.names]


@pytest.mark.parametrize(
    "name",
    [
        "order-of-control", "match-the-controls", "noise-figures", "weight-of-a-stack", "vibration-in-a-day",
        "two-gangs", "finishing-off", "three-four-five", "out-of-square", "fault-in-a-squaring",
    ],
)  # fmt: skip
def test_no_line_of_the_brick_stands_under_a_question_without_bricks_to_measure(name: str) -> None:
    _, exercise = EXERCISES[name]
    assert exercise.brick_line == "none"


def test_a_reading_is_over_the_value_that_it_is_compared_with(space_of) -> None:
    for given in variants("noise-figures", space_of):
        number = numbers(EXERCISES["noise-figures"][1], given)
        assert number["over_first"].answer > 0
        assert number["over_second"].answer > 0


def test_a_frame_is_looked_at_by_a_person_who_stands_and_its_lower_run_on_either_side(space_of) -> None:
    """Common practice, no source: a standing person's eye is some 1.4 to 1.7 m above the floor."""
    _, exercise = EXERCISES["arrises-of-a-frame"]
    found = set()
    for given in variants("arrises-of-a-frame", space_of, 300):
        assert 1400 <= given["eye"] <= 1700
        found |= {part.answer for part in solve(exercise, given) if isinstance(part, SolvedChoice)}
    assert found == {"top", "underside", "yes", "no"}


def test_every_wrong_way_of_a_choice_comes_up(space_of) -> None:
    for name, answers in (
        ("fault-in-a-squaring", {"open", "closed"}),
        ("dentil-course", {"within", "over"}),
        ("fault-in-a-template", {"none", "twice", "angle"}),
        ("fault-in-a-plan", {"closed", "tall", "crooked", "fit"}),
        ("out-of-square", {"yes", "no"}),
    ):
        _, exercise = EXERCISES[name]
        found = {
            part.answer
            for given in variants(name, space_of, 300)
            for part in solve(exercise, given)
            if isinstance(part, SolvedChoice)
        }
        assert found == answers, name


def test_the_setting_does_not_say_which_way_a_corner_is_out() -> None:
    _, exercise = EXERCISES["fault-in-a-squaring"]
    for setting in exercise.settings:
        assert not re.search(r"\b(open|opened|closed)\b", setting.render({}, SITE))


LEVEL_3 = [name for name, (_, exercise) in OWN.items() if exercise.level == 3]


@pytest.mark.parametrize("name", LEVEL_3)
def test_level_3_takes_a_part_of_more_than_one_step(name: str) -> None:
    _, exercise = EXERCISES[name]
    steps = [
        part
        for part in exercise.numbers
        if part.marks >= 2 and sum(line.value is not None for line in part.working) >= 2
    ]
    assert steps
    assert sum(part.marks for part in exercise.parts) >= 4


def test_no_plural_after_one(space_of) -> None:
    """`1 courses` and the like."""
    for name, (_, exercise) in OWN.items():
        for given in variants(name, space_of, 20):
            scope = scope_of(given, solve(exercise, given))
            asked = [exercise.pose, *(part.ask for part in exercise.parts)]
            text = " ".join(wording.render(scope, SITE) for wording in asked)
            assert not re.search(r"(?<![\d.:])1 (courses|bricks|bays|lifts|cuts|panels|corners|joints)\b", text), name


def test_no_sentence_of_a_setting_can_leave_you_or_now_at_the_end_of_its_line() -> None:
    for name, (_, exercise) in OWN.items():
        for setting in exercise.settings:
            assert not re.search(r"[.!?] (You|Now) ", setting.render({}, SITE)), name


def test_a_hand_is_left_or_right() -> None:
    _, exercise = EXERCISES["both-hands"]
    text = " ".join(part.ask.render({}, SITE) for part in exercise.parts)
    assert "left-hand" in text
    assert "right hands" in text
    assert "one hand" not in text
    assert "other hand" not in text


def test_a_sketch_beside_a_drawing_asks_for_what_is_not_drawn() -> None:
    for name in ("bays-of-a-panel", "diagonal-of-an-opening"):
        [sketch] = [part for part in EXERCISES[name][1].parts if isinstance(part, DrawnPart)]
        assert sketch.adds
    [rows] = [part for part in EXERCISES["bays-of-a-panel"][1].parts if isinstance(part, DrawnPart)]
    assert "soldiers" in rows.ask.render({}, SITE)
