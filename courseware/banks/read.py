"""From a file's bytes to a bank: every fault of the file is found before any is told."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from functools import lru_cache
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from courseware.banks.compile_bank import bind_topic
from courseware.banks.exercise import Bank, SafetyNotes
from courseware.banks.formulas import near
from courseware.banks.shapes import SafetyShape, Shape
from courseware.banks.topic_shape import topic_shape
from courseware.text_files.faults import BankFaulty, Fault, harmless
from courseware.text_files.yaml_text import Node, key_place, place, plain_data, read_yaml

Path = tuple[str | int, ...]
_Model = TypeVar("_Model", bound=Shape)
_ROUNDS = 4  # of repairing: a repaired map can show faults of its own
_MOST_TOLD = 50  # faults in one round of reading

_LINE = [{"say": "x", "value": "0"}]
_STAND_IN: dict[str | int, Any] = {
    **dict.fromkeys(("topic", "aim", "pose", "ask", "say", "says", "title"), "x"),
    **dict.fromkeys(("level", "marks", "round", "earns"), "1"),
    **dict.fromkeys(("value", "answer"), "0"),
    **dict.fromkeys(("hours", "bays", "learners", "waste", "ahead", "projects", "eye_height", "mm", "over"), "1"),
    "name": "unnamed",
    "given": {},
    "working": _LINE,
    "parts": [{"name": "unnamed", "ask": "x", "answer": "0", "marks": "1", "working": _LINE}],
}


@lru_cache(maxsize=16)  # banks as files, then as the sitting holds them: the same bytes are compiled once a process
def read_bank(data: bytes, file: str, *, arris_rule: str = "outline") -> Bank:
    """The bank in `data`. Raises `BankFaulty` with every fault found; `file` names it in messages.

    `arris_rule` is the centre's setting for projecting courses, "outline" or "near": which edge is levelled
    below and above the eye line.
    """
    node = read_yaml(data, file)
    shape, faults, repaired = shaped(topic_shape(), node, file)
    if shape is None:
        raise BankFaulty(faults)
    topic, more = bind_topic(shape, node, file, arris_rule)
    faults += tuple(fault for path, fault in more if not (_caused(path, repaired) or _meant(path, repaired)))
    if faults:
        raise BankFaulty(tuple(sorted(faults, key=lambda fault: (fault.line, fault.column))))
    return Bank(
        file=file,
        sha256=hashlib.sha256(data).hexdigest(),
        text=data.decode("utf-8-sig"),
        topic=topic.topic,
        aim=topic.aim,
        safety=topic.safety,
        exercises=topic.exercises,
    )


@lru_cache(maxsize=2)
def read_safety_notes(data: bytes, file: str) -> SafetyNotes:
    """The safety notes in `data`. Raises `BankFaulty`."""
    node = read_yaml(data, file)
    shape, faults, _ = shaped(SafetyShape, node, file)
    if shape is None or faults:
        raise BankFaulty(faults)
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


def shaped(
    model: type[_Model], node: Node, file: str, stand_in: Mapping[str | int, Any] = _STAND_IN
) -> tuple[_Model | None, tuple[Fault, ...], tuple[Path, ...]]:
    """The shape, its faults, and the paths where something stands in for what was faulty.

    Something harmless is put in the place of each faulty key, so that the rest of the file can be read on and its
    faults told in the same run. None where even that does not help.
    """
    data = plain_data(node)
    faults: list[Fault] = []
    repaired: list[Path] = []
    for _ in range(_ROUNDS):
        try:
            return model.model_validate(data), tuple(faults), tuple(repaired)
        except ValidationError as invalid:
            found = [
                (error, tuple(step for step in error["loc"] if step != "[key]"))
                for error in invalid.errors(include_url=False)
            ]
            if len(found) > _MOST_TOLD:
                faults += [_fault(error, path, model, node, file) for error, path in found[:_MOST_TOLD]]
                line, column = place(node, found[_MOST_TOLD][1])
                wrong = f"{len(found) - _MOST_TOLD} more faults from here on"
                return None, (*faults, Fault(file, line, column, wrong, "mend these first")), tuple(repaired)
            unknown = [path for error, path in found if error["type"] == "extra_forbidden"]
            for error, path in found:
                meant = _meant(path, unknown) if error["type"] == "missing" else None
                if path not in repaired and meant is None:
                    faults.append(_fault(error, path, model, node, file))
                repaired.append(path)
                if meant is None:
                    _repair(data, path, error["type"], stand_in)
                else:
                    _rename(data, meant, str(path[-1]))
    return None, tuple(faults), tuple(repaired)


def _meant(missing: Path, unknown: Sequence[Path]) -> Path | None:
    """The key that stands beside a missing one's place under a name that is nearly its own, if there is one."""
    beside = {str(path[-1]): path for path in unknown if path[:-1] == missing[:-1]}
    return next((beside[name] for name in get_close_matches(str(missing[-1]), list(beside), n=1)), None)


