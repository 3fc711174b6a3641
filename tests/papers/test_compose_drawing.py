"""The drawing of a variant: sizes shown, blank or filled in, and all of it in words for who cannot see it."""

from __future__ import annotations

import pytest

from courseware.files.bank_files import shipped_banks
from courseware.papers.compose import compose_key, compose_paper
from courseware.papers.compose_drawing import drawing_call

TOPICS = [path.stem for path in shipped_banks()]


@pytest.mark.parametrize("topic", TOPICS)
def test_sizes_asked_for_are_blank_on_the_paper_and_filled_on_the_key(composed, topic) -> None:
    sitting, sources = composed(topic)
    paper, key = compose_paper(sitting, 0, sources), compose_key(sitting, 0, sources)
    for asked, keyed in zip(paper.exercises, key.exercises, strict=True):
        if asked.drawing is None:
            continue
        assert keyed.drawing is not None
        assert asked.drawing.figures == keyed.drawing.figures
        answers = {answer.answer.split(" ")[0] for part in keyed.answers for answer in part}
        for dimension, text in asked.drawing.labels.items():
            if text is None:
                assert keyed.drawing.labels[dimension].split(" ")[0].rstrip("°") in answers
            else:
                assert keyed.drawing.labels[dimension] == text


def test_the_words_of_a_drawing_say_the_unit_of_a_size_that_is_not_in_mm(composed) -> None:
    sitting, sources = composed("opening_sizes")
    of_name = {dealt.exercise: n for n, dealt in enumerate(sitting.papers[0].exercises)}
    key = compose_key(sitting, 0, sources).exercises
    inches, mm = (key[of_name[name]].drawing for name in ("us-modular-in-inches", "setting-out-order"))
    assert mm.alt.endswith(f" Sizes in mm: width {mm.labels['width']}, height {mm.labels['height']}.")
    assert all(label.endswith(" in") for label in inches.labels.values())
    assert inches.alt.endswith(f". It says: width {inches.labels['width']}, height {inches.labels['height']}.")


def test_some_sizes_are_asked_for_in_drawings(composed) -> None:
    sitting, sources = composed("opening_sizes")
    labels = [e.drawing.labels for e in compose_paper(sitting, 0, sources).exercises if e.drawing]
    assert None in [text for shown in labels for text in shown.values()]


def call(exercise, drawing, filled: bool = False, **keys: object):
    part = {"name": "width", "ask": "How long?", "answer": "pier(bricks)", "unit": "mm", "marks": 1,
            "working": [{"say": "So", "value": "pier(bricks)"}], **keys}  # fmt: skip
    made = exercise(drawing=drawing, parts=[part])
    return drawing_call(made, {"bricks": 4, "width": made.parts[0].answer.value({"bricks": 4})}, filled=filled)


SHOWN = {"kind": "pier", "bricks": "bricks", "shows": ["height"], "asks": {"width": "width"}}


def test_an_exercise_without_a_drawing_calls_for_none(exercise) -> None:
    assert drawing_call(exercise(), {"bricks": 4}, filled=False) is None


def test_a_size_shown_is_printed_and_one_asked_for_is_left_to_the_learner(exercise) -> None:
    """Sheet 9, Table 1: a pier of four bricks; six courses at a gauge of 75 mm."""
    assert call(exercise, SHOWN).labels == {"width": None, "height": "450"}
    assert call(exercise, SHOWN, filled=True).labels == {"width": "890", "height": "450"}
    assert call(exercise, {"kind": "pier", "bricks": "bricks"}).labels == {}


def test_its_words_have_the_sizes_that_are_printed_and_say_what_is_left_blank(exercise) -> None:
    assert call(exercise, SHOWN).alt.endswith(" Sizes in mm: height 450. Sizes asked for are left blank.")
    assert call(exercise, SHOWN, filled=True).alt.endswith(" Sizes in mm: width 890, height 450.")


@pytest.mark.parametrize(
    ("unit", "answer", "label"),
    [("m", "pier(bricks) / 1000", "0.89 m"), ("mm", "pier(bricks)", "890"), ("", "pier(bricks)", "890")],
)
def test_a_size_in_another_unit_says_which(exercise, unit: str, answer: str, label: str) -> None:
    found = call(exercise, SHOWN, filled=True, unit=unit, answer=answer)
    assert found.labels["width"] == label
    assert (f"It says: width {label}." in found.alt) is (unit == "m")


def test_figures_are_exact_and_what_is_left_out_is_taken(exercise) -> None:
    assert call(exercise, SHOWN).figures == {"bricks": 4, "courses": 6}
