"""The passphrase that a desk asks for which other machines can reach: compared in constant time, not tried for ever."""

from __future__ import annotations

import hmac
import time
from collections.abc import Callable

LEAST = 12  # characters
MOST_TRIES, WITHIN = 10, 600.0  # wrong ones, in seconds


class Passphrase:
    """One passphrase, and how often it was got wrong lately, by whomever."""

    def __init__(self, text: str, now: Callable[[], float] = time.monotonic) -> None:
        self._text, self._now = text.encode(), now
        self._wrong: list[float] = []

    def matches(self, typed: str) -> bool | None:
        """Whether it is the one; none where it was got wrong too often for any to be looked at now."""
        now = self._now()
        self._wrong = [at for at in self._wrong if now - at < WITHIN]
        if len(self._wrong) >= MOST_TRIES:
            return None
        right = hmac.compare_digest(typed.encode("utf-8", "replace"), self._text)
        if not right:
            self._wrong.append(now)
        return right
