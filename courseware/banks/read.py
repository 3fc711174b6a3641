"""From a file's bytes to a bank: every fault of the file is found before any is told."""

from __future__ import annotations

import hashlib
from functools import lru_cache
from typing import Any

from courseware.banks.compile_bank import bind_topic
from courseware.banks.exercise import Bank, SafetyNotes
from courseware.banks.shapes import SafetyShape
from courseware.banks.topic_shape import topic_shape
from courseware.settings.settings import DEFAULTS, Settings
from courseware.text_files.faults import BankFaulty, Fault
from courseware.text_files.shapes import Path, meant, shaped
from courseware.text_files.yaml_text import beside, read_on
from courseware.text_files.yaml_tree import place

_LINE = [{"say": "x", "value": "0"}]
_STAND_IN: dict[str | int, Any] = {
    **dict.fromkeys(("topic", "aim", "pose", "ask", "say", "says", "title"), "x"),
    **dict.fromkeys(("level", "marks", "round", "earns"), "1"),
    **dict.fromkeys(("value", "answer"), "0"),
    "name": "unnamed",
    "given": {},
    "working": _LINE,
    "parts": [{"name": "unnamed", "ask": "x", "answer": "0", "marks": "1", "working": _LINE}],
}


@lru_cache(maxsize=16)  # banks as files, then as the sitting holds them: the same bytes are compiled once a process
def read_bank(data: bytes, file: str, settings: Settings = DEFAULTS) -> Bank:
    """The bank in `data`, compiled for the centre's settings.

    `file` names it in messages. Raises `BankFaulty` with every fault found.
    """
    node, told = read_on(data, file)
    shape, faults, repaired = shaped(topic_shape(), node, file, _STAND_IN)
    if shape is None:
        raise BankFaulty(beside(told, faults))
    topic, more = bind_topic(shape, node, file, settings)
    faults += tuple(fault for path, fault in more if not (_caused(path, repaired) or meant(path, repaired)))
    if told or faults:
        raise BankFaulty(beside(told, faults))
    return Bank(
        file=file,
        sha256=hashlib.sha256(data).hexdigest(),
        text=data.decode("utf-8-sig"),
        topic=topic.topic,
        aim=topic.aim,
        safety=topic.safety,
        exercises=topic.exercises,
        settings=settings,
    )


@lru_cache(maxsize=2)
def read_safety_notes(data: bytes, file: str) -> SafetyNotes:
    """The safety notes in `data`. Raises `BankFaulty`."""
    node, told = read_on(data, file)
    shape, faults, _ = shaped(SafetyShape, node, file, _STAND_IN)
    if shape is None or told or faults:
        raise BankFaulty(beside(told, faults))
    notes = {note.name: (note.title, tuple(note.lines), note.source or "") for note in shape.safety_notes}
    if len(notes) < len(shape.safety_notes):
        names = [note.name for note in shape.safety_notes]
        again = next(index for index, name in enumerate(names) if name in names[:index])
        line, column = place(node, ("safety_notes", again, "name"))
        raise BankFaulty((Fault(file, line, column, f"a note named `{names[again]}` stands twice", "each name once"),))
    return SafetyNotes(file=file, sha256=hashlib.sha256(data).hexdigest(), text=data.decode("utf-8-sig"), notes=notes)


def holds_safety_notes(data: bytes) -> bool:
    """Whether a file is meant as safety notes rather than a topic, judged by its first key."""
    return any(line.startswith(b"safety_notes:") for line in data.splitlines()[:200])


def _caused(path: Path, repaired: tuple[Path, ...]) -> bool:
    """Whether a fault may come of a repair: it lies under one, or in an exercise whose names were repaired."""
    for mended in repaired:
        spreads = mended[-1] in ("given", "parts", "kind", "rows", "format") or (
            mended[-1] == "name" and len(mended) > 3
        )
        spread = mended[:2] if spreads else mended
        if path[: len(spread)] == spread:
            return True
    return False
