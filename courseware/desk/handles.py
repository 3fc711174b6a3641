"""Files and folders by handle: a request names one that the desk has shown, never a path."""

from __future__ import annotations

import hashlib
import secrets
from pathlib import Path


class Handles:
    """The paths that pages have shown; a path keeps its handle as long as the desk runs."""

    def __init__(self) -> None:
        self._key = secrets.token_bytes(32)
        self._paths: dict[str, Path] = {}

    def of(self, path: Path) -> str:
        """The handle of a path, which can be asked for from now on."""
        whole = path.absolute()
        handle = hashlib.blake2b(str(whole).encode("utf-8", "surrogatepass"), key=self._key, digest_size=15).hexdigest()
        self._paths[handle] = whole
        return handle

    def path(self, handle: str) -> Path | None:
        """The path that a handle stands for; none for a handle that this run of the desk never gave."""
        return self._paths.get(handle)
