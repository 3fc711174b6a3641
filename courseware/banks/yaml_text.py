"""YAML as text with its places: read event by event, nothing converted, whatever is ambiguous refused.

YAML turns plain 1:5 into 65, 0123 into 83, `no` into false and 1e3 into a word or a number; here every scalar stays the
text that was typed, and text that YAML would turn is refused with the advice to put quotes round it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from courseware.banks.faults import BankFaulty, Fault, harmless, unseen

MOST_BYTES = 1_000_000
MOST_NODES = 20_000
MOST_DEPTH = 20
_MOST_FAULTS = 50
_QUOTES = "put quotes round it"
_LINE_ENDS = {0x85: " ", 0x2028: " ", 0x2029: " "}  # YAML would count these as new lines

_TURNED: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern, re.ASCII | re.IGNORECASE), says)
    for pattern, says in (
        (r"[+-]?[0-9]+(:[0-9]+)+(\.[0-9]*)?", "YAML reads it as a time or a number to base 60"),
        (r"[+-]?0[0-9]+", "YAML may read a number that starts with 0 as octal"),
        (r"[+-]?[0-9][0-9_]*_[0-9_]*(\.[0-9_]*)?", "YAML drops the underscores"),
        (r"[+-]?0[xob][0-9a-f_]+", "YAML reads it as another number"),
        (r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}([t ].*)?", "YAML reads it as a date"),
        (r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)e[+-]?[0-9]+", "YAML reads it as a power of ten; write the digits out"),
        (r"[+-]?\.(inf|nan)", "YAML reads it as no number at all"),
        (r"yes|no|on|off", "YAML reads it as true or false"),
    )
)


@dataclass(frozen=True, slots=True)
class Text:
    """A scalar as typed; None for nothing (empty, ~ or null). `plain` where it stands without quotes."""

    value: str | None
    plain: bool
    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Listing:
    """A list and where it starts."""

    items: tuple[Node, ...]
    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Keyed:
    """A map, its entries in order, and where it starts."""

    entries: tuple[tuple[Text, Node], ...]
    line: int
    column: int


Node = Text | Listing | Keyed


@dataclass(slots=True)
class _Open:
    """A list or map still being read."""

    keyed: bool
    line: int
    column: int
    nodes: list[Node] = field(default_factory=list)  # of a map: key, value, key, value …

    def close(self) -> Node:
        if not self.keyed:
            return Listing(tuple(self.nodes), self.line, self.column)
        pairs = zip(self.nodes[::2], self.nodes[1::2], strict=True)
        return Keyed(tuple((k, v) for k, v in pairs if isinstance(k, Text)), self.line, self.column)


class _Stop(Exception):
    """No more can be read."""


def read_yaml(data: bytes, file: str) -> Keyed:
    """The one document in `data`. Raises `BankFaulty` with every fault that can be told at once."""
    text = _decoded(data, file)
    faults: list[Fault] = list(_strange_signs(text, file))
    node: Node | None = None
    try:
        node = _build(text.translate(_LINE_ENDS), file, faults)
    except _Stop:
        pass
    except yaml.YAMLError as error:
        faults.append(_unreadable(error, text, file))
    if faults:
        raise BankFaulty(tuple(sorted(faults[:_MOST_FAULTS], key=lambda fault: (fault.line, fault.column))))
    if not isinstance(node, Keyed):
        wrong = "the file is empty" if node is None else "the file is not a map of keys"
        raise BankFaulty((Fault(file, 1, 1, wrong, "expected keys with a colon, such as `topic: Opening sizes`"),))
    return node


def plain_data(node: Node) -> object:
    """The node as dicts, lists, text and None."""
    if isinstance(node, Text):
        return node.value
    if isinstance(node, Listing):
        return [plain_data(item) for item in node.items]
    return {key.value: plain_data(value) for key, value in node.entries}


def node_at(node: Node, path: tuple[str | int, ...]) -> Node | None:
    """The node at a path of keys and list places, or None where the path ends sooner."""
    found: Node | None = node
    for step in path:
        if isinstance(found, Keyed):
            found = next((value for key, value in found.entries if key.value == step), None)
        elif isinstance(found, Listing) and isinstance(step, int) and step < len(found.items):
            found = found.items[step]
        else:
            return None
    return found


def text_at(node: Node, path: tuple[str | int, ...]) -> Text | None:
    """The scalar at a path, or None where there is none."""
    found = node_at(node, path)
    return found if isinstance(found, Text) else None


def place(node: Node, path: tuple[str | int, ...]) -> tuple[int, int]:
    """Line and column of what stands at `path`: a scalar itself, else its key; of a missing key, its map."""
    for length in range(len(path), -1, -1):
        found = node_at(node, path[:length])
        if found is None:
            continue
        above = node_at(node, path[: length - 1]) if length else None
        if isinstance(above, Keyed) and not (isinstance(found, Text) and found.value is not None):
            key = next(key for key, _ in above.entries if key.value == path[length - 1])
            return key.line, key.column
        return found.line, found.column
    return 1, 1


def _decoded(data: bytes, file: str) -> str:
    def refuse(line: int, wrong: str, expected: str) -> BankFaulty:
        return BankFaulty((Fault(file, line, 1, wrong, expected),))

    if len(data) > MOST_BYTES:
        raise refuse(1, f"the file has {len(data)} bytes", f"at most {MOST_BYTES} are read")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise refuse(1, "the file is UTF-16", "save it as UTF-8")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        wrong = f"byte 0x{data[error.start]:02x} is not UTF-8; the file may be in a Windows or Latin encoding"
        raise refuse(line, wrong, "save as UTF-8") from None


def _strange_signs(text: str, file: str) -> Iterator[Fault]:
    if text.isascii() and text.isprintable():
        return
    for number, line in enumerate(text.split("\n"), 1):
        for column, sign in enumerate(line, 1):
            if sign > "~" or sign < " ":
                if sign == "\t" or not unseen(sign):
                    continue
                yield Fault(file, number, column, f"the unseen character {harmless(sign)}", "take it out")
                break


def _build(text: str, file: str, faults: list[Fault]) -> Node | None:
    loader = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader
    open_nodes: list[_Open] = []
    top: Node | None = None
    count = documents = 0
    for event in yaml.parse(text, Loader=loader):
        line, column = event.start_mark.line + 1, event.start_mark.column + 1
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if documents > 1:
                faults.append(Fault(file, line, column, "a second document starts here", "one document to a file"))
                raise _Stop
        if not isinstance(event, yaml.NodeEvent | yaml.CollectionEndEvent):
            continue
        count += 1
        _refuse_anchors(event, file, line, column, faults)
        if count > MOST_NODES or len(open_nodes) > MOST_DEPTH:
            wrong = "nested too deep" if len(open_nodes) > MOST_DEPTH else "too many entries"
            faults.append(Fault(file, line, column, wrong, f"at most {MOST_DEPTH} levels and {MOST_NODES} entries"))
            raise _Stop
        node: Node
        if isinstance(event, yaml.MappingStartEvent | yaml.SequenceStartEvent):
            open_nodes.append(_Open(isinstance(event, yaml.MappingStartEvent), line, column))
            if len(open_nodes) > MOST_DEPTH:
                faults.append(Fault(file, line, column, "nested too deep", f"at most {MOST_DEPTH} levels"))
                raise _Stop
            continue
        if isinstance(event, yaml.ScalarEvent):
            node = _text(event, file, faults, key=_wants_key(open_nodes))
        else:
            node = open_nodes.pop().close()
        if not open_nodes:
            top = node
            continue
        if _wants_key(open_nodes):
            _check_key(node, open_nodes[-1], file, faults)
        open_nodes[-1].nodes.append(node)
    return top


def _wants_key(open_nodes: list[_Open]) -> bool:
    return bool(open_nodes) and open_nodes[-1].keyed and len(open_nodes[-1].nodes) % 2 == 0


def _refuse_anchors(event: yaml.Event, file: str, line: int, column: int, faults: list[Fault]) -> None:
    if isinstance(event, yaml.AliasEvent):
        wrong = f"`*{harmless(str(event.anchor))}` is an alias, which banks do not have"
        faults.append(Fault(file, line, column, wrong, f"if it is text, {_QUOTES}"))
        raise _Stop
    if getattr(event, "anchor", None) is not None and isinstance(event, yaml.NodeEvent):
        wrong = f"`&{harmless(str(event.anchor))}` is an anchor, which banks do not have"
        faults.append(Fault(file, line, column, wrong, f"if it is text, {_QUOTES}"))
        raise _Stop
    if getattr(event, "tag", None) is not None:
        wrong = f"the tag `{harmless(str(event.tag))}`, which banks do not have"
        faults.append(Fault(file, line, column, wrong, f"if it is text, {_QUOTES}"))
        raise _Stop


def _text(event: yaml.ScalarEvent, file: str, faults: list[Fault], *, key: bool) -> Text:
    line, column = event.start_mark.line + 1, event.start_mark.column + 1
    plain = event.style is None or event.style == ""
    value: str = event.value
    if not plain and (strange := next((s for s in value if unseen(s) and s not in "\n\t"), None)):
        faults.append(Fault(file, line, column, f"the unseen character {harmless(strange)}", "take it out"))
    if plain and not key:
        if value in ("", "~", "null"):
            return Text(None, plain, line, column)
        if says := _turned(value):
            faults.append(Fault(file, line, column, f"`{harmless(value)}` is not safe without quotes: {says}", _QUOTES))
    return Text(value, plain, line, column)


def _turned(value: str) -> str | None:
    """Why a plain scalar is refused, or None."""
    if value.isdigit() and len(value) > 15:
        return "it has more than 15 digits"
    if len(value) > 40:
        return None
    if value in ("Null", "NULL"):
        return "for nothing, write ~, null or leave it empty"
    if value.lower() in ("true", "false") and value not in ("true", "false"):
        return "only true and false are truths; if it is text,"
    return next((says for pattern, says in _TURNED if pattern.fullmatch(value)), None)


def _check_key(node: Node, keyed: _Open, file: str, faults: list[Fault]) -> None:
    if not isinstance(node, Text) or node.value is None:
        wrong = "a key that is not text (text that starts with {{ or [ needs quotes)"
        faults.append(Fault(file, node.line, node.column, wrong, _QUOTES))
        raise _Stop
    if node.value == "<<":
        faults.append(
            Fault(file, node.line, node.column, "`<<` merges maps, which banks do not have", "write the keys out")
        )
    for earlier in keyed.nodes[::2]:
        if isinstance(earlier, Text) and earlier.value == node.value:
            wrong = f"the key `{harmless(node.value)}` stands on line {earlier.line} too"
            faults.append(Fault(file, node.line, node.column, wrong, "each key once"))
            return


def _unreadable(error: yaml.YAMLError, text: str, file: str) -> Fault:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    lines = text.split("\n")
    shown = lines[line - 1] if line <= len(lines) else ""
    value = shown.partition(":")[2].strip() or shown.strip().removeprefix("- ").strip()
    if re.match(r" *\t", shown[:200]):
        return Fault(file, line, column, "a tab stands in the indentation", "use spaces")
    if value[:1] in tuple("{[%@`*&!|>"):
        return Fault(file, line, column, f"text that starts with {value[0]} does not read", _QUOTES)
    if ": " in value or value.endswith(":"):
        return Fault(file, line, column, "text with ': ' in it does not read", _QUOTES)
    if not shown.strip():
        return Fault(file, line, column, "the file ends in the middle of something", "check quotes and brackets")
    problem = harmless(str(getattr(error, "problem", "") or "the text breaks off"))
    return Fault(
        file, line, column, f"this does not read as YAML ({problem})", "check indentation, quotes and brackets"
    )
