"""A bank as it is handed on, the safety notes, and messages that are harmless to print."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from courseware.banks import BankFaulty, harmless, holds_safety_notes, prove, read_bank, read_safety_notes
from courseware.settings.settings import Settings
from courseware.text_files.faults import Fault

GOOD = Path(__file__).parent / "good" / "every_kind_of_part.yaml"


def test_a_bank_keeps_its_text_and_the_hash_of_its_bytes() -> None:
    data = b"\xef\xbb\xbf" + GOOD.read_bytes().replace(b"\n", b"\r\n")
    bank = read_bank(data, "walls.yaml")
    assert (bank.file, bank.sha256) == ("walls.yaml", hashlib.sha256(data).hexdigest())
    assert bank.text.encode("utf-8-sig") == data
    assert (bank.topic, bank.safety, bank.exercises[0].safety) == ("Every kind of part", ("cutting",), ("dust",))


def test_a_bank_reads_the_same_from_its_kept_text() -> None:
    bank = read_bank(GOOD.read_bytes(), "walls.yaml")
    again = read_bank(bank.text.encode(), "walls.yaml")
    assert [list(prove(e).space.indices) for e in again.exercises] == [
        list(prove(e).space.indices) for e in bank.exercises
    ]


def test_the_centres_rule_reaches_the_formulas() -> None:
    text = GOOD.read_text(encoding="utf-8").replace(
        "where: bricks != courses", 'where: arris_rule == "near" and bricks != courses'
    )
    assert prove(read_bank(text.encode(), "a.yaml", Settings(arris_rule="near")).exercises[0]).failure is None
    assert prove(read_bank(text.encode(), "a.yaml").exercises[0]).failure.why.startswith("no variant is left")


def test_a_bank_knows_the_settings_it_is_compiled_for() -> None:
    own = Settings(arris_rule="near", name="Brookfield Trades College")
    assert read_bank(GOOD.read_bytes(), "walls.yaml", own).settings == own
    assert read_bank(GOOD.read_bytes(), "walls.yaml").settings == Settings()


def test_words_of_a_bank_are_the_centres_and_its_formulas_stay() -> None:
    """In wording the joint is called as the centre calls it; `perpend` in a formula is a size."""
    text = GOOD.read_text(encoding="utf-8")
    [pose] = [line for line in text.splitlines() if line.strip().startswith("pose:")][:1]
    said = "    pose: Each perpend is {{ perpend }} mm."
    bank = read_bank(text.replace(pose, said).encode(), "walls.yaml", Settings(upright_joint="perp"))
    found = next(exercise for exercise in bank.exercises if str(exercise.pose.pieces[0]).startswith("Each"))
    assert found.pose.render({}, {}) == "Each perp is 10 mm."


NOTES = b"""\
# Notes for tests
safety_notes:
  - {name: dust, title: Silica dust, lines: [Wet the cut.], source: A rule}
  - {name: noise, title: Noise, lines: [Wear muffs., Stand clear.]}
"""


def test_safety_notes_are_kept_by_name() -> None:
    notes = read_safety_notes(NOTES, "notes.yaml").notes
    assert notes == {
        "dust": ("Silica dust", ("Wet the cut.",), "A rule"),
        "noise": ("Noise", ("Wear muffs.", "Stand clear."), ""),
    }


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (b"name: noise", b"name: dust", "4:12: a note named `dust` stands twice; each name once"),
        (b"title: Noise, ", b"", "4:5: the key `title` is missing; expected a short title"),
        (b"title: Noise", b"titel: Noise", "4:19: the key `titel` is not known; did you mean `title`? expected one of name, title, lines, source"),
        (b"[Wet the cut.]", b"[]", "3:38: `lines` is an empty list; expected a list of short lines"),
        (b"name: dust", b"name: Dust", "3:12: `Dust` cannot be a name; expected small letters, figures, underscores (hyphens for exercises), a letter first"),
        (b"safety_notes:", b"safety_note:", "2:1: the key `safety_note` is not known; did you mean `safety_notes`? expected one of safety_notes"),
        (b"lines: [Wet the cut.]", b"lines: Wet the cut.", "3:45: `lines` is `Wet the cut.`; expected a list of short lines"),
    ],
)  # fmt: skip
def test_a_fault_in_the_safety_notes_is_told(old: bytes, new: bytes, told: str) -> None:
    with pytest.raises(BankFaulty) as faulty:
        read_safety_notes(NOTES.replace(old, new), "notes.yaml")
    assert str(faulty.value) == f"notes.yaml:{told}"


@pytest.mark.parametrize(
    ("data", "notes"),
    [(NOTES, True), (b"safety_notes: []", True), (b"\xff\xfesafety_notes:", False), (b"topic: Walls\nsafety: [dust]", False), (b"", False)],
)  # fmt: skip
def test_safety_notes_are_known_by_their_first_key(data: bytes, notes: bool) -> None:
    assert holds_safety_notes(data) is notes


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("pier", "pier"),
        ("a\x1b[2Jb", "a<U+001B>[2Jb"),
        ("\u202eb", "<U+202E>b"),
        ("a\nb", "a<U+000A>b"),
        ("a" * 60, "a" * 60),
        ("a" * 61, "a" * 60 + "…"),
        ("Łukasz × ½", "Łukasz × ½"),
    ],
)
def test_text_in_a_message_is_harmless(text: str, shown: str) -> None:
    assert harmless(text) == shown


def test_a_fault_tells_its_place_and_what_was_expected() -> None:
    fault = Fault("a\x07.yaml", 3, 5, "`x\ny` is not a step", "did you mean `y\u200b`?")
    assert str(fault) == "a<U+0007>.yaml:3:5: `x<U+000A>y` is not a step; did you mean `y<U+200B>`?"


def test_very_many_faults_are_told_fifty_at_a_time() -> None:
    text = "topic: T\naim: A\nexercises:\n" + "  - {a: 1}\n" * 6000
    with pytest.raises(BankFaulty) as told:
        read_bank(text.encode(), "many.yaml")
    assert len(told.value.faults) == 51
    assert "more faults from here on" in told.value.faults[-1].wrong
