"""The one way to the kinds of part: what a room asks of a kind, found by the kind's name.

A kind is a folder of `courseware.part_kinds` with a module for each room that asks something of it. The rooms stand
below that package and do not import it: a kind's module is brought in by its name when its room first asks for it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib import import_module
from importlib.util import find_spec
from pkgutil import iter_modules
from typing import Generic, TypeVar

from courseware.banks.part import Part
from courseware.banks.reading import Path, Scope
from courseware.banks.shapes import PartShape
from courseware.text_files.shapes import Shape

_KINDS = "courseware.part_kinds"
_Asked = TypeVar("_Asked")


class RoomKinds(Generic[_Asked]):
    """What one room asks of each kind of part: of kind `x`, the `KIND` of `courseware.part_kinds.x.<room>`."""

    def __init__(self, room: str, form: type[_Asked]) -> None:
        self._room = room
        self._form = form
        self._found: dict[str, _Asked | None] = {}

    def __getitem__(self, name: str) -> _Asked:
        """Raises `KeyError` for a kind that is not known in this room."""
        found = self.get(name)
        if found is None:
            raise KeyError(name)
        return found

    def get(self, name: str) -> _Asked | None:
        """What is asked of the kind of this name; None where there is no such kind in this room."""
        if name not in kind_folders():
            return None
        if name not in self._found:
            self._found[name] = self._load(f"{_KINDS}.{name}.{self._room}")
        return self._found[name]

    def _load(self, module: str) -> _Asked | None:
        if find_spec(module) is None:
            return None
        kind = import_module(module).KIND
        if not isinstance(kind, self._form):
            raise TypeError(f"{module}.KIND is no {self._form.__name__}")
        return kind


def kind_places() -> tuple[str, ...]:
    """The folders in which the kinds' own folders stand."""
    return tuple(import_module(_KINDS).__path__)


def kind_folders() -> tuple[str, ...]:
    """The names of the kinds there are, by the alphabet."""
    return _folders(kind_places())


@lru_cache(maxsize=8)
def _folders(places: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(sorted(found.name for found in iter_modules(places) if found.ispkg))


def _no_rows(shape: PartShape) -> Sequence[str]:
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class KindInBank:
    """A kind of part as a bank holds it."""

    place: int  # where it stands when the kinds are listed
    keys: type[Shape]  # its own, besides name, kind, ask and marks
    needed: tuple[str, ...]  # keys that must be there and not empty
    bind: Callable[[PartShape, Scope, Path], Part]
    rows: Callable[[PartShape], Sequence[str]] = _no_rows  # the names of its rows, where it has any


BANK_KINDS = RoomKinds("bank", KindInBank)


def listed_kinds() -> tuple[str, ...]:
    """The names of the kinds that a bank may ask for, in the order in which they are listed."""
    return tuple(sorted(kind_folders(), key=lambda name: (BANK_KINDS[name].place, name)))
