"""A tutor's own banks: listed, begun anew or as a copy of a shipped one, and saved whole in their own folder."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from courseware.files.bank_files import OWN_BANKS, SAFETY, NotFound, shipped_banks
from courseware.files.own_files import OwnText, own_file, own_files, save_new
from courseware.text_files.faults import visible

_TOPIC = re.compile(r"^topic: *(.{1,200})$", re.MULTILINE)
NEW_BANK = """\
# A bank of your own. A remark begins with # and is for whoever writes the bank. The manual says what may stand where.
topic: A topic of my own
aim: Work out how long a pier is
exercises:
  - name: length-of-a-pier
    level: 1
    given: {bricks: 5 to 40}
    pose: A pier is {{ bricks }} bricks long, with {{ joint }} mm joints.
    parts:
      - name: long
        ask: How long is the pier, brick to brick?
        answer: pier(bricks)
        unit: mm
        marks: 2
        working:
          - {say: "{{ bricks }} bricks, each with a joint", value: bricks * module, earns: method}
          - {say: Less the joint that the last one does not need, value: bricks * module - joint, earns: accuracy}
        slips:
          - {value: bricks * module, says: "A pier has a brick at both ends, so one joint less", earns: 1}
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BankText(OwnText):
    """A bank's file as it stands."""

    @property
    def topic(self) -> str:
        """Its topic as typed, else the file's name."""
        found = _TOPIC.search(self.text)
        return visible(found[1].strip().strip("\"'")) if found else self.name


def own_banks(work: Path) -> tuple[BankText, ...]:
    """The banks in the tutor's own folder, those that cannot be read as text among them, with no text."""
    return tuple(BankText.listed(name, path) for name, path in own_files(work / OWN_BANKS, frozenset({SAFETY})).items())


def banks_shipped() -> tuple[BankText, ...]:
    """The banks that come with the program."""
    return tuple(BankText.listed(path.stem, path) for path in shipped_banks())


def open_bank(work: Path, name: str) -> BankText:
    """One of the tutor's own banks. Raises `NotFound`, and `BankFaulty` where it is not text."""
    return BankText.opened(name, own_file(work / OWN_BANKS, name))


def open_shipped(name: str) -> BankText:
    """One of the shipped banks. Raises `NotFound`."""
    found = next((path for path in shipped_banks() if path.stem == name), None)
    if found is None:
        raise NotFound(f"no bank named {name} comes with the program")
    return BankText.opened(name, found)


def copy_shipped(work: Path, name: str) -> str:
    """Copies a shipped bank into the tutor's own folder. Returns the copy's short name."""
    return save_new(work / OWN_BANKS, name, open_shipped(name).text).stem


def begin_bank(work: Path, title: str) -> str:
    """A new bank of one exercise, which proves as it stands. Returns its short name."""
    return save_new(work / OWN_BANKS, title, NEW_BANK).stem
