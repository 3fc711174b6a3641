"""Names and references made fit for paper: what is unseen taken out, nothing that shows changed."""

from __future__ import annotations

import unicodedata

from courseware.text_files.faults import unseen

LONGEST_NAME = 80  # characters: the name box of a paper
LONGEST_REFERENCE = 40
_MOST_ACCENTS = 4  # on one letter; Vietnamese needs two

# Letters and marks that print as nothing (Unicode's Default_Ignorable_Code_Point, outside the format characters).
_BLANK = (
    (0x034F, 0x034F),
    (0x115F, 0x1160),
    (0x17B4, 0x17B5),
    (0x180B, 0x180F),
    (0x2800, 0x2800),  # the empty braille cell, which is in no such list but shows as little
    (0x3164, 0x3164),
    (0xFE00, 0xFE0F),
    (0xFFA0, 0xFFA0),
    (0xE0100, 0xE01EF),
)


def printable_text(text: str) -> str:
    """`text` in NFC, unseen characters out, spaces folded, at most four accents stacked; "" where nothing shows."""
    spaced = (" " if character.isspace() else character for character in text)
    shown = "".join(character for character in spaced if character == " " or not _hidden(character))
    return " ".join(_unstacked(unicodedata.normalize("NFC", shown)).split())


def same_name(name: str) -> str:
    """What two tidied names share when only their capitals differ."""
    return unicodedata.normalize("NFC", name.casefold())


def _hidden(character: str) -> bool:
    return unseen(character) or any(first <= ord(character) <= last for first, last in _BLANK)


def _unstacked(text: str) -> str:
    kept: list[str] = []
    accents = 0
    for character in text:
        accents = accents + 1 if unicodedata.category(character) in {"Mn", "Me"} else 0
        if accents <= _MOST_ACCENTS:
            kept.append(character)
    return "".join(kept)
