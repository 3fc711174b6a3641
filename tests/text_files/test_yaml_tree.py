"""A file's tree by paths: what stands there, and where it is to be looked for, counted from 1."""

from __future__ import annotations

import pytest

from courseware.text_files.yaml_text import read_yaml
from courseware.text_files.yaml_tree import Keyed, Listing, Text, key_place, node_at, place, plain_data, text_at

FILE = """\
topic: Piers
parts:
  - name: length
    units: [mm, "m"]
    note:
  - {name: height}
"""
TREE = read_yaml(FILE.encode(), "piers.yaml")


def test_the_tree_is_plain_data_without_its_places() -> None:
    assert plain_data(TREE) == {
        "topic": "Piers",
        "parts": [{"name": "length", "units": ["mm", "m"], "note": None}, {"name": "height"}],
    }


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ((), Keyed),
        (("topic",), Text),
        (("parts",), Listing),
        (("parts", 1), Keyed),
        (("parts", 0, "units", 1), Text),
        (("parts", 2), type(None)),
        (("parts", "name"), type(None)),
        (("topic", "more"), type(None)),
        (("topic", 0), type(None)),
    ],
)
def test_what_stands_at_a_path(path, kind) -> None:
    assert type(node_at(TREE, path)) is kind


def test_a_text_says_what_was_typed_and_whether_quotes_stood_round_it() -> None:
    assert text_at(TREE, ("parts", 0, "units", 0)) == Text("mm", True, 4, 13)
    assert text_at(TREE, ("parts", 0, "units", 1)) == Text("m", False, 4, 17)
    assert text_at(TREE, ("parts", 0, "note")) == Text(None, True, 5, 10)
    assert text_at(TREE, ("parts",)) is None


@pytest.mark.parametrize(
    ("path", "where"),
    [
        (("topic",), (1, 8)),  # a text itself
        (("parts",), (2, 1)),  # of a list or map its key
        (("parts", 0), (3, 5)),  # of an item of a list the item
        (("parts", 0, "units", 1), (4, 17)),
        (("parts", 0, "note"), (5, 5)),  # nothing stands there: its key
        (("parts", 1, "units"), (6, 5)),  # a key that is missing: its map
        (("parts", 7, "name"), (2, 1)),
        ((), (1, 1)),
    ],
)
def test_where_to_look_for_it(path, where) -> None:
    assert place(TREE, path) == where


@pytest.mark.parametrize(
    ("path", "where"),
    [(("topic",), (1, 1)), (("parts", 0, "units"), (4, 5)), (("parts", 1, "name"), (6, 6)), (("parts", 1, "x"), (6, 5))],
)  # fmt: skip
def test_where_its_key_stands(path, where) -> None:
    assert key_place(TREE, path) == where