def _rename(data: Any, path: Path, name: str) -> None:
    """Gives what stands under a misspelt key its right name, so that it can be read on."""
    *above, last = path
    for step in above:
        data = data[step]
    if isinstance(data, dict) and last in data:
        data[name] = data.pop(last)


def _repair(data: Any, path: Path, kind: str, stand_in: Mapping[str | int, Any]) -> None:
    """Puts something harmless at `path`, or takes away a key that is not known."""
    *above, last = path
    for step in above:
        data = data[step]
    if not isinstance(data, dict):
        data[last] = _STAND_IN["parts"][0] if above[-1:] == ["parts"] else "x"
    elif kind == "extra_forbidden" or last not in stand_in:
        data.pop(last, None)
    else:
        data[last] = f"unnamed{path[-2]}" if last == "name" and len(path) > 1 else stand_in[last]


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


def _fault(error: ErrorDetails, path: Path, model: type[Shape], node: Node, file: str) -> Fault:
    inside, described = _described(model, path)
    line, column = key_place(node, path) if error["type"] == "extra_forbidden" else place(node, path)
    key = next((str(step) for step in reversed(path) if isinstance(step, str)), "the file")
    match error["type"]:
        case "missing":
            return Fault(file, line, column, f"the key `{key}` is missing", f"expected {described}")
        case "extra_forbidden":
            return Fault(
                file,
                line,
                column,
                f"the key `{harmless(key)}` is not known",
                near(key, _keys(inside), "expected one of"),
            )
        case "plain":
            wrong = f"`{key}` is wrong: {error['ctx']['wrong']}"
        case "string_pattern_mismatch":
            wrong = f"`{harmless(str(error['input']))}` cannot be a name"
            described = "expected small letters, figures, underscores (hyphens for exercises), a letter first"
            return Fault(file, line, column, wrong, described)
        case "too_short":
            wrong = f"`{key}` is an empty list"
        case _:
            wrong = f"`{key}` is {_what(error['input'])}"
    return Fault(file, line, column, wrong, f"expected {described}")


def _what(value: Any) -> str:
    if value is None:
        return "empty"
    return "a list" if isinstance(value, list) else "a map" if isinstance(value, dict) else f"`{harmless(str(value))}`"


def _keys(model: type[BaseModel]) -> list[str]:
    return list(model.model_fields)


def _described(model: type[Shape], path: tuple[str | int, ...]) -> tuple[type[Shape], str]:
    """The model that holds the last key of `path`, and what that key should hold."""
    inside, described = model, "a map of keys"
    for step in path:
        field = inside.model_fields.get(step) if isinstance(step, str) else None
        if field is None:
            continue
        described = field.description or described
        deeper = next((arg for arg in _arguments(field.annotation) if _is_shape(arg)), None)
        if deeper is None:
            break
        if step != path[-1]:
            inside = deeper
    return inside, described


def _arguments(annotation: Any) -> list[Any]:
    return [annotation, *[deep for arg in getattr(annotation, "__args__", ()) for deep in _arguments(arg)]]


def _is_shape(candidate: Any) -> bool:
    return isinstance(candidate, type) and issubclass(candidate, Shape)
