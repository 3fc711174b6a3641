"""Saved practices as the page writes them, for tests that need no browser."""

from __future__ import annotations

import json
from typing import Any

from courseware.practice.saved_file import seal_of

SLIP = "The joint at the far end was left out"


def practised(
    exercise: str = "Opening for a panel", *, secure: bool = False, slips: tuple[str, ...] = ()
) -> dict[str, Any]:
    return {
        "topic": "Opening sizes",
        "exercise": exercise,
        "level": 1,
        "questions": 5,
        "secure": secure,
        "slips": list(slips),
    }


def saved(
    name: str = "Amira Khan", start: int = 1, days: int = 1, kinds: list[dict[str, Any]] | None = None, **more: Any
) -> dict[str, Any]:
    """A whole one, sealed; `more` is put into it afterwards, as by hand."""
    found = {
        "form": "courseware-practice",
        "version": 2,
        "title": "Opening sizes",
        "name": name,
        "saved": "2026-03-31",
        "days": [{"day": f"2026-03-{day:02}", "questions": 10, "right": 7} for day in range(1, days + 1)],
        "practised": [practised()] if kinds is None else kinds,
        "memory": {"form": 1, "start": start, "kinds": {}},
    }
    return {**found, "seal": seal_of(found)} | more


def as_bytes(found: dict[str, Any]) -> bytes:
    return json.dumps(found, ensure_ascii=False, indent=1).encode()
