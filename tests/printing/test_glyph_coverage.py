"""Names with letters that the shipped fonts lack are told before anybody looks at a paper."""

from __future__ import annotations

import pytest

from courseware.papers.group import Learner
from courseware.printing.glyph_coverage import unprintable_names

FOREIGN = ("王小明", "李雷", "Ким 金", "山田")  # invented; no letter of Chinese is in the fonts


def note(*names: str) -> str:
    return " ".join(unprintable_names([Learner(name=name, reference="") for name in names]))


@pytest.mark.parametrize("name", ["Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe", "Ђорђе Ἀλέξ", ""])
def test_names_in_latin_greek_and_cyrillic_letters_are_printed(name: str) -> None:
    assert note(name) == ""


def test_only_the_names_that_cannot_be_printed_are_told() -> None:
    assert note("Amara Okafor", FOREIGN[0]).startswith(
        "the shipped fonts lack letters of 王小明: look at those papers."
    )
    assert "Okafor" not in note("Amara Okafor", FOREIGN[0])


@pytest.mark.parametrize(
    ("many", "told"),
    [(2, "王小明 and 李雷:"), (3, "王小明, 李雷 and Ким 金:"), (4, "王小明, 李雷, Ким 金 and 1 more:")],
)
def test_three_names_are_told_and_the_rest_counted(many: int, told: str) -> None:
    assert told in note(*FOREIGN[:many])
