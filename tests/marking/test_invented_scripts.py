"""The invented answers of the demonstration: whatever is drawn, one cell alone is for a person to read."""

from __future__ import annotations

import pytest

from courseware.marking.invented_scripts import invented_scripts
from courseware.marking.mark import mark_scripts


@pytest.mark.parametrize("seed", [f"invented {number}" for number in range(6)])
def test_every_invented_answer_reads_but_the_one_that_is_spoilt(composed, seed: str) -> None:
    """Every exercise of every shipped topic."""
    sitting, sources = composed(seed=seed)
    marked = mark_scripts(sitting, invented_scripts(sitting), (), sources)
    assert [question.written for question in marked.questions] == ["about 12"]
