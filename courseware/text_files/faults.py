"""Faults in files that come from strangers: where, what is wrong, what was expected; harmless to print."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass

_LONGEST = 60
_UNSEEN = {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}  # control, format (bidi, zero width), surrogate, private, separators


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault, at a line and column counted from 1."""

    file: str
    line: int
    column: int
    wrong: str
    expected: str

    def __str__(self) -> str:
        return visible(f"{self.file}:{self.line}:{self.column}: {self.wrong}; {self.expected}")


class FileFaulty(ValueError):
    """A file that cannot be used, with every fault found in it."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__("\n".join(map(str, faults)))
        self.faults = faults


class BankFaulty(FileFaulty):
    """A bank that cannot be used."""


def unseen(character: str) -> bool:
    """Whether a character would not show, would steer the screen or the reading direction, or is none at all."""
    code = ord(character)
    no_character = code & 0xFFFE == 0xFFFE or 0xFDD0 <= code <= 0xFDEF  # Unicode's noncharacters
    return no_character or unicodedata.category(character) in _UNSEEN


def harmless(text: str) -> str:
    """`text` fit for a message: unseen characters named as <U+202E>, cut to 60 characters."""
    return visible(text) if len(text) <= _LONGEST else visible(text[:_LONGEST]) + "…"


def sayable(name: str) -> bool:
    """Whether a name, of a file as a rule, can be written as UTF-8: one may hold bytes that are no letters."""
    return not any("\ud800" <= character <= "\udfff" for character in name)


def visible(text: str) -> str:
    """`text` with its unseen characters named as <U+202E>, at any length."""
    return "".join(f"<U+{ord(character):04X}>" if unseen(character) else character for character in text)
