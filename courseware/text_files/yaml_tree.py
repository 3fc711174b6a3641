"""A YAML file as a tree of texts, lists and maps, each with its place: found by a path of keys and list places."""

from __future__ import annotations

from dataclasses import dataclass


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


def key_place(node: Node, path: tuple[str | int, ...]) -> tuple[int, int]:
    """Line and column of the key that ends `path`."""
    above = node_at(node, path[:-1])
    keys = [key for key, _ in above.entries if key.value == path[-1]] if isinstance(above, Keyed) else []
    return (keys[0].line, keys[0].column) if keys else place(node, path)
