"""How a learner's sheets are set, in the words of a class list's column `Paper`."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from courseware.papers.sheet_format import STANDARD, FormatUnknown, SheetFormat, beside, format_words, read_format

FORMATS = st.builds(
    SheetFormat,
    size=st.sampled_from([11, 14, 18, 24]), sheet=st.sampled_from(["A4", "A3"]), face=st.sampled_from(["atkinson", "andika"]),
    ground=st.sampled_from(["white", "cream", "blue", "green", "pink", "yellow"]), spaced=st.booleans(), part_a_page=st.booleans(), roomy=st.booleans(),
    extra_time=st.integers(0, 100),
)  # fmt: skip


@pytest.mark.parametrize(
    ("words", "format"),
    [
        ("", STANDARD),
        ("large-18", SheetFormat(size=18)),
        ("roomy", SheetFormat(roomy=True)),
        ("Large 24 pt", SheetFormat(size=24)),
        ("large 18, A3", SheetFormat(size=18, sheet="A3")),
        ("Andika; cream; spaced", SheetFormat(face="andika", ground="cream", spaced=True)),
        ("extra time 25 %", SheetFormat(extra_time=25)),
        ("extra-25%", SheetFormat(extra_time=25)),
        ("part-a-page extra 1", SheetFormat(part_a_page=True, extra_time=1)),
        ("extra-100", SheetFormat(extra_time=100)),
    ],
)
def test_words_say_a_format_in_any_order_and_as_people_write_them(words: str, format: SheetFormat) -> None:
    assert read_format(words) == format


@pytest.mark.parametrize(
    "words", ["large", "large-20", "extra-0", "extra-101", "18", "yes", "=1+1", "dyslexic", "x" * 500]
)
def test_what_is_no_format_is_told_with_the_words_that_are_known(words: str) -> None:
    with pytest.raises(FormatUnknown, match="large-18") as refused:
        read_format(words)
    assert len(str(refused.value)) < 300


def test_two_words_for_one_thing_are_refused() -> None:
    with pytest.raises(FormatUnknown, match="size"):
        read_format("large-18 large-24")


@given(FORMATS)
def test_a_format_is_written_in_words_that_read_back(asked: SheetFormat) -> None:
    assert read_format(format_words(asked)) == asked


def test_the_standard_format_takes_no_words() -> None:
    assert format_words(STANDARD) == ""


@given(FORMATS, FORMATS)
def test_a_learners_own_word_stands_over_everybodys(own: SheetFormat, everybodys: SheetFormat) -> None:
    both = beside(own, everybodys)
    assert beside(STANDARD, everybodys) == everybodys
    assert beside(own, STANDARD) == own
    assert both.size == (own.size if own.size != STANDARD.size else everybodys.size)
