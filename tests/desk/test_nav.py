"""A screen's place in the navigation."""

from __future__ import annotations

import re

import pytest

from courseware.desk.app import screens
from tests.desk.conftest import Sitter


@pytest.mark.parametrize(
    ("path", "screen"),
    [
        ("/papers", "Make papers"),
        ("/papers/0123abcd/who", "Make papers"),
        ("/sittings/KKKK", "Make papers"),
        ("/sittings/KKKK/grid", "Mark"),
        ("/sittings/KKKK/grid/LLLL/1", "Mark"),
        ("/sittings/KKKK/waiting", "Mark"),
        ("/sittings/KKKK/picture", "See"),
        ("/keep/register/KKKK", "Keep"),
        ("/keeping", None),
        ("/", None),
    ],
)
def test_each_page_belongs_to_one_screen(path: str, screen: str | None) -> None:
    assert [one.title for one in screens()[1] if one.holds(path)] == ([screen] if screen else [])


def test_the_screen_that_one_is_at_is_marked(client: Sitter) -> None:
    assert re.findall(r'aria-current="page">([^<]+)', client.get("/keep/times").text) == ["Keep"]
