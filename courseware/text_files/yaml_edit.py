"""Values of a YAML file changed within its text: remarks, order and every other key stay as they were typed."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field

import yaml

from courseware.text_files.yaml_quotes import turned
from courseware.text_files.yaml_text import read_yaml

Path = tuple[str, ...]
_PLAIN = re.compile(r"[A-Za-z0-9.][A-Za-z0-9._/-]{0,39}", re.ASCII)


@dataclass(slots=True)
class _Entry:
    """Where a key and its value start and end in the text: in braces behind the brace, in lines with the last value."""

    key_start: int
    key_end: int
    start: int = 0
    end: int = 0
    value: str | None = None  # of a scalar
    block: bool = False  # a list or map that is written in lines
    keyed: bool = False
    keys: dict[str, _Entry] = field(default_factory=dict)


def with_values(text: str, changes: Mapping[Path, str | None], file: str) -> str:
    """The text of a file with these values, each by its path of keys; None takes the key away.

    A key that is not there is added at the end of its map, and so is its map; a map goes with its last key. Raises
    `BankFaulty` where the text does not read.
    """
    read_yaml(text.encode(), file, may_be_empty=True)
    for path, value in changes.items():  # one after another: edits of one text could run into one another
        for start, end, new in _edits(text, path, value):
            text = text[:start] + new + text[end:]
    return text


def _edits(text: str, path: Path, value: str | None) -> list[tuple[int, int, str]]:
    """What one change takes: at most one place of the text, and what comes there."""
    top = _entries(text)
    above, found = _find(top, path)
    if found is None:
        return [] if value is None else _added(text, top, path[:-1], {path[-1]: value})
    if value is None and len(above.keys) == 1 and len(path) > 1:
        return _edits(text, path[:-1], None)  # nothing would be left in the map
    if value is None:
        return [_taken_away(text, above, found)]
    return [] if value == found.value else [_put(found, _written(value))]


def _find(top: _Entry, path: Path) -> tuple[_Entry, _Entry | None]:
    """The map that holds a path's last key, as far as the path goes, and the entry itself where it is there."""
    above, found = top, None
    for step in path:
        if found is not None:
            above = found
        found = above.keys.get(step)
        if found is None:
            break
    return above, found


def _written(value: str) -> str:
    """A scalar as it is safe anywhere in a file."""
    plain = _PLAIN.fullmatch(value) and not turned(value) and value != "null"
    return value if plain else json.dumps(value, ensure_ascii=False)


def _braces(keys: Mapping[str, str]) -> str:
    return "{" + ", ".join(f"{key}: {_written(value)}" for key, value in keys.items()) + "}"


def _put(found: _Entry, new: str) -> tuple[int, int, str]:
    """Something else in a value's place. One in lines goes with its remarks; an empty one stands behind the colon."""
    if found.block:
        return found.key_end, found.end, f": {new}"
    return found.start, found.end, new if found.end > found.start else f" {new}"


def _taken_away(text: str, above: _Entry, found: _Entry) -> tuple[int, int, str]:
    """A key with its value: with its whole lines, or with one comma between braces."""
    if above.block:
        start = text.rfind("\n", 0, found.key_start) + 1
        return start, _line_end(text, found.end), ""
    if behind := re.compile(r"\s*,\s*").match(text, found.end):
        return found.key_start, behind.end(), ""
    before = re.search(r",\s*\Z", text[: found.key_start])
    return before.start() if before else found.key_start, found.end, ""


def _added(text: str, top: _Entry, path: Path, keys: Mapping[str, str]) -> list[tuple[int, int, str]]:
    above, found = (top, top) if not path else _find(top, path)
    if found is None:
        return _lines(text, above, f"{path[-1]}: {_braces(keys)}")
    if found is not top and not found.keyed:
        return [_put(found, _braces(keys))]
    if found.block or not found.keyed:
        return [edit for key, value in keys.items() for edit in _lines(text, found, f"{key}: {_written(value)}")]
    inside = _braces(keys)[1:-1]
    last = text[: found.end - 1].rstrip()
    comma = "" if last.endswith(("{", ",")) else ", "
    return [(found.end - 1, found.end - 1, comma + inside)]


def _lines(text: str, above: _Entry, line: str) -> list[tuple[int, int, str]]:
    """A line more at the end of a map; between braces a key more."""
    if not above.keyed:  # the file holds nothing yet
        return [(len(text), len(text), f"{'' if not text or text.endswith(chr(10)) else chr(10)}{line}\n")]
    last = max(above.keys.values(), key=lambda entry: entry.end, default=None)
    if not above.block or last is None:
        return [(above.end - 1, above.end - 1, f"{', ' if above.keys else ''}{line}")]
    at = _line_end(text, last.end)
    indent = last.key_start - (text.rfind("\n", 0, last.key_start) + 1)
    return [(at, at, f"{'' if text[:at].endswith(chr(10)) else chr(10)}{' ' * indent}{line}\n")]


def _line_end(text: str, at: int) -> int:
    """Where the line that holds the character before `at` ends, its newline included."""
    end = text.find("\n", max(at - 1, 0))
    return len(text) if end < 0 else end + 1


def _entries(text: str) -> _Entry:
    """Every key of the file that is reached by keys alone, with its place; the file itself stands above them."""
    top = _Entry(key_start=0, key_end=0)
    around: list[tuple[_Entry, bool]] = []  # what is open, and whether it is a map
    waiting: list[_Entry | None] = [top]  # by depth: the entry whose value is to come
    for event in yaml.parse(text, Loader=yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader):
        start = event.start_mark.index if event.start_mark else 0
        end = start + len(text[start : event.end_mark.index if event.end_mark else start].rstrip())
        if isinstance(event, yaml.CollectionEndEvent):
            closed, _ = around.pop()
            waiting.pop()
            closed.end = end if not closed.block else max([closed.end, *(one.end for one in closed.keys.values())])
            _reach(around, closed.end)
        elif isinstance(event, yaml.NodeEvent):
            holder = around[-1] if around else None
            if holder and holder[1] and waiting[-1] is None and isinstance(event, yaml.ScalarEvent):
                waiting[-1] = holder[0].keys[event.value] = _Entry(key_start=start, key_end=end)
                continue
            entry = waiting[-1] or _Entry(key_start=start, key_end=start)
            entry.start, entry.end = start, end
            if holder and holder[1]:
                waiting[-1] = None
            if isinstance(event, yaml.ScalarEvent):
                entry.value = None if not event.style and event.value in ("", "~", "null") else event.value
                _reach(around, end)
            else:
                entry.keyed, entry.block = isinstance(event, yaml.MappingStartEvent), text[start] not in "{["
                around.append((entry, entry.keyed))
                waiting.append(None)
    return top


def _reach(around: list[tuple[_Entry, bool]], end: int) -> None:
    """Lets what is open reach as far as what stands in it."""
    if around:
        around[-1][0].end = max(around[-1][0].end, end)
