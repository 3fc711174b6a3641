"""The kinds of part there are: each is known to every room that it passes, and two that share a key mean the same by it."""

from __future__ import annotations

from importlib.resources import files

import pytest

from courseware.banks.part_kinds import BANK_KINDS, kind_folders, listed_kinds
from courseware.feedback.part_kind import FEEDBACK_KINDS
from courseware.marking.part_kind import MARKING_KINDS
from courseware.papers.part_kind import PAPER_KINDS
from courseware.practice.part_kind import PRACTICE_KINDS
from courseware.printing.part_kind import PRINT_KINDS

ISSUED = [name for name in kind_folders() if PAPER_KINDS.get(name)]  # those that a sitting's record names
IN_ROWS = {"table"}  # fed back and practised row by row, each a figure


def test_they_are_listed_in_the_order_of_the_manual() -> None:
    assert listed_kinds() == ("number", "choice", "order", "table", "drawn", "words")


def test_a_few_words_are_a_drawn_part_with_lines_once_they_are_issued() -> None:
    assert set(listed_kinds()) - set(ISSUED) == {"words"}


@pytest.mark.parametrize("name", ISSUED)
def test_a_kind_that_is_issued_is_printed_marked_fed_back_and_practised(name: str) -> None:
    folder = files(f"courseware.part_kinds.{name}")
    assert MARKING_KINDS[name]
    assert PRACTICE_KINDS[name]
    assert PRINT_KINDS[name]
    assert folder.joinpath("room.html").is_file()
    if name not in IN_ROWS:
        assert FEEDBACK_KINDS[name]
        assert f"PART_KINDS.{name} = {{" in folder.joinpath("page.js").read_text(encoding="utf-8")


def test_a_key_of_two_kinds_means_the_same_in_both() -> None:
    said: dict[str, tuple[object, ...]] = {}
    for name in listed_kinds():
        for key, field in BANK_KINDS[name].keys.model_fields.items():
            means = (field.annotation, field.default, field.description)
            assert said.setdefault(key, means) == means, (name, key)


@pytest.mark.parametrize("name", ["", "..", "number.bank", "nothing", "__init__"])
def test_what_is_no_kind_is_not_looked_for(name: str) -> None:
    assert BANK_KINDS.get(name) is None
    with pytest.raises(KeyError):
        BANK_KINDS[name]
