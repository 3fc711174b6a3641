"""Dates as sheets print them."""

from __future__ import annotations

from datetime import date

_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def in_full(day: str) -> str:
    """A date of ISO 8601 as sheets print it, `5 January 2026`; '' for none.

    >>> in_full("2026-01-05")
    '5 January 2026'
    """
    if not day:
        return ""
    on = date.fromisoformat(day)
    return f"{on.day} {_MONTHS[on.month - 1]} {on.year}"
