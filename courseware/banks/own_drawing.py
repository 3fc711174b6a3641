"""A bank's drawings of its author's own: which files it names, their texts put into the bank, and one bound.

A bank is read, proved, kept in the sitting and made again from one text. So the text of each SVG that stands beside the
bank is put at its end, under `drawings`, before anything else: its hash is then part of the bank's.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any

from courseware.banks.exercise import DrawingAsked
from courseware.banks.reading import Path, Reading
from courseware.banks.svg_read import read_svg
from courseware.text_files.decoding import decoded, strange_signs
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import BankFaulty, Fault, harmless
from courseware.text_files.yaml_text import read_on
from courseware.text_files.yaml_tree import Keyed, Listing, Text, node_at, text_at

OWN = "own"
_KEYS = ("kind", "file", "says")
_FILE = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._-]{0,59}\.svg", re.ASCII)
_ENDING = b".svg"  # of every file that may be named: a bank without it is not read twice
_LONGEST = 300  # characters of what a drawing says


def files_named(data: bytes, file: str) -> tuple[str, ...]:
    """The SVG files that a bank's drawings name and whose texts it does not hold; none where it cannot be read."""
    if _ENDING not in data:
        return ()
    try:
        node, _ = read_on(data, file)
    except BankFaulty:
        return ()
    exercises = node_at(node, ("exercises",))
    drawings = [node_at(one, ("drawing",)) for one in exercises.items] if isinstance(exercises, Listing) else []
    named = [text_at(one, ("file",)) for one in drawings if isinstance(one, Keyed) and _kind(one) == OWN]
    held = node_at(node, ("drawings",))
    if held is not None:  # the author's own, or those put there before
        return ()
    return tuple(dict.fromkeys(one.value for one in named if one and one.value and _FILE.fullmatch(one.value)))


def with_drawings(data: bytes, found: Mapping[str, bytes], file: str) -> bytes:
    """The bank's bytes with the texts of these SVG files at its end.

    Raises `BankFaulty` where one of them is not plain text, or where the bank is written in braces.
    """
    if not found:
        return data
    faults: list[Fault] = []
    lines: list[str] = []
    for name, svg in found.items():
        text = decoded(svg, name)
        faults += strange_signs(text, name)
        lines.append(f"  {json.dumps(name)}: {json.dumps(text, ensure_ascii=False)}\n")
    bank = data.decode("utf-8-sig")
    if bank.lstrip().startswith("{"):
        faults.append(Fault(file, 1, 1, "the bank is written in braces", "put the drawing's text under `drawings`"))
    if faults:
        raise BankFaulty(tuple(faults))
    end = "" if bank.endswith("\n") else "\n"
    return f"{bank}{end}drawings:\n{''.join(lines)}".encode()


def own_drawing(named: Mapping[str, Any], reading: Reading, path: Path) -> DrawingAsked | None:
    """The drawing of the author's own that these keys ask for; its faults are kept in `reading`."""
    for key in sorted(set(named) - set(_KEYS)):
        wrong = f"a drawing of your own has no `{harmless(key)}`"
        reading.fault((*path, key), wrong, near(key, list(_KEYS), "expected"))
    file, says = named.get("file"), named.get("says")
    if not isinstance(says, str) or not 1 <= len(says.strip()) <= _LONGEST or "{{" in says:
        wrong = "`says` is missing or not as it should be"
        expected = f"expected what the drawing shows in words, up to {_LONGEST} characters, without figures filled in"
        reading.fault((*path, "says"), wrong, expected)
        says = "x"
    if not isinstance(file, str) or not _FILE.fullmatch(file):
        wrong = "`file` is missing, or no plain name of an SVG file"
        reading.fault((*path, "file"), wrong, "expected the name of a file beside the bank, such as lintel.svg")
        return None
    text = text_at(reading.node, ("drawings", file))
    if text is None or text.value is None:
        wrong = f"there is no drawing `{file}`"
        expected = "expected a file of that name in the bank's own folder (no link), or its text under `drawings`"
        reading.fault((*path, "file"), wrong, expected)
        return None
    return _asked(text, file, says.strip().rstrip("."), reading, path)


def _asked(text: Text, file: str, says: str, reading: Reading, path: Path) -> DrawingAsked | None:
    try:
        picture = read_svg(text.value or "", file, says)
    except BankFaulty as faulty:
        reading.faults.extend(((*path, "file"), fault) for fault in faulty.faults)
        return None
    return DrawingAsked(kind=OWN, figures={}, shows=(), asks={}, own=picture)


def _kind(drawing: Keyed) -> str:
    kind = text_at(drawing, ("kind",))
    return (kind.value if kind else "") or ""
