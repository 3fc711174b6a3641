"""A packed kind of a practice page read back."""

from __future__ import annotations

import base64
import json
import zlib
from typing import Any


def unpacked_text(packed: str) -> str:
    """What raw deflate (RFC 1951) in base64 holds."""
    return zlib.decompress(base64.b64decode(packed), -15).decode()


def unpacked_kind(packed: str) -> dict[str, Any]:
    """Its cautions, its questions and the lines of their drawings."""
    head, *lines = unpacked_text(packed).split("\n")
    shared = json.loads(head)
    questions = [json.loads(line) for line in lines[: shared["questions"]]]
    return {"notes": shared["notes"], "variants": questions, "lines": lines[shared["questions"] :]}
