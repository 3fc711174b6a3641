"""The questions that are practised: from the practice share alone, the same for the same banks, and as papers say them."""

from __future__ import annotations

import json
from fractions import Fraction
from functools import lru_cache
from pathlib import Path

from courseware.banks import Bank, SafetyNotes, Space, prove, read_bank, read_safety_notes
from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.drawings import draw, to_svg
from courseware.files.bank_files import find_banks, read_banks
from courseware.papers.shares import for_practice
from courseware.practice.kinds import PracticeKind, needs_paper, practice_kinds
from courseware.practice.payload import kind_data, kind_heading

FOLDER = Path(__file__).parents[2] / "question_banks"
NAMES = ("opening-for-a-panel", "which-rule", "setting-out-order", "wall-between-two-wings")


@lru_cache(maxsize=1)
def bank_and_notes() -> tuple[Bank, SafetyNotes]:
    notes = FOLDER / "safety_notes.yaml"
    bank = FOLDER / "opening_sizes.yaml"
    return read_bank(bank.read_bytes(), bank.name), read_safety_notes(notes.read_bytes(), notes.name)


@lru_cache(maxsize=8)
def share(name: str) -> Space:
    return for_practice(prove(next(e for e in bank_and_notes()[0].exercises if e.name == name)).space)


def kinds(*names: str, most: int = 5) -> tuple[PracticeKind, ...]:
    bank, notes = bank_and_notes()
    chosen = [(bank, share(name).exercise) for name in names]
    return practice_kinds(chosen, [share(name) for name in names], notes, most)


def test_every_question_is_of_the_practice_share_and_none_comes_twice() -> None:
    (kind,) = kinds("opening-for-a-panel", most=100)
    space = share("opening-for-a-panel")
    offered = {str(sorted(space.variant(index).items())) for index in range(len(space))}
    asked = [str(sorted({k: int(v) for k, v in q.issued.given.items()}.items())) for q in kind.questions]
    assert len(asked) == len(set(asked)) == len(space)
    assert set(asked) == offered


def test_the_same_banks_give_the_same_questions() -> None:
    first, again = ([json.dumps(kind_data(kind)) for kind in kinds(*NAMES)] for _ in range(2))
    assert first == again


def test_an_exercise_without_variants_for_practice_is_left_out() -> None:
    bank, notes = bank_and_notes()
    exercise = bank.exercises[0]
    assert practice_kinds([(bank, exercise)], [Space(exercise=exercise, indices=())], notes) == ()


def test_a_figure_has_what_it_is_judged_by() -> None:
    (kind,) = kinds("opening-for-a-panel")
    variant = kind_data(kind)["variants"][0]
    bricks = int(variant["given"]["bricks"])
    part = variant["parts"][0]
    assert part["right"] == str(225 * bricks + 10)  # Sheet 9, Table 1: CO + Joint
    assert part["answer"] == f"{225 * bricks + 10} mm"
    assert part["slips"][0] == {
        "right": str(225 * bricks),
        "says": "The extra joint was left out: an opening has a joint at both ends",
    }
    assert [line["right"] for line in part["working"]] == ["225", str(225 * bricks), str(225 * bricks + 10)]
    assert part["rule"][0] == "Opening: one joint more than bricks"


def test_letters_go_with_what_stands_on_the_page() -> None:
    choice = kind_data(kinds("which-rule")[0])["variants"][0]["parts"][0]
    words = dict(choice["options"])
    assert sorted(words) == ["A", "B", "C", "D"]
    assert set(choice["wrong"]) == set(words) - {choice["right"]}
    order = kind_data(kinds("setting-out-order")[0])["variants"][0]["parts"][0]
    letters = order["right"].split(",")
    assert sorted(letters) == [letter for letter, _ in order["options"]]
    assert all(letters.index(one) < letters.index(other) for one, other in order["before"])
    assert [letter for letter, _ in order["options"]] != letters, "the steps are not shown in their order"


def test_a_table_has_its_rows_with_labels_of_their_own() -> None:
    table = kind_data(kinds("wall-between-two-wings")[0])["variants"][0]["parts"][0]
    assert table["kind"] == "table"
    assert [row["label"] for row in table["rows"]] == ["i", "ii", "iii"]
    assert all(Fraction(row["right"]) > 0 for row in table["rows"])


def test_a_drawing_is_the_same_svg_as_on_paper_line_by_line() -> None:
    (kind,) = kinds("opening-for-a-panel")
    data = kind_data(kind)
    for question, variant in zip(kind.questions, data["variants"], strict=True):
        for call, places in ((question.key.asked.drawing, "drawing"), (question.key.drawing, "filled")):
            assert call is not None
            assert [data["lines"][place] for place in variant[places]] == to_svg(draw(call)).splitlines()


def test_what_is_shown_before_the_answer_does_not_hold_it() -> None:
    (kind,) = kinds("opening-for-a-panel", most=20)
    data = kind_data(kind)
    for variant in data["variants"]:
        shown = " ".join([*(data["lines"][place] for place in variant["drawing"]), variant["pose"], variant["setting"]])
        for part in variant["parts"]:
            assert f">{part['right']}<" not in shown
            assert part["answer"] not in shown


def test_the_heading_names_the_kind_and_says_whether_a_rule_can_be_asked() -> None:
    heading = kind_heading(kinds("opening-for-a-panel")[0])
    assert heading["title"] == "Opening for a panel"
    assert (heading["asks"], heading["level"], heading["parts"]) == (True, 1, ["opening_width", "opening_height"])


def test_an_exercise_that_is_drawn_in_at_true_size_is_left_to_paper(space_of) -> None:
    banks, notes = read_banks(find_banks(["mitre_template"]))
    chosen = [(bank, exercise) for bank in banks for exercise in bank.exercises]
    on_paper = {exercise.name for _, exercise in chosen if needs_paper(exercise)}
    assert on_paper == {e.name for _, e in chosen if e.drawing and DRAWING_KINDS[e.drawing.kind].to_draw_in} != set()
    kinds = practice_kinds(chosen, [space_of(*pair) for pair in chosen], notes, 2)
    assert not on_paper & {kind.exercise.name for kind in kinds}
