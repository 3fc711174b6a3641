"""The centre's settings as a value: what is set, what each thing made goes by, where a fault is told."""

from __future__ import annotations

from courseware.database.retention import KINDS
from courseware.settings.read import read_settings
from courseware.settings.settings import (
    BANK_KEYS,
    DEFAULTS,
    KEYS,
    SITTING_KEYS,
    Retention,
    Settings,
    Signatures,
    Signed,
)
from courseware.settings.shapes import CentreShape

WHOLE = """\
name: Brookfield Trades College
arris_rule: near
upright_joint: cross joint
signatures: {papers: {signed: [Learner]}, audit: {signed: [Assurer]}}
retention: {names: 36}
"""  # invented


def read(text: str) -> Settings:
    return read_settings(text.encode(), "centre.yaml")


def test_settings_are_one_value_wherever_they_were_read() -> None:
    """Two files that say the same are the same settings, so that work done for one holds for the other."""
    one, other = read(WHOLE), read_settings(b"# ours\n" + WHOLE.encode(), "another.yaml")
    assert one == other
    assert len({one, other, DEFAULTS}) == 2


def test_a_fault_found_later_is_told_at_its_place_in_the_file() -> None:
    fault = read("# ours\ntolerances: Training bnech\n").fault(("tolerances",), "no such profile", "another")
    assert str(fault) == "centre.yaml:2:13: no such profile; another"
    assert str(Settings(file="x.yaml").fault(("tolerances",), "no such profile", "another")).startswith("x.yaml:1:1")


def test_kinds_of_record_are_those_of_the_record() -> None:
    assert tuple(Retention().months) == KINDS == ("names", "scripts", "marks", "papers")


def test_rules_of_banks_are_taken_over_and_nothing_else() -> None:
    """As a retake does: exercises by the rules of the first sitting, sheets by the centre's settings of today."""
    today, then = read(WHOLE), Settings(arris_rule="outline", upright_joint="perp", name="Old name")
    found = today.by_the_rules_of(then)
    assert (found.arris_rule, found.upright_joint, found.name) == ("outline", "perp", "Brookfield Trades College")
    assert set(BANK_KEYS) < set(SITTING_KEYS) < set(CentreShape.model_fields)
    assert {key for keys in KEYS.values() for key in keys} == set(CentreShape.model_fields)


def test_a_sitting_keeps_what_its_sheets_are_printed_by_alone() -> None:
    found = read(WHOLE).of_a_sitting()
    assert found.changed(CentreShape.model_fields) == ("name", "arris_rule", "upright_joint", "signatures")
    assert found.signatures == Signatures(papers=Signed(signed=("Learner",)))
    assert found.of_a_sitting() == found
    assert DEFAULTS.of_a_sitting() == DEFAULTS
