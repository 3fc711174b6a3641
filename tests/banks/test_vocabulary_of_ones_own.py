"""A function that formulas may use in these tests alone: one entry of a table, with its line of the manual."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from click.testing import CliRunner

from courseware.banks import BankFaulty, read_bank, solve
from courseware.banks import vocabulary as room
from courseware.banks.kept_function import function
from courseware.banks.vocabulary import vocabulary
from courseware.cli import main
from courseware.trade import UK_METRIC

BANK = """\
topic: Stacks
aim: Say how many bricks a stack has
exercises:
  - name: bricks-in-a-stack
    level: 1
    given: {layers: 3 to 9}
    pose: Bricks stand in {{ layers }} layers of five.
    parts:
      - name: bricks
        ask: How many bricks are there?
        answer: in_layers(layers)
        marks: 1
        working: [{say: Five to a layer, value: layers * 5}]
"""


@pytest.fixture
def known(monkeypatch) -> Iterator[None]:
    table = {"in_layers": function(lambda layers: layers * 5, "layers", "bricks in so many layers of five")}
    monkeypatch.setattr(room, "FUNCTION_TABLES", (*room.FUNCTION_TABLES, lambda _brick, _rule: table))
    yield
    read_bank.cache_clear()


def test_nobody_knows_it_without_its_entry() -> None:
    with pytest.raises(BankFaulty, match="in_layers"):
        read_bank(BANK.encode(), "stacks.yaml")


def test_a_bank_goes_by_it(known) -> None:
    [exercise] = read_bank(BANK.encode(), "stacks.yaml").exercises
    [solved] = solve(exercise, {"layers": 4})
    assert solved.answer == 20


def test_it_is_checked_and_proved(known, tmp_path) -> None:
    (tmp_path / "stacks.yaml").write_text(BANK, encoding="utf-8")
    done = CliRunner().invoke(main, ["check", str(tmp_path / "stacks.yaml"), "--jobs", "1"])
    assert done.exit_code == 0, done.output
    assert "all 1 exercises proved: 7 variants walked" in done.output


def test_the_manual_has_its_line_from_its_entry(known) -> None:
    assert vocabulary(UK_METRIC).functions["in_layers"].says == "bricks in so many layers of five"
