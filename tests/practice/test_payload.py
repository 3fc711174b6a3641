"""Questions as plain data for the page: what is shown, what a figure is judged by, and no answer in what is shown."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from courseware.drawings.fitted import Sizes, on_phone, on_screen
from courseware.practice.lean_svg import lean_svg
from courseware.practice.payload import fewer_variants, kind_data, kind_heading
from courseware.practice.said_drawing import all_said
from tests.practice.test_kinds import kinds


def test_a_figure_has_what_it_is_judged_by() -> None:
    (kind,) = kinds("opening-for-a-panel", most=1)
    variant = kind_data(kind)["variants"][0]
    bricks = int(variant["given"]["bricks"])
    part = variant["parts"][0]
    assert part["right"] == str(225 * bricks + 10)  # Sheet 9, Table 1: CO + Joint
    assert part["answer"] == f"{225 * bricks + 10} mm"
    assert part["slips"][0] == {
        "right": str(225 * bricks),
        "says": "The extra joint was left out: an opening has a joint at both ends",
        "earns": 1,
    }
    assert [line["right"] for line in part["working"]] == ["225", str(225 * bricks), str(225 * bricks + 10)]
    assert part["rule"][0] == "Opening: one joint more than bricks"


def test_letters_go_with_what_stands_on_the_page() -> None:
    choice = kind_data(kinds("which-rule", most=1)[0])["variants"][0]["parts"][0]
    words = dict(choice["options"])
    assert sorted(words) == ["A", "B", "C", "D"]
    assert set(choice["wrong"]) == set(words) - {choice["right"]}
    order = kind_data(kinds("setting-out-order", most=1)[0])["variants"][0]["parts"][0]
    letters = order["right"].split(",")
    assert sorted(letters) == [letter for letter, _ in order["options"]]
    assert all(letters.index(one) < letters.index(other) for one, other in order["before"])
    assert [letter for letter, _ in order["options"]] != letters, "the steps are not shown in their order"


def test_a_table_has_its_rows_with_labels_of_their_own() -> None:
    table = kind_data(kinds("wall-between-two-wings", most=1)[0])["variants"][0]["parts"][0]
    assert table["kind"] == "table"
    assert [row["label"] for row in table["rows"]] == ["i", "ii", "iii"]
    assert all(Fraction(row["right"]) > 0 for row in table["rows"])


def test_a_drawing_is_there_line_by_line_for_a_wide_screen_and_for_a_phone() -> None:
    (kind,) = kinds("opening-for-a-panel", most=3)
    data = kind_data(kind)
    for question, variant in zip(kind.questions, data["variants"], strict=True):
        for call, places in ((question.key.asked.drawing, "drawing"), (question.key.drawing, "filled")):
            assert call is not None
            for layout, picture in (("wide", on_screen(Sizes(call))), ("narrow", on_phone(Sizes(call)))):
                assert [data["lines"][place] for place in variant[places][layout]] == lean_svg(
                    all_said(picture)
                ).splitlines()


def test_fewer_variants_are_those_of_fewer_questions() -> None:
    for kind in kinds("opening-for-a-panel", "which-rule", most=3):  # one with drawings, one without
        for most in (1, len(kind.questions)):
            assert fewer_variants(kind_data(kind), most) == kind_data(replace(kind, questions=kind.questions[:most]))


def test_what_is_shown_before_the_answer_does_not_hold_it() -> None:
    (kind,) = kinds("opening-for-a-panel", most=8)
    data = kind_data(kind)
    for variant in data["variants"]:
        drawn = [data["lines"][place] for layout in variant["drawing"].values() for place in layout]
        shown = " ".join([*drawn, variant["pose"], variant["setting"]])
        for part in variant["parts"]:
            assert f">{part['right']}<" not in shown
            assert part["answer"] not in shown


def test_the_heading_names_the_kind_and_says_whether_a_rule_can_be_asked() -> None:
    heading = kind_heading(kinds("opening-for-a-panel")[0])
    assert heading["title"] == "Opening for a panel"
    assert (heading["asks"], heading["level"], heading["parts"]) == (True, 1, ["opening_width", "opening_height"])
