"""A screen's place in the navigation."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Nav:
    """What the navigation calls a screen, where it is, and its place among the others (1 is first).

    `also` is a pattern of whole paths of other pages that belong to the screen.
    """

    title: str
    address: str
    place: int
    also: str = ""

    def holds(self, path: str) -> bool:
        """Whether the page at a path belongs to this screen.

        >>> Nav(title="Mark", address="/mark", place=3, also="/sittings/[^/]+/grid").holds("/sittings/KKKK/grid")
        True
        """
        own = path == self.address or path.startswith(f"{self.address}/")
        return own or bool(self.also and re.fullmatch(self.also, path))
