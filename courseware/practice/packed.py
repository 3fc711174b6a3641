"""What the page holds, packed: raw deflate (RFC 1951) in base64, all of it ASCII, which a browser reads fastest."""

from __future__ import annotations

import base64
import json
import zlib
from typing import cast

from courseware.practice.part_kind import Data


def packed(data: Data) -> str:
    """Plain data as one JSON text, packed."""
    return _packed(_json(data))


def packed_kind(data: Data) -> str:
    """A kind as `kind_data` gives it, packed in lines: the first says what all share and how many questions follow.

    Then a line a question, then one for each line of their drawings: a browser reads the one question that is asked.
    """
    variants, lines = cast("list[Data]", data["variants"]), cast("list[str]", data["lines"])
    head = {"notes": data["notes"], "questions": len(variants)}
    return _packed("\n".join([_json(head), *map(_json, variants), *lines]))


def _packed(text: str) -> str:
    packer = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    return base64.b64encode(packer.compress(text.encode()) + packer.flush()).decode()


def _json(data: Data) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
