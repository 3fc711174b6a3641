"""Who sits at the desk: an address that works once is exchanged for a session, which ends when it is left idle."""

from __future__ import annotations

import hmac
import secrets
import time
from collections.abc import Callable
from dataclasses import dataclass, field


@dataclass(slots=True)
class Session:
    """One browser let in: its cookie, the token that its forms carry, and what it is to be told on its next page."""

    cookie: str
    form_token: str
    who: str
    seen: float
    notes: list[str] = field(default_factory=list)


class Sessions:
    """The sessions of one run of the desk.

    `idle` is in seconds of the wall clock, so that a machine that slept meanwhile counts as left alone.
    """

    def __init__(self, *, who: str, idle: float, now: Callable[[], float] = time.time) -> None:
        self.idle = idle
        self._who, self._now = who, now
        self._token = ""
        self._open: list[Session] = []

    def offer(self) -> tuple[str, bool]:
        """The token that lets the next browser in, once; and whether it is a new one."""
        new = not self._token
        if new:
            self._token = secrets.token_urlsafe(24)
        return self._token, new

    def enter(self, token: str) -> Session | None:
        """A session for the token on offer, which is used up then; none for any other."""
        if not self._token or not hmac.compare_digest(token.encode(), self._token.encode()):
            return None
        self._token = ""
        return self.begin()

    def begin(self) -> Session:
        """A session for somebody who has shown who they are."""
        made = Session(
            cookie=secrets.token_urlsafe(32), form_token=secrets.token_urlsafe(24), who=self._who, seen=self._now()
        )
        self._open.append(made)
        return made

    def find(self, cookie: str, *, touch: bool = True) -> Session | None:
        """The session of a cookie; none for a strange one or one left idle. `touch` counts as somebody at work."""
        now = self._now()
        self._open = [one for one in self._open if 0 <= now - one.seen < self.idle]
        for one in self._open:
            if hmac.compare_digest(one.cookie.encode(), cookie.encode()):
                if touch:
                    one.seen = now
                return one
        return None

    def end(self, session: Session) -> None:
        """Signs out."""
        self._open = [one for one in self._open if one is not session]
