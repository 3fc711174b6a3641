"""A centre's own word for the upright joint stands wherever a text says perpend, and nowhere else."""

from __future__ import annotations

import pytest

from courseware.settings.settings import PERPEND
from courseware.settings.upright_joint import with_own_word


@pytest.mark.parametrize(
    ("text", "word", "said"),
    [
        ("How many perpends (upright joints) does one course have?", "perp", "How many perps (upright joints) does one course have?"),
        ("Perpends are 10 mm.", "cross joint", "Cross joints are 10 mm."),
        ("There is a perpend (upright joint) against the return.", "upright joint", "There is an upright joint against the return."),
        ("A perpend", "upright joint", "An upright joint"),
        ("An odd perpend", "perp", "An odd perp"),
        ("perpendicular to the bed", "perp", "perpendicular to the bed"),
        ("The perp and the cross joint", "upright joint", "The perp and the cross joint"),
        ("one perpend, two perpends", "Stoßfuge", "one Stoßfuge, two Stoßfuges"),
    ],
)  # fmt: skip
def test_the_word_is_put_for_perpend(text, word, said) -> None:
    assert with_own_word(text, word) == said
    assert with_own_word(text, PERPEND) == text
