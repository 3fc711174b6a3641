"""Packing loses nothing, and lets a browser read one question without the others."""

from __future__ import annotations

import json

import pytest

from courseware.practice.packed import packed, packed_kind
from tests.practice.packed_kind import unpacked_kind, unpacked_text

KIND = {
    "notes": [{"title": "Dust", "lines": ["½ a mask\nis none"]}],
    "variants": [{"pose": "a\nb"}, {"pose": "c"}, {"pose": "d"}],
    "lines": ["<svg>", "</svg>"],
}


@pytest.mark.parametrize("lines", [[], ["<svg>", "</svg>"]])
@pytest.mark.parametrize("count", [1, 3])
def test_a_kind_comes_back_as_it_was(count, lines) -> None:
    kind = KIND | {"variants": KIND["variants"][:count], "lines": lines}
    assert unpacked_kind(packed_kind(kind)) == kind


def test_a_question_is_a_line_of_its_own_whatever_it_says() -> None:
    lines = unpacked_text(packed_kind(KIND)).split("\n")
    assert [json.loads(line) for line in lines[1:4]] == KIND["variants"]


def test_plain_data_is_one_text() -> None:
    assert json.loads(unpacked_text(packed({"words": ["½ brick"]}))) == {"words": ["½ brick"]}
