"""A figure on a paper: its exact entry in the sitting, how it is to be written, and its key."""

from __future__ import annotations

from dataclasses import replace

import pytest

from courseware.papers.part_kind import PAPER_KINDS
from courseware.papers.sitting_file import SittingFaulty

SLIPS = [{"value": "bricks * module", "says": "The last joint was kept"}, {"value": "bricks / 7", "says": "By weeks"}]


def test_its_entry_holds_exact_figures_and_its_slips_in_words(on_paper, number) -> None:
    part = number(answer="bricks / 3", unit="m", within="1 / 3", marks=2, slips=SLIPS)
    [entry] = on_paper(part, bricks=4).entries
    assert (entry.label, entry.name, entry.kind, entry.marks, entry.unit) == ("1a", "length", "number", 2, "m")
    assert (entry.answer, entry.within) == ("4/3", "1/3")
    assert entry.slips == (("900", "The last joint was kept"), ("4/7", "By weeks"))
    assert (entry.shown, entry.before) == ((), ())


def test_a_figure_without_a_band_has_none_in_its_entry(on_paper, number) -> None:
    on = on_paper(number(), bricks=4)
    assert (on.entries[0].within, on.key[0].within) == ("", "")


@pytest.mark.parametrize(
    ("keys", "note"),
    [
        ({}, ""),
        ({"round": 0}, "to the nearest whole number"),
        ({"round": 1}, "to 1 decimal place"),
        ({"round": 2}, "to 2 decimal places"),
        ({"told": True}, "the figure is given: show how it comes"),
        ({"round": 0, "told": True}, "to the nearest whole number; the figure is given: show how it comes"),
    ],
)
def test_a_paper_says_how_the_answer_is_to_be_written(on_paper, number, keys, note: str) -> None:
    assert on_paper(number(unit="mm", **keys), bricks=4).asked.note == note


def test_a_key_has_the_answer_with_its_unit_band_working_and_slips(on_paper, number) -> None:
    part = number(
        unit="mm", within="5", marks=2, slips=SLIPS, accept=[{"value": "885", "says": "Off the tape"}],
        working=[{"say": "Bricks", "value": "bricks * module", "earns": "method"},
                 {"say": "Less a joint", "value": "bricks * module - joint", "earns": "accuracy"}],
    )  # fmt: skip
    [key] = on_paper(part, bricks=4).key
    assert (key.label, key.answer, key.within) == ("1a", "890 mm", "± 5 mm")
    assert [(line.figure, line.earns) for line in key.working] == [("900 mm", "M1"), ("890 mm", "A1")]
    assert [(slip.figure, slip.says, slip.earns) for slip in key.accepts] == [("885 mm", "Off the tape", 2)]
    assert [(slip.figure, slip.earns) for slip in key.slips] == [("900 mm", 0), ("about 0.57 mm", 0)]


def test_the_last_line_stands_as_the_part_asks_for_it(on_paper, number) -> None:
    [key] = on_paper(number(answer="bricks / 7", round=2), bricks=4).key
    assert (key.answer, key.working[-1].figure) == ("0.57", "0.57")


def test_another_answer_in_the_sitting_than_is_found_is_no_key(on_paper, number) -> None:
    on = on_paper(number(), bricks=4)
    changed = (replace(on.entries[0], answer="891"),)
    with pytest.raises(SittingFaulty, match="part 1a: the sitting says 891, this program finds 890"):
        PAPER_KINDS["number"].key(on.solved, changed, on.scope, {})
