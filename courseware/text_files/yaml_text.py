"""YAML as text with its places: read event by event, nothing converted, whatever is ambiguous refused.

YAML turns plain 1:5 into 65, 0123 into 83, `no` into false and 1e3 into a word or a number; here every scalar stays the
text that was typed, and text that YAML would turn is refused with the advice to put quotes round it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import yaml

from courseware.text_files.decoding import TAKE_OUT, decoded, strange_signs
from courseware.text_files.faults import BankFaulty, Fault, harmless, unseen
from courseware.text_files.yaml_quotes import QUOTES, cut_off, turned, unreadable
from courseware.text_files.yaml_tree import Keyed, Listing, Node, Text

MOST_NODES = 20_000
MOST_DEPTH = 20
_MOST_FAULTS = 50
_IF_TEXT = f"if it is text, {QUOTES}"
_LINE_ENDS = {0x85: " ", 0x2028: " ", 0x2029: " "}  # YAML would count these as new lines


@dataclass(slots=True)
class _Open:
    """A list or map still being read."""

    keyed: bool
    flow: bool  # in { } or [ ], where a comma ends a text
    line: int
    column: int
    nodes: list[Node] = field(default_factory=list)  # of a map: key, value, key, value …
    keys: dict[str, int] = field(default_factory=dict)  # with the line each stands on

    @property
    def wants_key(self) -> bool:
        return self.keyed and len(self.nodes) % 2 == 0

    def close(self) -> Node:
        if not self.keyed:
            return Listing(tuple(self.nodes), self.line, self.column)
        pairs: dict[str | None, tuple[Text, Node]] = {}
        for key, value in zip(self.nodes[::2], self.nodes[1::2], strict=True):
            if isinstance(key, Text):
                pairs.setdefault(key.value, (key, value))  # one that stands twice is read where it stands first
        return Keyed(tuple(pairs.values()), self.line, self.column)


class _Stop(Exception):
    """No more can be read."""


def read_yaml(data: bytes, file: str, *, may_be_empty: bool = False) -> Keyed:
    """The one document in `data`. Raises `BankFaulty` with every fault that YAML alone shows.

    `may_be_empty`: a file with nothing in it, or comments alone, is a map without keys.
    """
    node, faults = read_on(data, file, may_be_empty=may_be_empty)
    if faults:
        raise BankFaulty(faults)
    return node


def read_on(data: bytes, file: str, *, may_be_empty: bool = False) -> tuple[Keyed, tuple[Fault, ...]]:
    """The one document in `data`, and the faults of single values or keys, so that the rest can be looked at too.

    Raises `BankFaulty` where a fault leaves no tree to read on in.
    """
    text = decoded(data, file)
    reader = _Reader(file, list(strange_signs(text, file)))
    node: Node | None = None
    whole = False
    try:
        node = reader.read(text.translate(_LINE_ENDS))
        whole = True
    except _Stop:
        pass
    except yaml.YAMLError as error:
        if not (isinstance(error, yaml.reader.ReaderError) and reader.faults):  # a character that is reported already
            reader.faults.append(_unreadable(error, text, file))
    faults = _bounded(reader.faults, file)
    if faults and not (whole and isinstance(node, Keyed)):
        raise BankFaulty(faults)
    if node is None and may_be_empty:
        return Keyed((), 1, 1), ()
    if not isinstance(node, Keyed):
        wrong = "the file is empty" if node is None else "the file is not a map of keys"
        raise BankFaulty((Fault(file, 1, 1, wrong, "expected keys with a colon, such as `topic: Opening sizes`"),))
    return node, faults


class _Reader:
    """Builds the tree of one file, event by event and without recursion; faults are kept in `faults`."""

    def __init__(self, file: str, faults: list[Fault]) -> None:
        self.file = file
        self.faults = faults
        self._open: list[_Open] = []
        self._documents = 0
        self._nodes = 0
        self._lines: list[str] = []

    def read(self, text: str) -> Node | None:
        """The top of the tree; None for a file with nothing in it. Raises `_Stop` where reading on makes no sense."""
        top: Node | None = None
        self._lines = text.split("\n")
        for event in yaml.parse(text, Loader=yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader):
            if isinstance(event, yaml.DocumentStartEvent):
                self._begin_document(event)
            elif isinstance(event, yaml.NodeEvent):
                self._weigh(event)
                if isinstance(event, yaml.ScalarEvent):
                    top = self._place(self._text(event))
                else:
                    line, column = _start(event)
                    keyed, flow = isinstance(event, yaml.MappingStartEvent), bool(getattr(event, "flow_style", False))
                    self._open.append(_Open(keyed, flow, line, column))
            elif isinstance(event, yaml.CollectionEndEvent):
                closed = self._open.pop()
                if closed.flow:
                    self._check_commas(closed)
                top = self._place(closed.close())
        return None if isinstance(top, Text) and top.value is None else top

    def _fault(self, place: tuple[int, int], wrong: str, expected: str) -> None:
        self.faults.append(Fault(self.file, *place, wrong, expected))

    def _begin_document(self, event: yaml.Event) -> None:
        self._documents += 1
        if self._documents > 1:
            self._fault(_start(event), "a second document starts here", "one document to a file")
            raise _Stop

    def _weigh(self, event: yaml.NodeEvent) -> None:
        """Refuses what banks do not have, and more than can be read."""
        self._nodes += 1
        anchor, tag = event.anchor, getattr(event, "tag", None)
        if isinstance(event, yaml.AliasEvent):
            wrong, expected = f"`*{harmless(str(anchor))}` is an alias, which banks do not have", _IF_TEXT
        elif anchor is not None:
            wrong, expected = f"`&{harmless(str(anchor))}` is an anchor, which banks do not have", _IF_TEXT
        elif tag is not None:
            wrong, expected = f"the tag `{harmless(str(tag))}`, which banks do not have", _IF_TEXT
        elif self._nodes > MOST_NODES:
            wrong, expected = "too many entries", f"at most {MOST_NODES} to a file"
        elif len(self._open) >= MOST_DEPTH and not isinstance(event, yaml.ScalarEvent):
            wrong, expected = "nested too deep", f"at most {MOST_DEPTH} levels"
        else:
            return
        self._fault(_start(event), wrong, expected)
        raise _Stop

    def _text(self, event: yaml.ScalarEvent) -> Text:
        place = _start(event)
        plain = not event.style
        value: str = event.value
        if not plain and (
            strange := next((character for character in value if unseen(character) and character not in "\n\t"), None)
        ):
            if not any(fault.line == place[0] and fault.expected == TAKE_OUT for fault in self.faults):
                self._fault(place, f"the unseen character {harmless(strange)}", TAKE_OUT)
        elif plain and not (self._open and self._open[-1].wants_key):
            if value in ("", "~", "null"):
                return Text(None, plain, *place)
            self._check_cut(event)
            if says := turned(value):
                self._fault(place, f"`{harmless(value)}` is not safe without quotes: {says}", QUOTES)
        return Text(value, plain, *place)

    def _check_cut(self, event: yaml.ScalarEvent) -> None:
        """Refuses text that a # cuts off: YAML takes the rest of the line for a comment."""
        end = event.end_mark
        rest = self._lines[end.line][end.column :] if end and end.line < len(self._lines) else ""
        if cut_off(event.value, rest):
            wrong = f"`{harmless(rest.strip()[:30])}` is cut off, since a # after a blank begins a comment"
            self._fault(
                _start(event), wrong, f"if it is text, {QUOTES}; if it is a comment, put two blanks before the #"
            )

    def _check_commas(self, closed: _Open) -> None:
        """Refuses texts that a comma has split in { } or [ ]."""
        nodes = closed.nodes
        if closed.keyed:
            for place, (key, value) in enumerate(zip(nodes[::2], nodes[1::2], strict=True)):
                empty = isinstance(value, Text) and value.plain and value.value is None
                name, text = nodes[2 * place - 2 : 2 * place] or (None, None)
                if empty and isinstance(key, Text) and isinstance(name, Text) and isinstance(text, Text) and text.plain:
                    self._split(key, f'{name.value}: "{text.value}, {key.value}"', "{ }")
            return
        whole: list[Node] = nodes[:1]  # what a comma has split counts as one further on
        for before, item in pairwise(nodes):
            if isinstance(before, Text) and isinstance(item, Text) and goes_on(before, item):
                self._split(item, f'"{before.value}, {item.value}"', "[ ]")
            else:
                whole.append(item)
        closed.nodes = whole

    def _split(self, item: Text, whole: str, where: str) -> None:
        wrong = f"`{harmless(str(item.value)[:30])}` is split off, since a comma ends a text inside {where}"
        self._fault((item.line, item.column), wrong, f"put quotes round a text with a comma, as {harmless(whole[:80])}")

    def _place(self, node: Node) -> Node:
        """Puts a node into the list or map that is open; gives it back."""
        if self._open:
            around = self._open[-1]
            if around.wants_key:
                self._check_key(node, around)
            around.nodes.append(node)
        return node

    def _check_key(self, node: Node, around: _Open) -> None:
        place = node.line, node.column
        if not isinstance(node, Text) or node.value is None:
            self._fault(place, "a key that is not text (text that starts with {{ or [ needs quotes)", QUOTES)
            raise _Stop
        if node.value == "<<":
            self._fault(place, "`<<` merges maps, which banks do not have", "write the keys out")
            raise _Stop
        if node.value in around.keys:
            wrong = f"the key `{harmless(node.value)}` stands on line {around.keys[node.value]} too"
            self._fault(place, wrong, "each key once")
        around.keys.setdefault(node.value, node.line)


