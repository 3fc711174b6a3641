"""What the workbook says its words mean, and what a small class can bear."""

from __future__ import annotations

import pytest

from courseware.class_report.words import MEANINGS, caution
from courseware.reports.words import SMALL


@pytest.mark.parametrize(("n", "said"), [(1, True), (SMALL - 1, True), (SMALL, False), (SMALL + 1, False)])
def test_a_small_class_is_cautioned(n: int, said: bool) -> None:
    assert bool(caution(n)) is said
    if said:
        assert f"n = {n}." in caution(n)


def test_each_word_has_one_meaning_of_whole_sentences() -> None:
    words = [word for word, _ in MEANINGS]
    assert len(set(words)) == len(words)
    assert all(meaning.endswith(".") for _, meaning in MEANINGS)
