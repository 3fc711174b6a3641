"""A practice that a learner saved: read as a stranger's file, with whatever makes it doubtful."""

from __future__ import annotations

import json
from datetime import date

import pytest

from courseware.practice.saved_file import MOST_BYTES, PracticeFaulty, SavedPractice, read_practice
from tests.practice.saved_practices import SLIP, as_bytes, practised, saved

TODAY = date(2026, 4, 1)


def read(found) -> SavedPractice:
    return read_practice(found if isinstance(found, bytes) else as_bytes(found), "a.json", TODAY)


def test_it_says_who_practised_what_on_which_days() -> None:
    found = read(
        saved("Zoë Smythe", days=2, kinds=[practised(secure=True), practised("Height of a lift", slips=(SLIP,))])
    )
    assert (found.name, found.doubts) == ("Zoë Smythe", ())
    assert [day.day.isoformat() for day in found.days] == ["2026-03-01", "2026-03-02"]
    assert [(kind.exercise, kind.secure, kind.slips) for kind in found.practised] == [
        ("Opening for a panel", True, []), ("Height of a lift", False, [SLIP]),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("by_hand", "why"),
    [
        ({"name": "Somebody else"}, "was changed since the page saved it"),
        ({"seal": ""}, "was changed since the page saved it"),
        ({"practised": [practised(secure=True)]}, "was changed since the page saved it"),
        ({"saved": "2026-04-02"}, "was saved on a day that is still to come"),
        ({"days": [{"day": "2026-04-01", "questions": 1, "right": 1}]}, "has days after the one it was saved on"),
        ({"days": [{"day": "2026-03-01", "questions": 1, "right": 2}]}, "has more right than asked"),
    ],
)  # fmt: skip
def test_a_file_changed_by_hand_is_read_and_doubted(by_hand, why) -> None:
    assert why in read(saved() | by_hand).doubts


def test_a_file_saved_today_is_not_doubted() -> None:
    assert read_practice(as_bytes(saved()), "a.json", date(2026, 3, 31)).doubts == ()


def test_a_figure_written_otherwise_is_a_change() -> None:
    text = as_bytes(saved()).replace(b'"level": 1', b'"level": 1.0')
    assert read(text).doubts == ("was changed since the page saved it",)


HOSTILE = [
    b"", b"hello", b"[]", b"null", b"\xff\xfe", b"{" * 100_000, b'{"a":' * 100_000, b'{"form": NaN}', b"9" * 10_000,
    as_bytes(saved(form="other")), as_bytes(saved(version=1)), as_bytes(saved(version=3)),
    as_bytes(saved(name=7)), as_bytes(saved(name="x" * 401)), as_bytes(saved(saved="yesterday")),
    as_bytes(saved() | {"days": "many"}), as_bytes(saved() | {"days": [{"day": "2026-02-30", "questions": 1, "right": 1}]}),
    as_bytes(saved() | {"days": [{"day": "2026-03-01", "questions": -1, "right": 0}]}),
    as_bytes(saved() | {"days": [{"day": "2026-03-01", "questions": 10**30, "right": 0}]}),
    as_bytes(saved(practised=[practised()] * 2001)), as_bytes(saved(practised={"a": 1})), as_bytes(saved(memory=[])),
    as_bytes(saved(practised=[practised(slips=("x",) * 101)])),
    b'{"form": "courseware-practice", "version": 2}', b'{"form": "courseware-practice", "version": 2, "name": "\\ud800"}',
    b" " * (MOST_BYTES + 1),
]  # fmt: skip


@pytest.mark.parametrize("data", HOSTILE)
def test_what_is_no_saved_practice_is_refused_in_one_line(data) -> None:
    with pytest.raises(PracticeFaulty) as refused:
        read(data)
    assert str(refused.value).startswith("a.json:1:1: ")
    assert "\n" not in str(refused.value)
    assert len(str(refused.value)) < 250


def test_a_file_of_the_greatest_size_is_read_and_a_larger_one_is_not() -> None:
    whole = as_bytes(saved())
    assert read(whole + b" " * (MOST_BYTES - len(whole))).doubts == ()
    with pytest.raises(PracticeFaulty, match="bytes"):
        read(whole + b" " * (MOST_BYTES + 1 - len(whole)))


def test_a_name_is_made_fit_for_paper() -> None:
    """Unicode: a right-to-left override (U+202E) and a zero-width space (U+200B) show nothing and steer what is read."""
    assert read(saved("\u202eAmira\u200b  Khan\n")).name == "Amira Khan"
    assert read(saved("x" * 200)).name == "x" * 80
    assert read(saved(json.loads('"\\u202e"'))).name == ""
