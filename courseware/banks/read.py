"""From a file's bytes to a bank: every fault of the file is found before any is told."""

from __future__ import annotations

import hashlib
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from courseware.banks.bind import bind_topic
from courseware.banks.exercise import Bank, SafetyNotes
from courseware.banks.faults import BankFaulty, Fault, harmless
from courseware.banks.formulas import near
from courseware.banks.shapes import SafetyShape, Shape, TopicShape
from courseware.banks.yaml_text import Node, place, plain_data, read_yaml

_Model = TypeVar("_Model", bound=Shape)


def read_bank(data: bytes, file: str, *, arris_rule: str = "outline") -> Bank:
    """The bank in `data`. Raises `BankFaulty` with every fault found; `file` names it in messages.

    `arris_rule` is the centre's setting for projecting courses, "outline" or "near" (trade-facts section 3).
    """
    node = read_yaml(data, file)
    shape, faults = _shaped(TopicShape, node, file)
    if shape is None:
        raise BankFaulty(faults)
    topic = bind_topic(shape, node, file, arris_rule)
    return Bank(
        file=file,
        sha256=hashlib.sha256(data).hexdigest(),
        text=data.decode("utf-8-sig"),
        topic=topic.topic,
        aim=topic.aim,
        safety=topic.safety,
        exercises=topic.exercises,
    )


def read_safety_notes(data: bytes, file: str) -> SafetyNotes:
    """The safety notes in `data`. Raises `BankFaulty`."""
    node = read_yaml(data, file)
    shape, faults = _shaped(SafetyShape, node, file)
    if shape is None:
        raise BankFaulty(faults)
    notes = {note.name: (note.title, tuple(note.lines), note.source or "") for note in shape.safety_notes}
    if len(notes) < len(shape.safety_notes):
        names = [note.name for note in shape.safety_notes]
        again = next(index for index, name in enumerate(names) if name in names[:index])
        line, column = place(node, ("safety_notes", again, "name"))
        raise BankFaulty(
            (Fault(file, line, column, f"a note named `{names[again]}` stands twice", "each name once"),)
        )
    return SafetyNotes(
        file=file, sha256=hashlib.sha256(data).hexdigest(), text=data.decode("utf-8-sig"), notes=notes
    )


def holds_safety_notes(data: bytes) -> bool:
    """Whether a file is meant as safety notes rather than a topic, judged by its first key."""
    return any(line.startswith(b"safety_notes:") for line in data.splitlines()[:200])


def _shaped(model: type[_Model], node: Node, file: str) -> tuple[_Model | None, tuple[Fault, ...]]:
    data = plain_data(node)
    if not isinstance(data, dict):
        return None, (
            Fault(file, 1, 1, "the file is not a map of keys", f"keys such as {', '.join(_keys(model))}"),
        )
    try:
        return model.model_validate(data), ()
    except ValidationError as invalid:
        return None, tuple(_fault(error, model, node, file) for error in invalid.errors(include_url=False))


def _fault(error: ErrorDetails, model: type[Shape], node: Node, file: str) -> Fault:
    path = tuple(step for step in error["loc"] if step != "[key]")
    inside, described = _described(model, path)
    line, column = place(node, path)
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
    return (
        "a list"
        if isinstance(value, list)
        else "a map"
        if isinstance(value, dict)
        else f"`{harmless(str(value))}`"
    )


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
