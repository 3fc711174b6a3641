"""The shape of a YAML file, key by key: read with every fault told at its line and column.

Every scalar arrives as the text that stands in the file. A key's description is printed when it is missing or holds the
wrong thing, and in the manual.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, ValidationError
from pydantic_core import ErrorDetails, PydanticCustomError

from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault, harmless
from courseware.text_files.yaml_tree import Node, key_place, place, plain_data

Path = tuple[str | int, ...]
NOTHING: Mapping[str | int, Any] = {}
_Model = TypeVar("_Model", bound="Shape")
_ROUNDS = 4  # of repairing: a repaired map can show faults of its own
_MOST_TOLD = 50  # faults in one round of reading


def _yes(value: Any) -> bool:
    if value in ("true", "false"):
        return bool(value == "true")
    raise PydanticCustomError("plain", "{wrong}", {"wrong": "it is neither true nor false"})


def _whole(value: Any) -> int:
    if isinstance(value, str) and value.isascii() and value.isdigit() and len(value) <= 4:
        return int(value)
    raise PydanticCustomError("plain", "{wrong}", {"wrong": "it is not a plain whole number"})


Yes = Annotated[bool, BeforeValidator(_yes)]
Whole = Annotated[int, BeforeValidator(_whole)]


class Shape(BaseModel):
    """Frozen, and strange keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


def shaped(
    model: type[_Model], node: Node, file: str, stand_in: Mapping[str | int, Any] = NOTHING
) -> tuple[_Model | None, tuple[Fault, ...], tuple[Path, ...]]:
    """The shape, its faults, and the paths where something stands in for what was faulty.

    Something harmless, by `stand_in`, is put in the place of each faulty key, so that the rest of the file can be read
    on and its faults told in the same run. None where even that does not help.
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
                misspelt = meant(path, unknown) if error["type"] == "missing" else None
                if path not in repaired and misspelt is None:
                    faults.append(_fault(error, path, model, node, file))
                repaired.append(path)
                if misspelt is None:
                    _repair(data, path, error["type"], stand_in)
                else:
                    _rename(data, misspelt, str(path[-1]))
    return None, tuple(faults), tuple(repaired)


def meant(missing: Path, unknown: Sequence[Path]) -> Path | None:
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
        entries = stand_in.get(above[-1]) if above else None
        data[last] = entries[0] if isinstance(entries, list) else "x"
    elif kind == "extra_forbidden" or last not in stand_in:
        data.pop(last, None)
    else:
        data[last] = f"unnamed{path[-2]}" if last == "name" and len(path) > 1 else stand_in[last]


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