def goes_on(before: Text, item: Text) -> bool:
    """Whether an item of a list goes on with the text before it: several words, a small letter after a capital."""
    one, other = before.value or "", item.value or ""
    return before.plain and item.plain and " " in other and one[:1].isupper() and other[:1].islower()


def beside(told: Sequence[Fault], more: Iterable[Fault]) -> tuple[Fault, ...]:
    """All faults in the order of the file: those `told` by `read_on`, and of `more` those that do not come of them.

    What stands where a fault is told comes of it; of an unseen character, all on its line.
    """
    places = {(fault.line, fault.column) for fault in told}
    lines = {fault.line for fault in told if fault.expected == TAKE_OUT}
    apart = [fault for fault in more if (fault.line, fault.column) not in places and fault.line not in lines]
    return tuple(sorted((*told, *apart), key=lambda fault: (fault.line, fault.column)))


def _start(event: yaml.Event) -> tuple[int, int]:
    mark = event.start_mark
    return (mark.line + 1, mark.column + 1) if mark else (1, 1)


def _unreadable(error: yaml.YAMLError, text: str, file: str) -> Fault:
    """The fault for what YAML itself cannot read."""
    if "quoted scalar" in str(getattr(error, "context", "")) and "end of" in str(getattr(error, "problem", "")):
        mark = getattr(error, "context_mark", None)
        wrong, expected = "a quotation mark opened here is never closed", "expected marks in pairs"
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        return Fault(file, line, column, wrong, expected)
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
    lines = text.split("\n")
    shown = lines[line - 1] if line <= len(lines) else ""
    problem = harmless(str(getattr(error, "problem", None) or "the text breaks off"))
    if "nesting depth" in problem:  # the C reader's own limit, met while it looks ahead
        return Fault(file, line, column, "nested too deep", f"at most {MOST_DEPTH} levels")
    return Fault(file, line, column, *unreadable(shown, problem))


def _bounded(faults: Sequence[Fault], file: str) -> tuple[Fault, ...]:
    """The faults in the order of the file, the last of very many counted rather than told."""
    told = list(beside(faults, ()))
    if len(told) > _MOST_FAULTS:
        last = told[_MOST_FAULTS - 1]
        wrong = f"{len(told) - _MOST_FAULTS} more faults after this line"
        told[_MOST_FAULTS:] = [Fault(file, last.line, last.column, wrong, "mend these first")]
    return tuple(told)
