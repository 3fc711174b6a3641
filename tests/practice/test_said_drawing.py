"""What is drawn is also said: every figure written in the drawing of every shipped exercise is in its text alternative."""

from __future__ import annotations

import html
import re

import pytest

from courseware.banks import solve
from courseware.banks.solve import scope_of
from courseware.drawings import to_svg
from courseware.drawings.fitted import Sizes, on_phone, on_screen
from courseware.drawings.picture import Label, Picture
from courseware.files.bank_files import read_banks, shipped_banks
from courseware.papers.compose_drawing import drawing_call
from courseware.practice.said_drawing import all_said

FIGURE = re.compile(r"\d+(?:\.\d+)?")


def of(*marks: Label) -> Picture:
    return Picture(width=10, height=10, marks=marks, alt="Drawing: a wall. Sizes in mm: length 900.")


def test_what_is_said_already_is_not_said_again() -> None:
    assert all_said(of(Label(at=(0, 0), text="900"))) == of(Label(at=(0, 0), text="900"))


def test_what_is_written_beside_the_sizes_is_said_and_then_the_scale() -> None:
    marks = (
        Label(at=(0, 0), text="course 12"),
        Label(at=(0, 0), text="eye line"),
        Label(at=(0, 0), text="500 mm", of_scale=True),
    )
    told = "Drawing: a wall. Sizes in mm: length 900. Also written in it: course 12. The bar of its scale: 500 mm."
    assert all_said(of(*marks)).alt == told


@pytest.mark.parametrize("path", shipped_banks(), ids=lambda path: path.stem)
def test_every_figure_of_every_shipped_drawing_is_in_its_text(path, space_of) -> None:
    """WCAG 2.2, 1.1.1: read back from the SVG as the page has it, in both layouts, with the sizes asked for and without."""
    [bank], _ = read_banks([path])
    looked = 0
    for exercise in bank.exercises:
        given = space_of(bank, exercise).variant(0)
        scope = scope_of(given, solve(exercise, given))
        for filled in (False, True):
            if (call := drawing_call(exercise, scope, filled=filled)) is None:
                continue
            for picture in (on_screen(Sizes(call)), on_phone(Sizes(call))):
                svg = to_svg(all_said(picture))
                [title] = re.findall(r"<title>(.*?)</title>", svg, re.DOTALL)
                texts = [
                    html.unescape(re.sub("<[^>]+>", "", text))
                    for text in re.findall(r"<text[^>]*>(.*?)</text>", svg, re.DOTALL)
                ]
                said = set(FIGURE.findall(html.unescape(title)))
                assert [text for text in texts if not set(FIGURE.findall(text)) <= said] == [], exercise.name
                looked += len(texts)
    assert looked or not any(exercise.drawing for exercise in bank.exercises)
