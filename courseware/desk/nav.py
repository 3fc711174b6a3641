"""A screen's place in the navigation."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Nav:
    """What the navigation calls a screen, where it is, and its place among the others (1 is first)."""

    title: str
    address: str
    place: int
