"""Wording: text with places for figures, filled in one pass; nothing else in it means anything."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from courseware.banks.formulas import FormulaFault, FormulaImpossible
from courseware.banks.wording import NUMBER, read_wording
from courseware.text_files.faults import BankFaulty

SCOPE = {"bricks": 4, "wide": Fraction("1022.5"), "side": "left", "third": Fraction(37, 3)}
SITE = {"place": "{{ bricks }}", "street": "Larch Row", "client": "%s {0} $side"}  # invented, and not scanned again


def read(formula, text: str, most: int = 300):
    kinds = {name: "word" if isinstance(value, str) else "number" for name, value in SCOPE.items()}
    return read_wording(text, lambda inside: formula(inside, **kinds), most)


@pytest.mark.parametrize(
    ("text", "rendered"),
    [
        ("A pier {{ bricks }} bricks long.", "A pier 4 bricks long."),
        ("{{ bricks }}", "4"),
        ("{{bricks}}{{wide}}", "41022.5"),
        ("{{ bricks * module - joint }} mm", "890 mm"),  # Sheet 9, Table 1: a pier of 4 bricks
        ("On the {{ side }}", "On the left"),
        ("{{ third }} courses, {{ 0 - bricks }} down", "12⅓ courses, −4 down"),
        ("{{ 'two' if bricks == 2 else 'not two' }}", "not two"),
        ("In {{ place }}, for {{ client }}", "In {{ bricks }}, for %s {0} $side"),
        ("No places, { single } braces }", "No places, { single } braces }"),
        ("{% for i in range(9) %}x{% endfor %} ${bricks} %(bricks)s", "{% for i in range(9) %}x{% endfor %} ${bricks} %(bricks)s"),
        ("{0[__globals__]} {bricks!r}", "{0[__globals__]} {bricks!r}"),
        ("<script>alert(1)</script> & *bold*", "<script>alert(1)</script> & *bold*"),
    ],
)  # fmt: skip
def test_places_are_filled_and_the_rest_stands_as_typed(formula, text: str, rendered: str) -> None:
    assert read(formula, text).render(SCOPE, SITE) == rendered


@pytest.mark.parametrize(
    ("text", "wrong", "expected"),
    [
        ("A {{ bricks", "a place opened by {{ is not closed", "expected }} after the formula"),
        ("A bricks }}", "}} without a {{ before it", "expected {{ formula }}"),
        ("A {{ bricks }} }}", "}} without a {{ before it", "expected {{ formula }}"),
        ("A {{ {{ bricks }} }}", "the character `{` cannot stand in a formula", "no braces"),
        ("A {{ }}", "the formula is empty", "expected a formula such as `bricks * module + joint`"),
        ("A {{ bricks > 3 }}", "`bricks > 3` is a truth", "expected a figure or a word to print"),
        ("A {{ places }}", "`places` is not known here", None),
        ("A {{ place + 1 }}", "`place` is not known here", None),
        ("A {{ bricks|upper }}", "`bricks|upper` is not allowed in a formula", None),
        ("A {{ bricks:>9 }}", "`bricks:>9` does not read as a formula", "check brackets and signs"),
        ("x" * 61, "a word of more than 60 characters", "shorter words, which fit a line"),
        ("a " * 151, "the text has 302 characters", "at most 300 are allowed here"),
    ],
)  # fmt: skip
def test_a_place_that_does_not_read_is_told(formula, text: str, wrong: str, expected: str | None) -> None:
    with pytest.raises(FormulaFault) as fault:
        read(formula, text)
    assert fault.value.wrong == wrong
    assert expected in (None, fault.value.expected)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("{{ 1 / 7 }}", "`1 / 7` gives about 0.1429: it does not write out exactly: round it, as in nearest(x, 0.01)"),
        ("{{ 10 ** 12 * 10 ** 4 }}", "`10 ** 12 * 10 ** 4` gives about 1e+16: it has more than 15 digits"),
        ("{{ 10 ** 12 * 10 ** 12 }}", "`10 ** 12 * 10 ** 12` gives a very long figure: it has more than 15 digits"),
        ("{{ 1 / (bricks - 4) }}", "`1 / (bricks - 4)` divides by nothing"),
    ],
)
def test_a_figure_that_does_not_write_out_fails(formula, text: str, why: str) -> None:
    with pytest.raises(FormulaImpossible) as impossible:
        read(formula, text).render(SCOPE, SITE)
    assert str(impossible.value) == why


@settings(deadline=None)
@given(st.text(max_size=60).filter(lambda text: "{{" not in text and "}}" not in text))
def test_any_text_without_places_stands_as_typed(formula, text: str) -> None:
    assert read(formula, text).render(SCOPE, SITE) == text


TWO = [
    {"name": "length", "ask": "How long is it?", "answer": "pier(bricks)", "marks": 1,
     "working": [{"say": "So", "value": "pier(bricks)"}]},
    {"name": "sizes", "kind": "table", "ask": "Go by your answer to {{ label(length) }}.",
     "rows": [{"name": "twice", "say": "Twice {{label( length )}}?", "answer": "length * 2", "marks": 1,
               "working": [{"say": "Twice {{ label(twice) }}", "value": "length * 2"}]}]},
]  # fmt: skip


def test_a_part_is_called_by_its_label_with_the_exercise_s_number_on_a_paper(exercise) -> None:
    table = exercise(parts=TWO).parts[1]
    assert table.ask.render({}, {}) == "Go by your answer to part a."
    assert table.ask.render({}, {NUMBER: "5"}) == "Go by your answer to 5a."
    assert table.rows[0].ask.render({}, {NUMBER: "5"}) == "Twice 5a?"
    assert table.rows[0].working[0].say.render({}, {NUMBER: "5"}) == "Twice 5b(i)"


def test_a_label_of_no_part_is_refused(exercise) -> None:
    with pytest.raises(BankFaulty) as fault:
        exercise(parts=[{**TWO[0], "ask": "Go by {{ label(lenght) }}."}])
    assert "`lenght` is not a part; did you mean `length`? expected one of length" in str(fault.value)
