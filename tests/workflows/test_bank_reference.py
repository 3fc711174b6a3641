"""The reference of the format of banks: nothing that a bank may have is missing from it, and each thing is told."""

from __future__ import annotations

from courseware.banks import read_bank
from courseware.banks.part_kinds import listed_kinds
from courseware.trade import FORMATS
from courseware.workflows.bank_reference import bank_reference
from courseware.workflows.own_banks import NEW_BANK


def test_every_key_function_and_drawing_is_told() -> None:
    found = bank_reference()
    assert all(key.says for keys in found.keys.values() for key in keys)
    assert all(says for _, says in found.functions)
    assert all(one.says for one in found.drawings)
    assert found.formats == tuple(FORMATS)


def test_keys_are_those_that_a_bank_reads() -> None:
    """The new bank of the desk has these keys and reads."""
    found = {title: {key.name: key for key in keys} for title, keys in bank_reference().keys.items()}
    assert {"topic", "aim", "exercises"} <= {name for name, key in found["A bank"].items() if key.needed}
    assert found["A part"]["answer"].says
    assert all(kind in found["A part"]["kind"].says for kind in listed_kinds())
    assert read_bank(NEW_BANK.encode(), "new.yaml").exercises


def test_a_function_is_written_as_it_is_called() -> None:
    written = dict(bank_reference().functions)
    assert "pier(bricks)" in written
    assert any("[" in name for name in written)
